"""`panewright chart`: whose panels stand behind the limits, and that they stay the same ones."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest
from click.testing import CliRunner, Result

from panewright.cli.main import cli
from panewright.ledger.bench.ratings import SET_ASIDE, Rating, keep_finding, keep_rating
from panewright.ledger.files import store
from panewright.ledger.open import open_ledger
from panewright.ledger.orders.designs import DesignMade, record_design
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.serials import open_serials

NOON = datetime(2026, 6, 20, 12, tzinfo=UTC)
PANELS = 26


@pytest.fixture
def shop(tmp_path, empty_shop):
    """Panels rated one after the other: the second surely poor, the third of a measurement gone wrong."""
    folder = tmp_path / "shop"
    shutil.copytree(empty_shop, folder)
    ledger = open_ledger(folder / "shop.db", files=folder / "files")
    names = tuple(f"P-{number:02}" for number in range(1, PANELS + 1))
    save_order(ledger, "X-1", 'number = "X-1"', seen=0, by="Ann", at=NOON)
    made = DesignMade("X-1", 1, "ABCDEFGH", "0.1.0", "{}", "{}", "[]", names, True)
    record_design(ledger, made, by="Ann", at=NOON)
    open_serials(ledger, "X-1", by="Ann", at=NOON)
    file = store(ledger, b"V,I", name="c.csv", media="text/csv", by="Ann", at=NOON).sha256
    plain = Rating(date(2026, 6, 20), "pass", 73.0, 73.0, 73.0, 2.0, file, file, "{}")
    shares = 1 + 0.004 * np.random.default_rng(5).standard_normal(PANELS)
    for place, (serial, share) in enumerate(zip(names, shares, strict=True)):
        one = replace(plain, power_w=73.0 * float(share))
        if place == 1:
            one = replace(one, verdict="rework", power_w=55.0)
        keep_rating(ledger, serial, one, by="Ann", at=NOON + timedelta(minutes=place))
    yield folder, ledger, plain
    ledger.close()


def chart(folder, *more: str) -> Result:
    return CliRunner().invoke(cli, ["chart", "--shop", str(folder), *more])


def limits_of(result: Result) -> str:
    return next(line for line in result.output.splitlines() if "Limits by the first" in line)


def test_a_panel_that_did_not_pass_is_named_and_widens_no_limits(shop):
    folder, *_ = shop
    result = chart(folder)
    assert "Limits by the first 20 that passed" in limits_of(result)
    low, high = (float(limits_of(result).split()[place].strip(",")) for place in (7, 9))
    assert low > 0.97, result.output
    assert high < 1.03
    assert "Not behind the limits, for they did not pass: P-02." in result.output
    assert "STOP AND LOOK. power rated against prediction: within three sigma" not in result.output


def test_a_mended_panel_stays_in_its_place_and_the_first_twenty_stay_the_first(shop):
    folder, ledger, plain = shop
    before = limits_of(chart(folder))
    keep_rating(ledger, "P-24", replace(plain, power_w=72.9), by="Ann", at=NOON + timedelta(days=1))
    assert limits_of(chart(folder)) == before
    keep_rating(ledger, "P-02", replace(plain, power_w=72.8), by="Ann", at=NOON + timedelta(days=2))
    after = chart(folder)
    assert "Not behind the limits" not in after.output
    assert "Power rated against prediction: 26 charted." in after.output


def test_a_rating_set_aside_is_charted_no_more_and_the_one_before_holds(shop):
    folder, ledger, plain = shop
    wrong = keep_rating(ledger, "P-25", replace(plain, power_w=60.0), by="Ann", at=NOON + timedelta(days=1))
    assert "Stop and look at P-25" in chart(folder).output
    keep_finding(ledger, "P-25", SET_ASIDE, "a leaf on the pane", "{}", rating=wrong.id, by="Ann", at=NOON)
    told = chart(folder).output
    assert "Stop and look at P-25" not in told
    assert "26 charted" in told
