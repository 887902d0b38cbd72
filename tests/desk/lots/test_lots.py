"""A lot read from its table: how it stands, what a maker settles of it, and what is written of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from panewright.desk.lots import kinds, listed
from panewright.desk.lots.settled import Settled, applied
from panewright.desk.lots.stood import stand
from panewright.desk.lots.table import file_bytes, look
from panewright.errors import FolderError, RecordError, SheetError

LOTS = Path(__file__).parents[3] / "examples" / "lots"


def rows_of(name):
    return look((LOTS / name).read_bytes(), name).read()


@pytest.fixture(scope="module")
def barn():
    return rows_of("barn-roof.csv")


@pytest.fixture(scope="module")
def stood(barn):
    return stand(barn)


def test_a_table_goes_by_the_mapping_that_was_kept(barn):
    data = (LOTS / "barn-roof.csv").read_bytes()
    text = look(data, "barn-roof.csv").text
    assert look(data, "barn-roof.csv", text).read().marks == barn.marks
    with pytest.raises(SheetError, match="other columns than the mapping"):
        look((LOTS / "scheune.csv").read_bytes(), "scheune.csv", text).read()


def test_the_nearest_kind_is_told_as_a_guess(barn, stood):
    assert (stood.kind, stood.guessed) == ("156 mm mono", True)
    assert kinds.nearest(rows_of("scheune.csv")) == "156 mm poly"
    halves = {
        name: each / 2 if name.endswith("_a") else each
        for name, each in rows_of("scheune.csv").figures.items()
    }
    assert kinds.nearest(replace(rows_of("scheune.csv"), figures=halves)) == "156 mm poly half"
    assert not stand(barn, "156 mm poly").guessed


def test_a_kind_that_is_not_on_the_shelf_is_told_with_those_that_are(barn):
    with pytest.raises(RecordError, match="156 mm mono"):
        stand(barn, "oak")


def test_the_shunted_cells_are_suspected(stood):
    assert [each.mark for each in stood.suspects if each.kind == "shunt"] == [
        "B056",
        "B061",
        "B119",
        "B128",
        "B160",
    ]
    watts = stood.spreads[0]
    assert watts.parts[2] == pytest.approx(4.40, abs=0.03)
    assert list(watts.parts) == sorted(watts.parts)


def test_a_cell_that_is_kept_is_suspected_no_more_and_one_left_out_is_gone(barn, stood):
    told = (Settled("B056", "keep"), Settled("B061", "leave out"), Settled("B119", "keep", row=121))
    again = stand(barn, stood.kind, told)
    assert {each.mark for each in again.suspects if each.kind == "shunt"} == {"B128", "B160"}
    assert "B056" in again.standing.marks
    assert "B061" not in again.standing.marks
    assert again.left_out == 1


def test_a_row_put_right_counts_as_written_and_the_others_stay(barn):
    right = Settled(
        "B001",
        "correct",
        row=4,
        figures={"isc_a": 9.0, "voc_v": 0.62, "irradiance_w_m2": 1000.0},
        mark_anew="B901",
    )
    row = int(barn.row_numbers[0])
    now = applied(barn, [replace(right, row=row)])
    assert now.marks[0] == "B901"
    assert now.figures["isc_a"][0] == 9.0
    assert np.isnan(now.figures["imp_a"][0])
    assert np.array_equal(now.figures["isc_a"][1:], barn.figures["isc_a"][1:])
    assert barn.figures["isc_a"][0] != 9.0


def test_two_readings_of_one_row_become_the_one_that_is_typed():
    rows = rows_of("scheune.csv")
    twice = int(rows.row_numbers[0])
    mark = rows.marks[0]
    assert rows.row_numbers.tolist().count(twice) == 2
    now = applied(rows, [Settled(mark, "correct", row=twice, figures={"isc_a": 8.6, "voc_v": 0.61})])
    assert now.row_numbers.tolist().count(twice) == 1
    assert len(now) == len(rows) - 1
    assert now.figures["voc_v"][0] == 0.61


def test_a_lot_of_which_all_is_left_out_is_told(barn):
    with pytest.raises(RecordError, match="No row of this lot counts"):
        stand(barn, "", [Settled(mark, "leave out") for mark in set(barn.marks)])


def test_every_cell_is_listed_with_what_is_said_of_it(stood):
    rows = {row[0]: row for row in listed.listing(stood).rows}
    assert len(rows) == len(stood.standing.marks)
    assert rows["B056"][-1].startswith("shunt: ")
    assert rows["B002"][-3:-1] == ("A", 'chip, 1/4" at the edge')
    text = listed.content(stood, "cells.csv").decode()
    assert "B056" in text
    assert listed.content(stood, "cells.xlsx").startswith(b"PK")
    with pytest.raises(FolderError):
        listed.content(stood, "cells.doc")


def test_a_file_that_is_not_there_is_told(tmp_path):
    with pytest.raises(FolderError, match="cannot be read"):
        file_bytes(tmp_path / "none.csv")
