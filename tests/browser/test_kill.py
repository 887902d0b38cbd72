"""The server killed under a page: what was confirmed stays, what was tapped arrives, the page goes on."""

import pytest
from served import take, until

pytestmark = pytest.mark.peer("chromium")


def test_a_killed_server_loses_nothing_and_the_page_goes_on_without_a_reload(page, served):
    take(page, served, "henhouse")
    page.locator("#seen .verdict:not(.wait)").wait_for(timeout=30_000)
    page.get_by_role("link", name="Panel", exact=True).click()
    page.locator("#cell-1").wait_for(timeout=30_000)
    page.evaluate("window.never_reloaded = true")
    for number in (1, 2, 3):
        page.locator(f"#cell-{number}").click()
        served.kill()
        page.locator(f"#cell-{number + 10}").click()
        page.locator("#offline").wait_for(state="visible", timeout=15_000)
        served.open()
        page.wait_for_function(
            "() => !Object.keys(localStorage).some(key => key.startsWith('tap:'))", timeout=30_000
        )
        until(lambda: not page.locator("#offline").is_visible())
    page.locator("#watts").wait_for()
    until(lambda: page.locator("g.half").count() == 6)
    assert page.evaluate("window.never_reloaded") is True
    page.reload()
    page.locator("#cell-1").wait_for(timeout=30_000)
    assert page.locator("g.half").count() == 6


CUT = """() => {
    const whole = Response.prototype.text;
    let cut = false;
    Response.prototype.text = function () {
        if (cut || this.status !== 200) return whole.call(this);
        cut = true;
        return Promise.reject(new TypeError("network error"));
    };
}"""


def test_an_answer_cut_off_half_way_holds_up_no_later_tap(page, served):
    """The server is killed between the head and the body of its answer."""
    take(page, served, "henhouse")
    page.locator("#seen .verdict:not(.wait)").wait_for(timeout=30_000)
    page.get_by_role("link", name="Panel", exact=True).click()
    page.locator("#cell-1").wait_for(timeout=30_000)
    before = page.locator("#watts dd").first.inner_text()
    page.evaluate(CUT)
    page.locator("#cell-1").click()
    page.locator("#cell-2").click()
    page.wait_for_function(
        "() => !Object.keys(localStorage).some(key => key.startsWith('tap:'))", timeout=20_000
    )
    until(lambda: page.locator("#watts dd").first.inner_text() != before)
    page.reload()
    page.locator("#cell-1").wait_for(timeout=30_000)
    assert page.locator("g.half").count() == 2
