"""Stock adds up exactly; what the work really took comes out as rates for the next estimate."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal

import pytest
from words import NOON, begun, later

from panewright.errors import RecordError, StaleError
from panewright.ledger.serials.steps import tick
from panewright.ledger.stores.actuals import Lost, StepTook, add_minutes, losses, minutes_by_step
from panewright.ledger.stores.lots import Lot, save_lot
from panewright.ledger.stores.stock import (
    Movement,
    Remnant,
    Stock,
    count,
    keep_remnant,
    move,
    movements,
    remnants,
    stock,
    use_remnant,
)


def moved(ledger, item, amount, unit, reason, **more):
    move(ledger, Movement(item, Decimal(amount), unit, reason, **more), by="Ann", at=NOON)


def test_a_mark_is_given_once_and_a_second_piece_is_told_what_bears_it(ledger):
    keep_remnant(ledger, Remnant("P7", "angle 30 x 30 x 3", 640.0), by="Ann", at=NOON)
    with pytest.raises(RecordError, match=r"P7: A piece of angle 30 x 30 x 3 bears this mark"):
        keep_remnant(ledger, Remnant("P7", "glass 4 mm", 500.0, 300.0), by="Ben", at=NOON)
    assert [each.item for each in remnants(ledger)] == ["angle 30 x 30 x 3"]


def test_what_is_there_is_all_that_came_less_all_that_went(ledger):
    panel, _ = begun(ledger)
    save_lot(ledger, "R1", Lot("ribbon", "1.6 x 0.2 mm", "metre"), seen=0, by="Ann", at=NOON)
    moved(ledger, "ribbon 1.6", "50.3", "metre", "received", lot="R1")
    for _ in range(3):
        moved(ledger, "ribbon 1.6", "0.1", "metre", "used", lot="R1", serial=panel)
    moved(ledger, "ribbon 1.6", "0.000001", "metre", "wasted", lot="R1")
    moved(ledger, "flux", "2", "pen", "used")
    assert stock(ledger) == (
        Stock("flux", "pen", "", Decimal(-2)),
        Stock("ribbon 1.6", "metre", "R1", Decimal("49.999999")),
    )
    assert [each.movement.amount for each in movements(ledger, serial=panel)] == [Decimal("-0.1")] * 3


def test_a_count_sets_it_right_and_tells_by_how_much(ledger):
    moved(ledger, "flux", "3", "pen", "received")
    assert count(ledger, "flux", "pen", Decimal(2), by="Ann", at=NOON) == Decimal(-1)
    assert stock(ledger, item="flux") == (Stock("flux", "pen", "", Decimal(2)),)
    assert count(ledger, "glass", "pane", Decimal(4), by="Ann", at=NOON) == 4


@pytest.mark.parametrize(
    ("amount", "reason"),
    [("0", "used"), ("-1", "used"), ("1", "lost"), ("1", "counted"), ("0.0000001", "used"), ("NaN", "used")],
)
def test_what_is_no_movement_is_told(ledger, amount, reason):
    with pytest.raises(RecordError):
        moved(ledger, "flux", amount, "pen", reason)
    assert stock(ledger) == ()


def test_a_piece_left_over_is_used_once(ledger):
    panel, _ = begun(ledger)
    keep_remnant(ledger, Remnant("P7", "angle 30 x 30 x 3", 640.0), by="Ann", at=NOON)
    keep_remnant(ledger, Remnant("P8", "glass 4 mm", 500.0, 300.0), by="Ann", at=NOON)
    assert [each.mark for each in remnants(ledger)] == ["P8", "P7"]
    use_remnant(ledger, "P7", serial=panel, by="Ann", at=NOON)
    assert [each.mark for each in remnants(ledger)] == ["P8"]
    with pytest.raises(StaleError, match="Ann has it down as used"):
        use_remnant(ledger, "P7", by="Ben", at=later(1), state="thrown away")


def test_two_hundred_movements_by_four_hands_add_up(ledger):
    def take(number: int) -> None:
        moved(ledger, "tab wire", "0.37", "metre", "used", note=str(number))

    with ThreadPoolExecutor(4) as hands:
        list(hands.map(take, range(200)))
    assert stock(ledger) == (Stock("tab wire", "metre", "", Decimal("-74")),)


def test_minutes_are_those_of_the_ticks_that_stand(ledger):
    one, two = begun(ledger)
    tick(ledger, one, "tab", by="Ann", at=NOON, minutes=Decimal(90))
    tick(ledger, one, "tab", by="Ann", at=later(1), minutes=Decimal(60))  # told anew
    tick(ledger, two, "tab", by="Ben", at=later(2), minutes=Decimal(30))
    tick(ledger, two, "join", by="Ben", at=later(3), minutes=Decimal(5))
    tick(ledger, two, "join", by="Ben", at=later(4), done=False)
    tick(ledger, two, "frame", by="Ben", at=later(5))
    add_minutes(ledger, "tab", Decimal(10), serial=two, by="Ben", at=later(6))
    assert minutes_by_step(ledger) == (StepTook("tab", 2, Decimal(100)),)
    assert minutes_by_step(ledger)[0].each == 50
    assert minutes_by_step(ledger, panels=1) == (StepTook("tab", 1, Decimal(40)),)


def test_breakage_and_waste_are_shares_of_all_that_was_taken_up(ledger):
    moved(ledger, "cell", "100", "piece", "received")
    moved(ledger, "cell", "72", "piece", "used")
    moved(ledger, "cell", "8", "piece", "broken")
    moved(ledger, "ribbon", "9.5", "metre", "used")
    moved(ledger, "ribbon", "0.5", "metre", "wasted")
    cell, ribbon = losses(ledger)
    assert cell == Lost("cell", "piece", Decimal(72), Decimal(8), Decimal(0))
    assert cell.broken_share == Decimal("0.1")
    assert ribbon.wasted_share == Decimal("0.05")


def test_the_largest_amounts_still_add_up(ledger):
    """One typed far too large must not take the whole list away."""
    for _ in range(50):
        moved(ledger, "flux", "999999999", "pen", "received")
    assert stock(ledger) == (Stock("flux", "pen", "", Decimal(49_999_999_950)),)
    with pytest.raises(RecordError, match="is no amount"):
        moved(ledger, "flux", "1000000000", "pen", "received")
