"""What no page may have: a fault of accessibility, more width than the screen, too small a target."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe

RULES = {
    "runOnly": {
        "type": "tag",
        "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    },
    "resultTypes": ["violations"],  # of what holds no list is made: that takes most of the time
    "selectors": False,
}
SCRIPT = Axe().axe_script  #: half a megabyte, read by a page once
OPEN = """() => document.querySelectorAll("main details").forEach((each) => { each.open = true })"""
THERE = """() => "axe" in window"""
VIOLATIONS = """async (rules) => (await axe.run(document, rules)).violations"""
WIDE = """() => document.documentElement.scrollWidth > innerWidth + 1"""
SMALL = """() => [...document.querySelectorAll(
        "button, .button, select, input:not([type=hidden]):not(.unseen), .block a, summary")]
    .filter((each) => each.checkVisibility() && !each.closest(".tools, .skip"))
    .map((each) => [each.outerHTML.slice(0, 80), each.getBoundingClientRect()])
    .filter(([, box]) => box.height && (box.height < 43.5 && !(box.height > 24 && box.width < 40)))
    .map(([words, box]) => `${Math.round(box.width)} x ${Math.round(box.height)} ${words}`)"""


def faults(page):
    """What is wrong with the page as it stands, everything on it opened."""
    page.evaluate(OPEN)
    found = [f"{each['id']}: {each['nodes'][0]['html'][:120]}" for each in violations(page)]
    if page.evaluate(WIDE):
        found.append("wider than the screen")
    return found + [f"small target: {each}" for each in page.evaluate(SMALL)]


def violations(page):
    """What axe finds against its rules in the page as it stands."""
    if not page.evaluate(THERE):
        page.evaluate(SCRIPT)
    return page.evaluate(VIOLATIONS, RULES)
