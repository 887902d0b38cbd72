"""Slices of a long campaign add up to the whole, however it was cut, and survive being broken off."""

from __future__ import annotations

import pytest
from campaigns import kept
from campaigns.faults import COSTLY, FORM, Answer, Verdict, told_of
from campaigns.faulty import GROUPS

DAY = "2026-01-01"


def answers(count, _seed, first):
    for number in range(first, first + count):
        group = GROUPS[number % len(GROUPS)]
        ours = Verdict(group if number % 5 else "dimmed", 0.9, 0.5 if number % 6 == 0 else 0.001)
        known = Verdict(group, 0.8, 0.01)
        yield tuple(
            Answer(number, how, group, f"thing, {number}", 2 * COSTLY, ours, known, group)
            for how in ("curve", "meter")
        )


def kept_of(file, first, count, told=None):
    part = kept.Slice(first, count, 1, DAY, f"from {first}")
    return kept.keep(part, told or answers(count, 1, first), file, FORM)


def told(rows):
    return told_of([row.answer for row in rows])


def test_slices_add_up_to_the_whole(tmp_path):
    whole = kept_of(tmp_path / "whole.csv", 0, 30)
    kept_of(tmp_path / "cut.csv", 20, 10)
    kept_of(tmp_path / "cut.csv", 0, 7)
    cut = kept_of(tmp_path / "cut.csv", 5, 15)  # two of which are answered again
    assert [row.answer for row in cut] == [row.answer for row in whole]
    assert told(cut) == told(whole)
    assert told(cut).tried == 30
    assert list(kept.slices(cut, "panels")) == [
        f"5 panels from number 0 to 4: `from 0`, {DAY}",
        f"15 panels from number 5 to 19: `from 5`, {DAY}",
        f"10 panels from number 20 to 29: `from 20`, {DAY}",
    ]


def test_a_slice_that_breaks_off_keeps_what_was_answered(tmp_path):
    def broken():
        yield from answers(3, 1, 0)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        kept_of(tmp_path / "rows.csv", 0, 9, broken())
    assert [row.answer.number for row in kept.read(tmp_path / "rows.csv", FORM)] == [0, 0, 1, 1, 2, 2]


def test_every_costly_fault_that_is_not_called_is_listed_with_its_panel(tmp_path):
    found = told(kept_of(tmp_path / "rows.csv", 0, 30))
    assert len(found.failures) == 2 * 5
    assert any("panel 6: thing, 6 costs 10.0%" in each for each in found.failures)
