"""A lot matched and laid by thumb and keyboard in a real browser; its pages have no fault at either size."""

from __future__ import annotations

import shutil

import pytest
from faults import faults
from lot_taken_in import dropped
from served import PHONE, TABLET, Served, take

pytestmark = pytest.mark.peer("chromium")
OFFERED = "/offers"


def matched(page, served):
    """An order, its lot, and the deal that is made of both."""
    take(page, served, "kiosk")
    page.locator("#seen .verdict:not(.wait)").wait_for(timeout=60_000)
    dropped(page, served)
    page.get_by_role("link", name="Match them").click()
    page.get_by_text("Most panels that reach a rating").click()
    page.locator("#m-rating").fill("90 W")
    page.locator("#m-panels").fill("2")
    page.get_by_role("button", name="Match them").click()
    page.wait_for_url("**/deals/1", timeout=120_000)


def begun(page, served):
    """The first panel of the deal, with its serial."""
    page.goto(f"{served.url}/build/TK-3")
    page.get_by_role("button", name="Begin 2 panels").click()
    page.get_by_role("button", name="Begin 2 panels").wait_for(state="detached", timeout=60_000)
    page.goto(f"{served.url}/deals/1/1")
    page.get_by_role("button", name="It is this one").click()
    page.locator(".nextcell").wait_for(timeout=60_000)


@pytest.fixture(scope="module")
def as_begun(browser, tmp_path_factory):
    """The folder of a shop that matched a lot and began its first panel; each test goes on from a copy."""
    shop = Served(tmp_path_factory.mktemp("deal") / "shop")
    shop.open()
    try:
        page = browser.new_page(viewport=TABLET)
        matched(page, shop)
        begun(page, shop)
        page.context.close()
    finally:
        shop.close()
    return shop.folder


@pytest.fixture
def served(as_begun, tmp_path):
    """That shop on another day."""
    shop = Served(tmp_path / "shop")
    shutil.copytree(as_begun, shop.folder)
    shop.open()
    yield shop
    shop.close()


def at_the_bench(page, served):
    """The first panel as it is laid; a shop that was just opened has all to load for it."""
    page.goto(f"{served.url}/deals/1/1", timeout=120_000)
    page.locator(".nextcell").wait_for(timeout=60_000)


def test_a_lot_is_matched_laid_by_thumb_and_keyboard_and_a_broken_cell_exchanged(page, served):
    at_the_bench(page, served)
    first = page.locator(".nextcell .expect").inner_text()
    page.get_by_role("button", name="It is laid").click()
    page.get_by_text(f"{first} laid at place 1").wait_for()
    assert page.locator("#cell-1").get_attribute("class") == "cell laid"
    assert page.locator("#cell-1").get_attribute("aria-label") == f"Cell 1, {first}, laid"
    page.locator("#cell-2").tap()
    page.get_by_text("2 of 36 laid").wait_for()
    page.locator("#cell-1").focus()
    page.keyboard.press("Enter")
    page.get_by_text("1 of 36 laid").wait_for()
    page.get_by_role("button", name="Undo").click()
    page.get_by_text("2 of 36 laid").wait_for()
    page.get_by_role("radio", name="It broke").check()
    broken = page.locator("#p-2 .what b").inner_text()
    page.locator("#cell-2").tap()
    page.wait_for_url(f"**/deals/1?cell={broken}#dealcell")
    page.locator(".instead button").first.wait_for(timeout=60_000)
    instead = page.locator(".instead button").first.inner_text()
    page.locator(".instead button").first.click()
    page.wait_for_url("**/deals/1/1?new=2", timeout=60_000)
    assert page.locator("#p-2 .what b").inner_text() == instead
    page.goto(f"{served.url}/serial/{page.locator('.cutcount a').inner_text()}")
    page.get_by_role("heading", name="Broke at the bench").wait_for()
    assert broken in page.locator("section[aria-labelledby=its-cells]").inner_text()


def test_another_tablet_sees_a_cell_as_it_is_laid(page, served, browser):
    at_the_bench(page, served)
    other = browser.new_context(viewport=TABLET).new_page()
    other.goto(f"{served.url}/deals/1/1")
    other.get_by_text("0 of 36 laid").wait_for()
    page.get_by_role("button", name="It is laid").click()
    other.get_by_text("1 of 36 laid").wait_for(timeout=10_000)
    other.context.close()


def test_no_page_of_a_lot_has_a_fault_at_either_size(page, served):
    page.goto(f"{served.url}/deals/1", timeout=120_000)
    left = page.locator(".chips b").first.inner_text()
    at_the_bench(page, served)
    page.get_by_role("button", name="It is laid").click()
    page.get_by_text("1 of 36 laid").wait_for()
    seated = page.locator("#p-5 .what b").inner_text()
    serial = page.locator(".cutcount a").inner_text()
    page.goto(f"{served.url}{OFFERED}")
    for field, typed in (
        ("Who offers what", "plain box"),
        ("Price of a pack", "60"),
        ("Cells in a pack", "40"),
    ):
        page.get_by_label(field).first.fill(typed)
    page.get_by_role("button", name="Compare them").click()
    page.get_by_role("heading", name="The best first").wait_for(timeout=120_000)
    found = []
    for path, there in (
        ("/lots", "#c-lot"),
        ("/cells/K1", ".chart"),
        ("/cells/K1/match", "#m-order"),
        ("/deals/1", "#left"),
        (f"/deals/1?cell={left}", "#cell-head"),
        (f"/deals/1?cell={seated}", ".instead button"),
        ("/deals/1/1", ".nextcell"),
        ("/deals/1/1?side=front", ".nextcell"),
        ("/deals/1/2", "#l-serial"),
        (f"/serial/{serial}", "#its-cells"),
        (OFFERED, ".ranked"),
    ):
        page.set_viewport_size(TABLET)
        page.goto(served.url + path)
        page.locator(there).first.wait_for(timeout=60_000)
        for size in (TABLET, PHONE):
            page.set_viewport_size(size)
            found += [f"{path} {size['width']}: {each}" for each in faults(page)]
    assert found == []


def test_every_page_of_a_deal_works_without_its_script(served, page, browser):
    at_the_bench(page, served)
    plain = browser.new_context(viewport=TABLET, java_script_enabled=False).new_page()
    plain.goto(f"{served.url}/deals/1/1")
    plain.get_by_role("button", name="It is laid").click()
    assert "1 of 36 laid" in plain.locator(".cutcount").inner_text()
    plain.get_by_role("link", name="Why").nth(3).click()
    plain.get_by_role("link", name="Wait for it").click()
    plain.locator(".instead button").first.click()
    assert "just exchanged" in plain.locator("#places").inner_text()
    plain.context.close()
