"""The bench in a real browser: a curve rated and kept, its fault narrowed; its pages have no fault."""

from __future__ import annotations

import pytest
from faults import faults
from served import EXAMPLES, PHONE, TABLET, take

pytestmark = pytest.mark.peer("chromium")
COLD = EXAMPLES / "bench" / "henhouse-cold-joint.csv"


def looked_at(page, name):
    """Both sizes, everything on it opened."""
    found = []
    for size in (TABLET, PHONE):
        page.set_viewport_size(size)
        found += [f"{name} {size['width']}: {each}" for each in faults(page)]
    page.set_viewport_size(TABLET)
    return found


def test_a_dropped_curve_is_rated_and_its_fault_narrowed_by_a_reading(page, served):
    take(page, served, "henhouse")
    page.goto(f"{served.url}/build/HD-2")
    page.get_by_role("button", name="Begin").first.click()
    page.get_by_role("button", name="Begin").first.wait_for(state="detached", timeout=60_000)
    page.goto(f"{served.url}/rate/0051")
    page.locator("#b-file").set_input_files(str(COLD))
    page.locator("#b-light-by").select_option("reference cell")
    page.locator("#b-heat-by").select_option("back sensor")
    page.get_by_role("button", name="Rate it").click()
    page.get_by_role("button", name="Keep this rating").wait_for(timeout=60_000)
    assert "REWORK" in page.locator("#rated .verdict").inner_text()
    found = looked_at(page, "rated")
    page.get_by_role("button", name="Keep this rating").click()
    page.get_by_role("link", name="Raw file").wait_for(timeout=60_000)
    page.set_viewport_size(PHONE)
    page.evaluate("document.querySelectorAll('#rated details').forEach(each => each.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    page.set_viewport_size(TABLET)
    page.get_by_role("link", name="What is wrong").click(timeout=60_000)
    page.locator("#faultseen .verdict:not(.wait)").wait_for(timeout=60_000)
    before = page.locator("g.suspect").count()
    page.locator("#t-1-0").fill("2.34")
    page.locator("#t-1-1").fill("3,0")
    page.get_by_role("button", name="That is what it reads").first.click()
    page.get_by_role("heading", name="Measured since").wait_for(timeout=60_000)
    assert 0 < page.locator("g.suspect").count() < before
    found += looked_at(page, "fault")
    page.goto(f"{served.url}/charts")
    found += looked_at(page, "charts")
    assert found == []
