"""A lot matched and laid by thumb and keyboard in a real browser; its pages have no fault at either size."""

from __future__ import annotations

import random

import pytest
from faults import faults
from served import PHONE, TABLET, take

pytestmark = pytest.mark.peer("chromium")
OFFERED = "/offers"


def lot_csv(cells=84, seed=5):
    """INVENTED cells of 125 mm, read in full sun."""
    dice = random.Random(seed)
    lines = ["Cell,Isc [A],Voc [V],Imp [A],Vmp [V],E [W/m2],T [degC]"]
    for n in range(1, cells + 1):
        isc, voc = 5.7 * (1 + dice.gauss(0, 0.02)), 0.62 * (1 + dice.gauss(0, 0.004))
        lines.append(f"K{n:03},{isc:.3f},{voc:.4f},{isc * 0.945:.3f},{voc * 0.835:.4f},1000,25")
    return ("\n".join(lines) + "\n").encode()


def dropped(page, served):
    """A lot taken in; the page of its cells."""
    page.goto(f"{served.url}/lots")
    page.locator("#c-lot").fill("K1")
    page.locator("#c-file").set_input_files({"name": "lot.csv", "mimeType": "text/csv", "buffer": lot_csv()})
    page.get_by_role("button", name="Take it in").click()
    page.wait_for_url("**/cells/K1")


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


def test_a_lot_is_matched_laid_by_thumb_and_keyboard_and_a_broken_cell_exchanged(page, served):
    matched(page, served)
    begun(page, served)
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


def test_a_long_match_is_stopped_while_the_tablet_goes_on(page, served):
    take(page, served, "kiosk")
    page.locator("#seen .verdict:not(.wait)").wait_for(timeout=60_000)
    dropped(page, served)
    page.get_by_role("link", name="Match them").click()
    page.locator("#m-panels").fill("2")
    page.get_by_role("button", name="Match them").click()
    page.locator("#matching progress").wait_for(timeout=30_000)
    page.goto(f"{served.url}/shelf")
    page.get_by_role("heading", name="Shelf").first.wait_for(timeout=5_000)
    page.goto(f"{served.url}/cells/K1/match")
    page.get_by_role("button", name="Stop").click()
    page.get_by_text("No cell was dealt.").wait_for(timeout=30_000)
    assert page.locator("#past").count() == 0


def test_another_tablet_sees_a_cell_as_it_is_laid(page, served, browser):
    matched(page, served)
    begun(page, served)
    other = browser.new_context(viewport=TABLET).new_page()
    other.goto(f"{served.url}/deals/1/1")
    other.get_by_text("0 of 36 laid").wait_for()
    page.get_by_role("button", name="It is laid").click()
    other.get_by_text("1 of 36 laid").wait_for(timeout=10_000)
    other.context.close()


def test_no_page_of_a_lot_has_a_fault_at_either_size(page, served):
    matched(page, served)
    left = page.locator(".chips b").first.inner_text()
    begun(page, served)
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
    matched(page, served)
    begun(page, served)
    plain = browser.new_context(viewport=TABLET, java_script_enabled=False).new_page()
    plain.goto(f"{served.url}/deals/1/1")
    plain.get_by_role("button", name="It is laid").click()
    assert "1 of 36 laid" in plain.locator(".cutcount").inner_text()
    plain.get_by_role("link", name="Why").nth(3).click()
    plain.get_by_role("link", name="Wait for it").click()
    plain.locator(".instead button").first.click()
    assert "just exchanged" in plain.locator("#places").inner_text()
    plain.context.close()
