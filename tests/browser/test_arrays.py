"""An array in a real browser: strings put together by thumb and by keys, kept through a pulled plug."""

from __future__ import annotations

import pytest
from faults import faults
from served import PHONE, TABLET, Served, until

from invented_site import headed

pytestmark = pytest.mark.peer("chromium")

#: invented: four like panels on a controller with two inputs
TEXT = headed(
    "Old quay",
    """\
[[panel]]
name = "old"
count = 4
voc = "44.8 V"
vmp = "36.4 V"
isc = "8.0 A"
imp = "7.5 A"
cells = 72
width = "990 mm"
height = "1960 mm"
[controller]
kind = "mppt"
most = "120 V"
current = "30 A"
inputs = 2
[battery]
kind = "agm"
volts = "12 V"
capacity = "200 Ah"
[[string]]
panels = ["old 1", "old 2"]
""",
)
STRINGS = """() => [...document.querySelectorAll("#board .string")]
    .map((each) => [...each.querySelectorAll("input")].map((tile) => tile.value).join(" + "))"""
QUAY = "/arrays/Old%20quay"


@pytest.fixture(scope="module")
def served(browser, tmp_path_factory):
    """A shop with one array, reckoned once; the tests go on from each other."""
    root = tmp_path_factory.mktemp("quay")
    (root / "quay.toml").write_text(TEXT, "utf-8")
    shop = Served(root / "shop")
    shop.open()
    try:
        page = browser.new_page(viewport=TABLET)
        page.goto(f"{shop.url}/arrays")
        page.get_by_role("heading", name="No array yet").wait_for()
        page.set_input_files("#take", str(root / "quay.toml"))
        page.get_by_role("button", name="Take this file").click()
        page.wait_for_url(f"**{QUAY}")
        page.locator("#y-months").wait_for(timeout=240_000)
        page.context.close()
        yield shop
    finally:
        shop.close()


def strings(page):
    return page.evaluate(STRINGS)


def tile(page, name):
    return page.locator(f'input[name="panel"][value="{name}"]')


def test_a_thumb_puts_panels_into_strings_and_sees_at_once_what_holds(page, served):
    page.goto(f"{served.url}{QUAY}")
    assert strings(page) == ["old 1 + old 2", "old 3 + old 4"]
    page.locator(".tile", has_text="old 3").tap()
    page.get_by_role("button", name="Put the chosen panel at the plus end of string A").tap()
    until(lambda: strings(page) == ["old 1 + old 2 + old 3", "old 4"])
    page.locator("#limits .verdict.not").wait_for()  # 3 x 44.8 V in the cold is more than 120 V
    assert "coldest" in page.locator("#limits").inner_text()
    page.locator(".tile", has_text="old 3").tap()
    page.get_by_role("button", name="A new string at input 2").tap()
    until(lambda: strings(page) == ["old 1 + old 2", "old 3", "old 4"])
    page.locator("#limits .verdict:not(.not)").wait_for()


def test_keys_alone_do_the_same_and_the_focus_is_seen(page, served):
    page.goto(f"{served.url}{QUAY}")
    before = strings(page)
    tile(page, "old 1").focus()
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.value") == "old 2"
    assert page.evaluate("getComputedStyle(document.activeElement.parentNode).outlineStyle") == "solid"
    page.keyboard.press("o")
    until(lambda: strings(page)[-1] == "old 2 + old 4")
    assert page.evaluate("document.activeElement.value") == "old 2"  # it moved, and is held still
    page.keyboard.press("b")
    until(lambda: strings(page) == ["old 1", "old 3 + old 2", "old 4"])
    page.keyboard.type("0042", delay=10)  # a scanner's letters put nothing anywhere
    page.wait_for_timeout(400)
    assert strings(page) == ["old 1", "old 3 + old 2", "old 4"]
    assert before != strings(page)


@pytest.mark.parametrize("size", [TABLET, PHONE], ids=["tablet", "phone"])
def test_its_pages_have_no_fault_at_either_size(page, served, size):
    page.set_viewport_size(size)
    for path in ("/arrays", QUAY, f"{QUAY}/text", f"{QUAY}/versions"):
        page.goto(f"{served.url}{path}")
        if path == QUAY:
            page.locator("#y-months").wait_for(timeout=240_000)
        assert faults(page) == [], path


def test_two_screens_see_each_other_and_a_pulled_plug_takes_nothing(browser, page, served):
    page.goto(f"{served.url}{QUAY}")
    other = browser.new_page(viewport=PHONE)
    other.goto(f"{served.url}{QUAY}")
    other.locator(".tile", has_text="old 4").click()
    other.get_by_role("button", name="Put the chosen panel at the plus end of string A").click()
    until(lambda: strings(page) == ["old 1 + old 4", "old 3 + old 2"])
    served.kill()
    page.locator(".tile", has_text="old 1").tap()
    page.locator("button[value=out]").tap()
    page.locator("#offline").wait_for()
    served.open()
    until(lambda: strings(page) == ["old 4", "old 3 + old 2", "old 1"], 60)
    page.get_by_role("button", name="Keep these strings").tap()
    page.get_by_role("button", name="Keep these strings").wait_for(state="detached")
    assert strings(page) == ["old 4", "old 3 + old 2", "old 1"]
    until(lambda: "Keep" not in other.locator("#strung").inner_text())
    other.context.close()


def test_panels_are_told_as_they_lie(page, served):
    page.goto(f"{served.url}{QUAY}")
    page.get_by_text("They lie so now").click()
    page.get_by_role("button", name="They lie so").click()
    page.locator("#lying td", has_text="old 3").wait_for()
