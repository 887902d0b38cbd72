"""Lots that are matched in slices are told as those of one run."""

from __future__ import annotations

import math

import pytest
from campaigns import kept
from campaigns.matching_told import FORM, Answer, together, told_of


def lot(number, by_sorting, ours, bound, **else_):
    gap = bound - by_sorting
    told = {"more_panels": False, "seconds": 2.5, "wrong": "", **else_}
    share = (ours - by_sorting) / gap if gap else 1.0
    return Answer(number, "steps", "MostMoney", 120, by_sorting, ours, bound, share, **told)


WIDE, NARROW = lot(0, 100.1, 109.1, 110.1), lot(4, 200.0, 200.0, 200.5)


def test_rows_say_again_what_was_answered(tmp_path):
    part = kept.Slice(0, 2, 1, "2026-01-01", "some run")
    odd = lot(8, 0.1 + 0.2, 1 / 3, 2 / 3, more_panels=True, wrong="worse, it says")
    rows = kept.keep(part, iter([(WIDE,), (NARROW,), (odd,)]), tmp_path / "lots.csv", FORM)
    assert [(row.answer.ours, row.answer.wrong) for row in rows] == [
        (109.1, ""),
        (200.0, ""),
        (1 / 3, "worse, it says"),
    ]
    assert [row.answer for row in rows] == [WIDE, NARROW, odd]


def test_gaps_count_together_and_lot_by_lot():
    assert together([WIDE, NARROW]) == pytest.approx(9.0 / 10.5)
    found = told_of([WIDE, NARROW])
    assert [(each.worst, each.where) for each in found.deviations] == [
        (pytest.approx(0.55), "2 lots"),
        (pytest.approx(1.0), "lot 4 of 120 cells"),
    ]
    assert not found.holds


def test_a_lot_that_sorting_answers_best_has_no_gap():
    best = lot(3, 5.0, 5.0, 5.0)
    assert math.isnan(together([best]))
    assert told_of([best]).deviations == ()


def test_each_kind_of_wrong_is_told_once_with_its_first_lot():
    found = told_of([WIDE, lot(8, 1.0, 0.5, 2.0, wrong="worse"), lot(12, 1.0, 0.5, 2.0, wrong="worse")])
    assert [each.split(":")[:2] for each in found.failures] == [
        ["worse", " steps, MostMoney, lot 8 of 120 cells"]
    ]


def test_a_gap_that_no_meter_shows_counts_and_is_told_beside_the_others():
    hardly, wide = lot(9, 1000.0, 1000.03, 1000.06), lot(10, 1000.0, 1000.18, 1000.2)
    found = told_of([hardly, wide])
    assert not found.holds
    assert "1 where sorting is within 0.01 % of the bound (of those gaps 0.50 closed)" in found.notes[0]
    assert "0.81 of all gaps together" in found.notes[0]
    assert told_of([wide]).holds
