"""Every page at both sizes: no fault of accessibility, nothing wider than the screen, no target too small."""

import pytest
from faults import faults
from filled import filled
from served import PHONE, TABLET, Served, take
from watched import watched

pytestmark = pytest.mark.peer("chromium")

PATHS = (
    "/",
    "/orders/JL-7",
    "/orders/JL-7/text",
    "/orders/JL-7/versions",
    "/panel",
    "/panel/JL-7",
    "/panel/JL-7?side=bench",
    "/build",
    "/build/JL-7",
    "/build/JL-7/0042",
    "/build/JL-7/0042/built",
    "/papers",
    "/papers/JL-7",
    "/papers/JL-7/book.pdf/pages?page=2&wait=1",
    "/shelf",
    "/cut",
    "/cut/1",
    "/buy",
    "/orders/JL-7/quote",
    "/orders/JL-7/kit",
    "/orders/JL-7/plan",
    "/catalogue",
    "/lots",
    "/lots/S1",
    "/lots/S1/labels",
    "/batches/B-9",
    "/instruments",
    "/rules",
    "/instruments/Meter%201",
    "/customers",
    "/customers/K-7",
    "/customers/K-7/erase",
    "/orders/JL-7/customer",
    "/records",
    "/records/backups/BACKUP/back",
    "/serial",
    "/serial/0042",
    "/here",
    "/enter",
    "/nothing",
)
LATER = {
    "/buy": ".ordered",
    "/orders/JL-7/quote": "#q-sum",
    "/orders/JL-7/kit": "#kitlist .tick",
    "/orders/JL-7/plan": ".daylist",
}


def prepare(page, served):
    """A shop with something in every place."""
    take(page, served, "jetty")
    page.locator("#seen .verdict:not(.wait)").wait_for(timeout=30_000)
    page.goto(f"{served.url}/build/JL-7")
    page.get_by_role("button", name="Begin 4 panels").click()
    page.get_by_role("link", name="0042").click()
    page.locator(".steps > li.now").get_by_role("button", name="Done").click()
    page.get_by_text("1 of 18 done").wait_for()
    page.goto(f"{served.url}/panel/JL-7")
    page.locator("#cell-7").click()
    page.get_by_text("Cell 7 changed").wait_for()
    furnish(page, served)


def cut_and_offer(page, served):
    """A cutting plan of which one row is ticked, and a price list of one size."""
    page.goto(f"{served.url}/shelf")
    page.get_by_text("Something came in or went out").click()
    filled(page, m_item="angle 50 x 50 x 4 mm", m_amount="3", m_unit="bar")
    page.locator("#d-move button").click()
    page.get_by_text("3 bar").first.wait_for()
    page.goto(f"{served.url}/cut?order=JL-7")
    page.get_by_role("button", name="Make the plan").click()
    page.wait_for_url("**/cut/1", timeout=60_000)
    page.get_by_role("button", name="Cut row 1", exact=True).click()
    page.get_by_text("1 is cut").wait_for()
    page.goto(f"{served.url}/buy")
    page.locator("#st-JL-7 > summary").click()
    page.locator("#st-JL-7 button").click()
    page.locator(".ordered").first.wait_for(timeout=60_000)
    page.locator("#b-no-1").fill("P-1")
    page.locator(".ordered button").first.click()
    page.get_by_text("P-1/1 of").wait_for(timeout=60_000)
    page.goto(f"{served.url}/catalogue")
    filled(page, c_columns="4", c_rows="6")
    page.get_by_role("button", name="Write the range").click()
    page.get_by_role("button", name="Reckon every size").click()
    page.get_by_role("heading", name="Jetty lights").wait_for(timeout=60_000)


def furnish(page, served):
    """Two lots, a meter, a customer, a claim, and what happened to the first panel."""
    for mark, kind, name, until in (
        ("C1", "cells", "125 mm", ""),
        ("S1", "silicone", "neutral", "2020-05-01"),
    ):
        page.goto(f"{served.url}/lots")
        filled(page, l_mark=mark, l_kind=kind, l_name=name, l_unit="each", l_amount="40", l_batch="B-9")
        page.locator("#l-expires").fill(until)
        page.locator("#lotform button").click()
        page.wait_for_url(f"**/lots/{mark}")
    page.goto(f"{served.url}/instruments")
    filled(page, i_name="Meter 1", i_day="2019-01-01", i_due="2020-01-01")
    page.get_by_role("button", name="Keep it").click()
    page.get_by_role("link", name="Meter 1").wait_for()
    page.goto(f"{served.url}/orders/JL-7/customer")
    filled(page, k_mark="K-7", k_name="Ada Muster", k_address="Jetty 1")
    page.get_by_role("button", name="Keep it").click()
    page.get_by_role("link", name="Ada Muster").first.wait_for()
    page.goto(f"{served.url}/build/JL-7/0042/built")
    page.get_by_role("button", name="In lot C1").click()
    page.get_by_text("Cells of lot C1").first.wait_for(timeout=30_000)
    page.locator("#b-lot-lot").fill("S1")
    page.get_by_role("button", name="It goes in").click()
    page.get_by_role("button", name="Use it all the same").click()
    page.get_by_text("Silicone, lot S1").first.wait_for(timeout=30_000)
    page.locator("#b-deviation > summary").click()
    filled(
        page, b_deviation_place="7", b_deviation_amount="30 %", b_deviation_note="corner, from the tabbing"
    )
    page.locator("#b-deviation button").click()
    page.get_by_text("a crack cuts off 30").first.wait_for(timeout=30_000)
    page.goto(f"{served.url}/serial/0042")
    page.get_by_text("It came back with a fault").click()
    filled(page, a_claim="Gives little in the morning.")
    page.get_by_role("button", name="Keep the claim").click()
    page.get_by_text("Claim 1.").wait_for()
    cut_and_offer(page, served)
    page.goto(f"{served.url}/records")
    for button, words in (
        ("Back up now", "files are in it"),
        ("Look them over", "All is sound"),
        ("Write them out", "Take it along"),
    ):
        page.get_by_role("button", name=button).click()
        page.get_by_text(words).wait_for(timeout=60_000)


@pytest.fixture(scope="module")
def furnished(browser, tmp_path_factory):
    """A tablet at such a shop: pages are looked at one after the other, and nothing is done on them."""
    shop = Served(tmp_path_factory.mktemp("pages") / "shop")
    shop.open()
    try:
        with watched(browser, shop) as page:
            prepare(page, shop)
            yield page, shop
    finally:
        shop.close()


def settled(page, path):
    """What a page shows only once it is reckoned is there."""
    if path.endswith("/back"):
        page.locator("#word").wait_for(timeout=60_000)
    if path in LATER:
        page.locator(LATER[path]).first.wait_for(timeout=60_000)
    if path == "/papers/JL-7":
        page.get_by_role("heading", name="Build book").wait_for(timeout=60_000)
    if path.startswith(("/panel/", "/orders/JL-7")):
        page.wait_for_function("() => !document.querySelector('.verdict.wait')")


@pytest.mark.parametrize("path", PATHS)
def test_no_page_has_a_fault_of_accessibility_at_either_size(furnished, path):
    page, shop = furnished
    page.set_viewport_size(TABLET)
    kept = next((shop.folder / "backups").glob("*.zip"))
    page.goto(shop.url + path.replace("BACKUP", kept.name))
    settled(page, path)
    found = []
    for size in (TABLET, PHONE):
        page.set_viewport_size(size)
        found += [f"{size['width']}: {each}" for each in faults(page)]
    assert found == []
