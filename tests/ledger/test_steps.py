"""Steps: a tick is a row; a tick taken back is another; clocks run until somebody stops them."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from decimal import Decimal

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError
from words import NOON, begun, design, later

from panewright.errors import RecordError
from panewright.ledger.changes import newest
from panewright.ledger.orders.designs import designs, record_design
from panewright.ledger.orders.orders import save_order
from panewright.ledger.serials.serials import find_serial, open_serials, serials
from panewright.ledger.serials.steps import Tick, Timer, start_timer, stop_timer, tick, ticks, timers


def test_the_newest_row_of_a_step_holds(ledger):
    panel, other = begun(ledger)
    tick(ledger, panel, "tab", by="Ann", at=NOON, minutes=Decimal("12.5"), note="two tabs bent")
    tick(ledger, panel, "join", by="Ben", at=later(5))
    back = tick(ledger, panel, "tab", by="Ann", at=later(9), done=False)
    assert back == Tick("tab", False, "Ann", later(9))
    assert ticks(ledger, panel) == (back, Tick("join", True, "Ben", later(5)))
    assert ticks(ledger, other) == ()


def test_a_panel_that_is_not_known_is_told(ledger):
    with pytest.raises(RecordError, match="serial = JL-7777: the records do not know it"):
        tick(ledger, "JL-7777", "tab", by="Ann", at=NOON)


def test_less_than_no_time_is_refused(ledger):
    panel, _ = begun(ledger)
    with pytest.raises(RecordError):
        tick(ledger, panel, "tab", by="Ann", at=NOON, minutes=Decimal(-1))


def test_a_clock_runs_until_it_is_stopped(ledger):
    panel, other = begun(ledger)
    start_timer(ledger, panel, "pour", by="Ann", at=NOON, ends=later(40))
    start_timer(ledger, other, "bead", by="Ann", at=later(1))
    start_timer(ledger, panel, "pour", by="Ben", at=later(2), ends=later(42))
    assert timers(ledger, panel) == (Timer(panel, "pour", later(2), later(42), "Ben"),)
    assert len(timers(ledger)) == 2
    stop_timer(ledger, panel, "pour", by="Ann", at=later(30))
    assert timers(ledger) == (Timer(other, "bead", later(1), None, "Ann"),)


def test_the_same_tap_of_four_hands_at_once_is_one_row(ledger):
    panel, _ = begun(ledger)
    before = newest(ledger)

    def send(_: int) -> Tick:
        return tick(ledger, panel, "tab", by="Ann", at=NOON, tap="once")

    with ThreadPoolExecutor(4) as hands:
        answers = set(hands.map(send, range(20)))
    assert answers == {Tick("tab", True, "Ann", NOON)}
    assert newest(ledger) == before + 1


def test_serials_count_on_when_more_panels_are_asked(ledger):
    assert begun(ledger, panels=2) == ("JL-0001", "JL-0002")
    record_design(ledger, design(panels=3), by="Ann", at=later(1))
    assert open_serials(ledger, "JL-9", by="Ann", at=later(2)) == ("JL-0001", "JL-0002", "JL-0003")
    assert [each.revision for each in designs(ledger, "JL-9")] == ["ABCDEFGH", "ABCDEFGH"]
    assert find_serial(ledger, "JL-0003").number == 3
    assert [each.serial for each in serials(ledger, begins="JL-000", most=2)] == ["JL-0003", "JL-0002"]


def test_no_two_panels_bear_one_serial(ledger):
    begun(ledger, "JL-9")
    with pytest.raises(RecordError, match="serial = JL-0001: a panel of order JL-9 bears it"):
        begun(ledger, "JL-10")


def test_an_order_that_is_not_designed_has_no_panels(ledger):
    save_order(ledger, "JL-9", "x", seen=0, by="Ann", at=NOON)
    with pytest.raises(RecordError, match="nothing is designed"):
        open_serials(ledger, "JL-9", by="Ann", at=NOON)


@pytest.mark.erases  # it tries to
@pytest.mark.parametrize("sentence", ["UPDATE step_done SET note = 'x'", "DELETE FROM step_done"])
def test_the_database_itself_refuses_to_change_a_row(ledger, sentence):
    panel, _ = begun(ledger)
    mine = tick(ledger, panel, "tab", by="Ann", at=NOON)
    with pytest.raises(DBAPIError, match="only ever added to"), ledger.engine.begin() as db:
        db.execute(text(sentence))
    assert ticks(ledger, panel) == (mine,)
