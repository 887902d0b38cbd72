"""A real browser before a real shop."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).parent))
sys.path.append(str(Path(__file__).parents[2] / "benchmarks"))

from served import Served
from watched import watched


@pytest.fixture
def served(tmp_path):
    shop = Served(tmp_path / "shop")
    shop.open()
    yield shop
    shop.close()


@pytest.fixture(scope="module")  # its loop may not outlast these files: others have loops of their own
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        found = play.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-background-networking"]
        )
        yield found
        found.close()


@pytest.fixture
def page(browser, served):
    """A tablet at the shop, watched."""
    with watched(browser, served) as opened:
        yield opened
