"""A match that takes long holds up nobody, and can be stopped."""

from __future__ import annotations

import pytest
from lot_taken_in import dropped
from served import take

pytestmark = pytest.mark.peer("chromium")


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
