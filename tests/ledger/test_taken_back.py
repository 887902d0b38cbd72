"""Movements taken back by rows of their own; the instrument that was at hand last."""

from __future__ import annotations

from decimal import Decimal

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError
from panewright.ledger.bench.meters import last_by_unit
from panewright.ledger.bench.readings import Reading, add_instrument, read
from panewright.ledger.stores.actuals import losses
from panewright.ledger.stores.stock import Movement, move, movements, stock
from panewright.ledger.stores.taken_back import recent, take_back


def moved(ledger, amount, reason):
    move(ledger, Movement("glass", Decimal(amount), "each", reason), by="Ann", at=NOON)
    return recent(ledger)[0].number


def test_a_movement_taken_back_leaves_both_rows_and_no_trace_in_the_sums(ledger):
    moved(ledger, 10, "received")
    moved(ledger, 2, "used")
    broken = moved(ledger, 3, "broken")
    take_back(ledger, broken, by="Ben", at=later(1), tap="t1")
    take_back(ledger, broken, by="Ben", at=later(1), tap="t1")
    assert stock(ledger)[0].amount == 8
    assert losses(ledger)[0].broken == 0
    assert len(movements(ledger)) == 4
    assert [each.moved.movement.reason for each in recent(ledger)] == ["used", "received"]


def test_it_is_taken_back_once_and_only_where_it_is(ledger):
    number = moved(ledger, 10, "received")
    take_back(ledger, number, by="Ben", at=NOON)
    for wrong in (number, number + 1, 999):
        with pytest.raises(RecordError):
            take_back(ledger, wrong, by="Ben", at=NOON)
    assert stock(ledger) == ()


def test_the_last_instrument_of_each_unit_is_at_hand(ledger):
    serial, *_ = begun(ledger)
    for name in ("meter 1", "meter 2", "rule"):
        add_instrument(ledger, name, kind="some", by="Ann", at=NOON)
    for unit, name in (("V", "meter 1"), ("mm", "rule"), ("V", "meter 2"), ("A", "")):
        read(ledger, Reading("some", 1.0, unit, serial=serial, instrument=name), by="Ann", at=NOON)
    assert last_by_unit(ledger) == {"V": "meter 2", "mm": "rule"}
