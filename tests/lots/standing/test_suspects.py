"""What is wrong in a lot is found and told with its reason; what is sound is left in peace."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from known_lots import KIND, Ask, drawn

from panewright.intake.cells import FIGURES, CellRows
from panewright.lots.standing.estimate import estimate

LOT = drawn(Ask("isc voc imp", 300, seed=11))
#: what is done to which row: a figure, times, more
FAULTS = {
    40: ("isc_a", 1000.0, 0.0),
    41: ("voc_v", 1000.0, 0.0),
    42: ("imp_a", 10.0, 0.0),
    43: ("vmp_v", 0.01, 0.0),
    44: ("irradiance_w_m2", 0.001, 0.0),
    45: ("cell_c", 1.8, 41.0),
    50: ("voc_v", 1.0, 0.5),
    51: ("isc_a", 2.0, 0.0),
    52: ("vmp_v", 1.0, 0.12),
}


def found(standing, kind):
    return {each.mark: each for each in standing.suspects if each.kind == kind}


@pytest.fixture(scope="module")
def sound():
    return estimate(LOT.rows, KIND)


@pytest.fixture(scope="module")
def spoilt():
    """All that can go wrong, at once: slips, copies, leaks, strangers, one mark for two, a row of nothing."""
    lot = drawn(Ask("isc voc imp", 300, seed=11, shunted=((5, 0.5), (9, 0.8))))
    read = {name: np.append(figure, np.nan) for name, figure in lot.rows.figures.items()}
    for row, (name, times, more) in FAULTS.items():
        read[name][row] = read[name][row] * times + more
    for name in ("isc_a", "imp_a"):
        read[name][3] *= 0.85
    for figure in read.values():
        figure[150] = figure[60]
    marks = [*lot.rows.marks, "empty"]
    marks[200] = "c20"
    return estimate(CellRows(tuple(marks), np.arange(301) + 2, read, ("",) * 301), KIND)


def test_a_sound_lot_has_next_to_no_suspects(sound):
    assert {each.kind for each in sound.suspects} <= {"outlier", "shunt"}
    assert len(sound.suspects) <= 2


@pytest.mark.parametrize(
    ("row", "words"),
    [(40, "thousand"), (41, "thousand"), (42, "10 times"), (43, "1/100"), (44, "light"), (45, "Fahrenheit")],
)
def test_another_unit_is_told_and_does_not_spoil_the_cell(spoilt, sound, row, words):
    suspect = found(spoilt, "unit")[f"c{row}"]
    assert suspect.rows == (row + 2,)
    assert words in suspect.reason
    assert spoilt.power_w[row] == pytest.approx(sound.power_w[row], rel=0.06)
    assert spoilt.power_sd_w[row] > 0.95 * sound.power_sd_w[row]


@pytest.mark.parametrize("row", [50, 51, 52])
def test_what_no_cell_can_show_is_told(spoilt, row):
    assert found(spoilt, "impossible")[f"c{row}"].rows == (row + 2,)


def test_shunted_cells_are_told_with_their_watts(spoilt):
    assert {"c5", "c9"} <= set(found(spoilt, "shunt"))
    assert "ohm and takes" in found(spoilt, "shunt")["c5"].reason


def test_a_stranger_is_told(spoilt):
    assert "light current" in found(spoilt, "outlier")["c3"].reason


def test_one_mark_for_two_cells_and_two_marks_for_one(spoilt):
    assert found(spoilt, "duplicate")["c20"].rows == (22, 202)
    assert list(found(spoilt, "again")) == ["c150"]
    assert "c60" in found(spoilt, "again")["c150"].reason


def test_a_cell_of_which_nothing_counts_is_told(spoilt):
    assert "empty" in found(spoilt, "unread")


def test_no_cell_is_thrown_away_and_no_other_is_suspected(spoilt):
    assert len(spoilt.marks) == 300  # 301 rows, one mark twice
    spoken = {each.mark for each in spoilt.suspects}
    wrong = {f"c{row}" for row in (*FAULTS, 3, 5, 9, 20, 150)} | {"empty"}
    assert wrong <= spoken
    assert len(spoken - wrong) <= 3


def test_a_shunt_read_by_itself_is_told():
    lot = drawn(Ask("isc voc", 100, seed=11, shunted=((9, 1.5),)))
    rows = replace(lot.rows, figures={**lot.rows.figures, "shunt_ohm": lot.stc["shunt"]})
    assert "c9" in found(estimate(rows, KIND), "shunt")


def test_a_whole_column_in_milliamperes_is_told_once():
    read = {**LOT.rows.figures, "isc_a": LOT.rows.figures["isc_a"] * 1000}
    suspects = found(estimate(replace(LOT.rows, figures=read), KIND), "unit")
    assert list(suspects) == [""]
    assert "whole lot" in suspects[""].reason


def test_a_whole_column_read_with_the_leads_turned_is_told_once():
    read = {**LOT.rows.figures, "isc_a": -LOT.rows.figures["isc_a"]}
    standing = estimate(replace(LOT.rows, figures=read), KIND)
    assert "below zero in 300 of 300 rows" in found(standing, "unit")[""].reason
    assert not found(standing, "impossible")


@pytest.mark.parametrize("few", [3, 60])
def test_cells_of_two_sizes_in_one_box_are_told_with_those_of_the_smaller_heap(few):
    size = np.where(np.arange(300) % (300 // few) == 7 % (300 // few), 0.66, 1.0)
    read = {**LOT.rows.figures, **{name: LOT.rows.figures[name] * size for name in ("isc_a", "imp_a")}}
    told = found(estimate(replace(LOT.rows, figures=read), KIND), "size")
    heaps = re.findall(r"(\d+) about ([\d.]+) A", told[""].reason)
    assert [int(count) for count, _ in heaps] == [few, 300 - few]
    assert [float(amps) for _, amps in heaps] == pytest.approx([0.66 * 9.5, 9.5], rel=0.05)
    assert set(told) - {""} == {f"c{k}" for k in np.flatnonzero(size < 1)}


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("cells", [8, 40])
def test_a_small_lot_of_one_size_is_one_heap(cells, seed):
    assert not found(estimate(drawn(Ask("isc voc", cells, seed=seed)).rows, KIND), "size")


def test_three_cells_of_one_mark_under_one_another_are_told_where_no_other_mark_comes_twice():
    marks = tuple("c9" if mark in ("c10", "c11") else mark for mark in LOT.rows.marks)
    told = [
        each for each in estimate(replace(LOT.rows, marks=marks), KIND).suspects if each.kind == "duplicate"
    ]
    numbers = LOT.rows.row_numbers.tolist()
    first = marks.index("c9")
    assert [each.mark for each in told] == ["c9", "c9"]
    assert told[0].rows == tuple(numbers[first : first + 2])


def test_a_tiring_lamp_is_told():
    fall = np.linspace(1.0, 0.97, 300)
    read = {**LOT.rows.figures, **{name: LOT.rows.figures[name] * fall for name in ("isc_a", "imp_a")}}
    assert "falls" in found(estimate(replace(LOT.rows, figures=read), KIND), "drift")[""].reason


def test_a_lot_read_in_rounds_and_coarsely_has_no_marks_twice():
    two = {name: np.tile(np.round(figure, 1), 2) for name, figure in LOT.rows.figures.items()}
    rows = CellRows(LOT.rows.marks * 2, np.arange(600), two, ("",) * 600)
    standing = estimate(rows, KIND)
    assert not found(standing, "duplicate")
    assert not found(standing, "again")


def test_wrong_signs_and_wild_figures_are_told_and_never_break_the_estimate():
    dice = np.random.default_rng(0)
    wild = {name: dice.lognormal(0, 3, 40) for name in FIGURES}
    wild["isc_a"][3], wild["voc_v"][4], wild["irradiance_w_m2"][5] = -9.0, np.inf, 0.0
    rows = CellRows(tuple(f"w{k}" for k in range(40)), np.arange(40), wild, ("",) * 40)
    standing = estimate(rows, KIND)
    assert np.isfinite(standing.power_w).all()
    assert np.isfinite(standing.power_sd_w).all()
    assert {"w3", "w4", "w5"} <= {each.mark for each in standing.suspects if each.kind == "impossible"}


def test_a_current_at_a_voltage_that_no_cell_has_is_left_aside():
    told = {"isc_a": 9.0, "voc_v": 0.62, "at_v": 1.9, "at_a": 3.0}
    read = {name: np.full(3, figure) for name, figure in told.items()}
    standing = estimate(CellRows(("a", "b", "c"), np.arange(3), read, ("",) * 3), KIND)
    assert sum("one silicon cell has" in each.reason for each in standing.suspects) == 3
    assert (standing.readings == 2).all()


def test_what_all_readings_share_is_told_beside_the_bands(sound):
    assert 0.03 < sound.common_share < 0.04  # light 3 %, currents 1 %, voltages and heat half a percent each
    assert any("All cells together" in words for words in sound.said)
