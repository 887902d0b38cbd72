"""Every page at both sizes: no fault of accessibility, nothing wider than the screen, nothing heavy."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from served import PHONE, TABLET, take

pytestmark = pytest.mark.peer("chromium")

RULES = {
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    }
}
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
    "/papers",
    "/papers/JL-7",
    "/shelf",
    "/serial",
    "/serial/0042",
    "/here",
    "/enter",
    "/nothing",
)
WIDE = """() => document.documentElement.scrollWidth > innerWidth + 1"""
SMALL = """() => [...document.querySelectorAll(
        "button, .button, select, input:not([type=hidden]):not(.unseen), .block a, summary")]
    .filter((each) => each.checkVisibility() && !each.closest(".tools, .skip"))
    .map((each) => [each.outerHTML.slice(0, 80), each.getBoundingClientRect()])
    .filter(([, box]) => box.height && (box.height < 43.5 && !(box.height > 24 && box.width < 40)))
    .map(([words, box]) => `${Math.round(box.width)} x ${Math.round(box.height)} ${words}`)"""


def prepare(page, served):
    """A shop with something in every place."""
    take(page, served, "jetty")
    page.locator("#seen .verdict:not(.wait)").wait_for(timeout=30_000)
    page.goto(f"{served.url}/build/JL-7")
    page.get_by_role("button", name="Begin 4 panels").click()
    page.get_by_role("link", name="0042").click()
    page.locator(".steps > li.now").get_by_role("button", name="Done").click()
    page.get_by_text("1 of 17 done").wait_for()
    page.goto(f"{served.url}/panel/JL-7")
    page.locator("#cell-7").click()
    page.get_by_text("Cell 7 changed").wait_for()


def test_no_page_has_a_fault_of_accessibility_at_either_size(page, served):
    prepare(page, served)
    axe, found = Axe(), []
    for size in (TABLET, PHONE):
        page.set_viewport_size(size)
        for path in PATHS:
            page.goto(served.url + path)
            if path == "/papers/JL-7":
                page.get_by_role("heading", name="Build book").wait_for(timeout=60_000)
            if path.startswith(("/panel/", "/orders/JL-7")):
                page.wait_for_function("() => !document.querySelector('.verdict.wait')")
            for summary in page.locator("main details:not([open]) > summary").all()[:8]:
                if summary.is_visible():
                    summary.click()
            report = axe.run(page, options=RULES)
            found += [
                f"{path} {size['width']}: {each['id']}: {each['nodes'][0]['html'][:120]}"
                for each in report.response["violations"]
            ]
            if page.evaluate(WIDE):
                found.append(f"{path} {size['width']}: wider than the screen")
            found += [f"{path} {size['width']}: small target: {each}" for each in page.evaluate(SMALL)]
    assert found == []


def test_the_first_page_is_light_and_complete_without_the_network(page, served):
    take(page, served, "jetty")
    sizes = {}
    context = page.context.browser.new_context(viewport=TABLET)
    fresh = context.new_page()
    session = context.new_cdp_session(fresh)
    session.send("Network.enable")
    session.on(
        "Network.loadingFinished",
        lambda done: sizes.__setitem__(done["requestId"], done["encodedDataLength"]),
    )
    fresh.goto(served.url)
    fresh.evaluate("document.fonts.ready")
    fresh.wait_for_timeout(1500)
    assert fresh.evaluate("document.fonts.check('16px \"Shop Sans\"')")
    assert 0 < sum(sizes.values()) < 150_000
    context.close()
