"""Minutes written down beside the ticks: they count, and are taken back by rows of their own."""

from __future__ import annotations

from decimal import Decimal

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError
from panewright.ledger.serials.hours import all_hours, hours, take_back
from panewright.ledger.serials.life import life
from panewright.ledger.serials.steps import tick
from panewright.ledger.serials.telling import told
from panewright.ledger.stores.actuals import add_minutes, minutes_by_step


def wrote(ledger, serial, minutes, step="tab-cells", **more):
    return add_minutes(ledger, step, Decimal(minutes), serial=serial, by="Ann", at=later(1), **more)


def test_minutes_without_a_tick_count_beside_those_of_a_tick(ledger):
    one, two = begun(ledger)
    tick(ledger, one, "tab-cells", by="Ann", at=NOON, minutes=Decimal(60))
    wrote(ledger, one, 25)
    wrote(ledger, two, 40)
    assert [(each.step, each.minutes) for each in hours(ledger, one)] == [("tab-cells", Decimal(25))]
    (took,) = minutes_by_step(ledger)
    assert (took.panels, took.minutes) == (2, Decimal(125))


def test_what_is_taken_back_no_longer_counts_and_both_rows_stay(ledger):
    one, _ = begun(ledger)
    wrong, right = wrote(ledger, one, 25, tap="a"), wrote(ledger, one, 40)
    assert wrote(ledger, one, 25, tap="a") == wrong
    for _ in range(2):
        take_back(ledger, one, wrong, by="Ben", at=later(2), tap="b")
    assert [each.number for each in hours(ledger, one)] == [right]
    assert [each.minutes for each in all_hours(ledger, one)] == [Decimal(25), Decimal(40), Decimal(-25)]
    assert minutes_by_step(ledger)[0].minutes == Decimal(40)
    take_back(ledger, one, right, by="Ben", at=later(3))
    assert minutes_by_step(ledger) == ()


def test_they_are_taken_back_once_and_only_where_they_are(ledger):
    one, two = begun(ledger)
    number = wrote(ledger, one, 25)
    with pytest.raises(RecordError):
        take_back(ledger, two, number, by="Ben", at=later(2))
    take_back(ledger, one, number, by="Ben", at=later(2))
    for wrong in (number, number + 1, 999):
        with pytest.raises(RecordError):
            take_back(ledger, one, wrong, by="Ben", at=later(3))


def test_a_panels_life_tells_them(ledger):
    one, _ = begun(ledger)
    take_back(ledger, one, wrote(ledger, one, 25, note="the iron was cold"), by="Ben", at=later(2))
    text = told(life(ledger, one))
    assert "Minutes beside the ticks" in text
    assert "tab-cells, Ann, 25 min the iron was cold" in text
    assert "Ben, -25" in text
