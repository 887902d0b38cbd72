"""Measured cells in the records: what goes in comes out, nothing is overwritten, each tap counts once."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from full import MAPPING, ROWS
from test_lots import CELLS
from words import NOON

from panewright.errors import RecordError, StaleError
from panewright.intake.cells import CellRows
from panewright.ledger.cells.measured import (
    keep_mapping,
    keep_table,
    mapping_of_shape,
    newest_mapping,
    newest_table,
    readings,
    tables,
)
from panewright.ledger.cells.settled import Settlement, settle, settled
from panewright.ledger.files import store
from panewright.ledger.stores.lots import save_lot

ANN = {"by": "Ann", "at": NOON}


@pytest.fixture
def table(ledger):
    save_lot(ledger, "C1", CELLS, seen=0, **ANN)
    raw = store(ledger, b"No;Isc\n", name="lot.csv", media="text/csv", **ANN).sha256
    return keep_table(ledger, "C1", raw, "lot.csv", **ANN, tap="a" * 24)


def same(one: CellRows, other: CellRows) -> None:
    for name in ("marks", "remarks", "grades", "times", "bad", "passed", "notes"):
        assert getattr(one, name) == getattr(other, name), name
    assert np.array_equal(one.row_numbers, other.row_numbers)
    assert set(one.figures) == set(other.figures)
    for name, figure in one.figures.items():
        assert np.array_equal(figure, other.figures[name], equal_nan=True), name


def test_readings_come_back_as_they_went_in(ledger, table):
    kept = keep_mapping(ledger, table, MAPPING, ROWS, seen=0, kind="156 mm poly", **ANN)
    same(readings(ledger, kept), ROWS)
    assert (kept.version, kept.kind, kept.text) == (1, "156 mm poly", MAPPING)
    assert newest_table(ledger, "C1").number == table
    assert [each.lot for each in tables(ledger)] == ["C1"]


def test_a_mapping_that_is_still_open_is_kept_without_readings(ledger, table):
    kept = keep_mapping(ledger, table, MAPPING, None, seen=0, **ANN)
    assert readings(ledger, kept) is None
    assert mapping_of_shape(ledger, ("Isc",)) == ""


def test_another_mapping_leaves_the_first_with_its_readings(ledger, table):
    first = keep_mapping(ledger, table, MAPPING, ROWS, seen=0, **ANN)
    milli = replace(ROWS, figures={name: each / 1000 for name, each in ROWS.figures.items()})
    second = keep_mapping(ledger, table, MAPPING.replace('"A"', '"mA"'), milli, seen=1, **ANN)
    same(readings(ledger, first), ROWS)
    same(readings(ledger, second), milli)
    assert newest_mapping(ledger, table) == second
    assert mapping_of_shape(ledger, ("Isc",)) == second.text
    with pytest.raises(StaleError):
        keep_mapping(ledger, table, MAPPING, ROWS, seen=1, **ANN)


def test_a_tap_sent_twice_writes_one_mapping(ledger, table):
    for _ in range(2):
        kept = keep_mapping(ledger, table, MAPPING, ROWS, seen=0, **ANN, tap="b" * 24)
    assert kept.version == 1
    assert len(readings(ledger, kept)) == 3


def test_a_newer_file_of_the_lot_holds_and_the_older_stays(ledger, table):
    raw = store(ledger, b"No;Uoc\n", name="again.csv", media="text/csv", **ANN).sha256
    keep_mapping(ledger, table, MAPPING, ROWS, seen=0, **ANN)
    second = keep_table(ledger, "C1", raw, "again.csv", **ANN)
    assert newest_table(ledger, "C1").number == table  # its columns are not kept yet
    keep_mapping(ledger, second, MAPPING, None, seen=0, **ANN)
    assert second > table
    assert newest_table(ledger, "C1").name == "again.csv"
    assert [each.number for each in tables(ledger)] == [second]
    assert readings(ledger, newest_mapping(ledger, second)) is None


def test_the_newest_decision_of_a_row_holds(ledger, table):
    right = Settlement("c1", "correct", 5, {"isc_a": 9.05}, "c7", "read wrongly")
    settle(ledger, table, Settlement("c0", "leave out"), **ANN)
    settle(ledger, table, right, **ANN)
    assert settled(ledger, table) == (Settlement("c0", "leave out"), right)
    settle(ledger, table, Settlement("c0", "open"), **ANN)
    settle(ledger, table, Settlement("c1", "keep", 5), **ANN)
    assert settled(ledger, table) == (Settlement("c1", "keep", 5),)
    with pytest.raises(RecordError, match="settles nothing"):
        settle(ledger, table, Settlement("c0", "burn"), **ANN)


def test_what_is_not_there_is_told(ledger, table):
    with pytest.raises(RecordError):
        keep_table(ledger, "C9", "0" * 64, "lot.csv", **ANN)
    with pytest.raises(RecordError):
        keep_mapping(ledger, table + 1, MAPPING, None, seen=0, **ANN)
    assert newest_table(ledger, "C9") is None
