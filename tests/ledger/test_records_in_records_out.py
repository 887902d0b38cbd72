"""Whatever is written comes back as it was: the records beside a plain model of them, on both databases."""

from __future__ import annotations

from datetime import UTC, datetime, timezone
from decimal import Decimal
from itertools import count

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from words import NOON, design

from panewright.errors import StaleError
from panewright.ledger.bench.readings import Reading, read, readings
from panewright.ledger.changes import since
from panewright.ledger.orders.designs import record_design
from panewright.ledger.orders.orders import save_order, versions
from panewright.ledger.serials.serials import open_serials
from panewright.ledger.serials.steps import Tick, all_ticks, tick, ticks
from panewright.ledger.stores.lots import Lot, find_lot, save_lot
from panewright.ledger.stores.stock import Movement, Stock, move, stock

NUMBERS = count()
TEXT = st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]), max_size=300)
LINE = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=100).filter(str.strip)
MOMENT = st.datetimes(
    datetime(1, 1, 2), datetime(9999, 12, 30), timezones=st.sampled_from([UTC, timezone.max, timezone.min])
)
AMOUNT = st.decimals(Decimal("0.000001"), Decimal(10) ** 8, places=6)
FIGURE = st.floats(allow_nan=False, allow_infinity=False)
MANY = settings(
    max_examples=15,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


def new_panel(ledger) -> str:
    number = f"N{next(NUMBERS)}"
    save_order(ledger, number, "x", seen=0, by="Ann", at=NOON)
    record_design(ledger, design(number, 1, number), by="Ann", at=NOON)
    (panel,) = open_serials(ledger, number, by="Ann", at=NOON)
    return panel


@MANY
@given(st.lists(st.tuples(TEXT, LINE, MOMENT, st.integers(-1, 1)), min_size=1, max_size=6))
def test_orders(ledger, saves):
    number, model = f"N{next(NUMBERS)}", []
    for text, by, at, off in saves:
        try:
            save_order(ledger, number, text, seen=len(model) + off, by=by, at=at)
        except StaleError:
            assert off != 0
        else:
            assert off == 0
            model.append((len(model) + 1, text, by, at))
    if model:
        assert [(each.version, each.text, each.by, each.at) for each in versions(ledger, number)] == model


@MANY
@given(
    st.lists(
        st.tuples(
            st.sampled_from("abc"), st.booleans(), LINE, MOMENT, st.none() | AMOUNT, TEXT, st.integers(0, 3)
        ),
        max_size=8,
    )
)
def test_steps_and_taps(ledger, told):
    panel, model, seen = new_panel(ledger), [], {}
    for step, done, by, at, minutes, note, tap in told:
        key = f"{panel} {tap}"
        kept = tick(ledger, panel, step, done=done, by=by, at=at, minutes=minutes, note=note, tap=key)
        if key not in seen:
            seen[key] = Tick(step, done, by, at, minutes, note)
            model.append(seen[key])
        assert kept == seen[key]
    assert all_ticks(ledger, panel) == tuple(model)
    assert {each.step: each for each in ticks(ledger, panel)} == {each.step: each for each in model}


@MANY
@given(st.lists(st.tuples(LINE, FIGURE, FIGURE | st.none(), TEXT, MOMENT), max_size=5))
def test_readings(ledger, told):
    panel = new_panel(ledger)
    for quantity, value, heat, note, at in told:
        read(ledger, Reading(quantity, value, "V", serial=panel, heat_c=heat, note=note), by="Ann", at=at)
    kept = [
        (r.reading.quantity, r.reading.value, r.reading.heat_c, r.reading.note, r.at)
        for r in readings(ledger, serial=panel)
    ]
    assert kept == told


@MANY
@given(st.lists(st.tuples(AMOUNT, st.sampled_from(["received", "used"])), max_size=10))
def test_stock(ledger, told):
    item = f"item {next(NUMBERS)}"
    for amount, reason in told:
        move(ledger, Movement(item, amount, "piece", reason), by="Ann", at=NOON)
    there = sum((amount if reason == "received" else -amount for amount, reason in told), Decimal(0))
    assert stock(ledger, item=item) == ((Stock(item, "piece", "", there),) if there else ())


@MANY
@given(LINE, LINE, TEXT, TEXT, st.none() | st.dates(), st.none() | AMOUNT)
def test_lots(ledger, kind, name, batch, note, expires, price):
    lot = Lot(kind, name, "piece", batch=batch, expires=expires, price=price, note=note)
    mark = f"L{next(NUMBERS)}"
    save_lot(ledger, mark, lot, seen=0, by="Ann", at=NOON)
    assert find_lot(ledger, mark).lot == lot


@pytest.mark.parametrize("taps", [3])
def test_the_journal_has_no_gaps_after_refusals(ledger, taps):
    panel = new_panel(ledger)
    for number in range(taps):
        with pytest.raises(StaleError):
            save_order(ledger, "N-none", "x", seen=5, by="Ann", at=NOON)
        tick(ledger, panel, "tab", by="Ann", at=NOON, tap=str(number))
    numbers = [each.number for each in since(ledger, 0)]
    assert numbers == list(range(1, len(numbers) + 1))
