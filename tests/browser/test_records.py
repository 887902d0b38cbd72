"""The records put back under open pages, with and without a script; the shop killed in the middle of it."""

from __future__ import annotations

import re
import time
from random import Random

import pytest
from served import TABLET, take, until

pytestmark = pytest.mark.peer("chromium")


def backed_up(page, served):
    page.goto(f"{served.url}/records")
    page.get_by_role("button", name="Back up now").click()
    page.get_by_text("files are in it").wait_for(timeout=60_000)


def begin(page, served, number):
    page.goto(served.url)
    if not page.locator("#new-number").is_visible():
        page.get_by_text("A new order").click()
    page.locator("#new-number").fill(number)
    page.get_by_role("button", name="Begin this order").click()
    page.wait_for_url(f"**/orders/{number}")


def put_back(page, served):
    """The oldest backup, as a person does it."""
    page.goto(f"{served.url}/records")
    page.get_by_role("link", name=re.compile("^Put back")).last.click()
    page.locator("#word").wait_for(timeout=60_000)
    page.locator("#word").fill("put back")
    page.locator("#word").press("Enter")


def test_other_tablets_see_the_records_that_were_put_back_without_a_reload(page, served, browser):
    begin(page, served, "OLD-1")
    backed_up(page, served)
    begin(page, served, "NEW-1")
    other = browser.new_context(viewport=TABLET).new_page()
    other.goto(served.url)
    other.get_by_text("NEW-1").wait_for()
    other.evaluate("window.never_reloaded = true")
    other.wait_for_timeout(1500)  # the line of events is open
    put_back(page, served)
    page.get_by_text("The backup is put back").wait_for(timeout=60_000)
    other.get_by_text("NEW-1").wait_for(state="detached", timeout=20_000)
    assert other.get_by_text("OLD-1").first.is_visible()
    other.get_by_text("A backup was put back.").wait_for(state="visible")
    assert other.evaluate("window.never_reloaded") is True
    other.get_by_role("link", name="Show what stands now").click()
    other.get_by_text("OLD-1").first.wait_for()
    assert not other.locator("#restored").is_visible()
    other.context.close()


def test_every_button_works_without_a_script(served, page, browser):
    take(page, served, "henhouse")
    plain = browser.new_context(viewport=TABLET, java_script_enabled=False).new_page()
    plain.goto(f"{served.url}/serial")
    plain.get_by_role("link", name="Keep the records safe").click()
    for button, words in (
        ("Back up now", "files are in it"),
        ("Look them over", "All is sound"),
        ("Write them out", "Take it along"),
    ):
        plain.get_by_role("button", name=button).click()
        until(lambda words=words: plain.get_by_text(words).count() or not plain.reload())
    with plain.expect_download() as sent:
        plain.get_by_role("link", name="Take it along").click()
    assert sent.value.suggested_filename.startswith("records ")
    plain.get_by_role("link", name=re.compile("^Put back")).click()
    plain.get_by_role("link", name="Show what is in it").click()
    plain.locator("#word").fill("put back")
    plain.get_by_role("button", name="Put the backup back").click()
    until(lambda: plain.get_by_text("The backup is put back").count() or not plain.reload())
    plain.context.close()


def test_a_customer_is_erased_after_the_mark_is_typed(page, served):
    page.goto(f"{served.url}/customers")
    page.locator("#k-mark").fill("K-7")
    page.locator("#k-name").fill("Ada Muster")
    page.get_by_role("button", name="Keep it").click()
    page.get_by_role("link", name="Erase on request").click()
    page.locator("#e-reason").fill("asked by letter")
    page.locator("#e-word").fill("K-8")
    page.get_by_role("button", name="Erase for good").click()
    page.get_by_text("Nobody was erased").wait_for()
    page.locator("#e-word").fill("K-7")
    page.get_by_role("button", name="Erase for good").click()
    page.get_by_text("Customer K-7 is erased").wait_for(timeout=60_000)
    assert "Ada Muster" not in page.content()


def test_a_shop_killed_while_a_backup_is_put_back_is_old_or_new(page, served):
    """The pages' process alone is killed: the one that works for it must end without harm, too."""
    begin(page, served, "OLD-1")
    backed_up(page, served)
    begin(page, served, "NEW-1")
    chance = Random(3)
    for _ in range(3):
        put_back(page, served)
        time.sleep(chance.uniform(0.0, 0.8))
        served.kill()
        served.open()
        page.goto(f"{served.url}/records")
        page.get_by_role("button", name="Look them over").click()
        page.get_by_text("All is sound").wait_for(timeout=60_000)
        page.goto(served.url)
        assert page.get_by_text("OLD-1").first.is_visible()
        if not page.get_by_text("NEW-1").count():
            begin(page, served, "NEW-1")
