"""Thousands of pieces: every one is cut once, from bars that hold them, in bounded work."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from panewright.cutting.bars import mixed
from panewright.cutting.bars.bars import cut_from
from panewright.cutting.bars.filled import LONGEST, filled, one_try
from panewright.cutting.bars.patterns import fullest, worthy_patterns
from panewright.cutting.bars.stock import Bar
from panewright.cutting.piece import Piece, Saw, taken_mm

SAW = Saw(3.0, 5.0)


def pieces(sizes: int, each: int) -> list[Piece]:
    chance = Random(sizes)
    return [Piece(f"rail {n}", float(chance.randint(400, 1900)), each) for n in range(sizes)]


def cut_of(plan) -> Counter[float]:
    for bar in plan.bars:
        assert sum(taken_mm(piece, SAW) for piece in bar.pieces) <= bar.bar_mm - 10 + 3 + 1e-6
    return Counter(piece.length_mm for bar in plan.bars for piece in bar.pieces)


@pytest.mark.parametrize("bars", [[Bar(6000.0)], [Bar(6000.0), Bar(4000.0), Bar(2750.0, None, 3)]])
def test_four_thousand_rails_of_fifty_sizes_are_cut_once_and_the_plan_is_proven(bars):
    wanted = pieces(50, 80)
    plan = cut_from(wanted, bars, SAW)
    assert cut_of(plan) == sum((Counter({p.length_mm: p.quantity}) for p in wanted), Counter())
    assert plan.proven
    assert plan.gap == 0
    assert plan.bought_mm == plan.bound_mm


def test_where_sizes_are_too_many_for_the_linear_programme_the_gap_is_told(monkeypatch):
    monkeypatch.setattr(mixed, "MOST_SIZES", 5)
    monkeypatch.setattr(mixed, "_ALONE", 5)
    chance = Random(1)
    wanted = [Piece("rail", float(chance.randint(1700, 2400)), 1) for _ in range(60)]  # near thirds: hard
    plan = cut_from(wanted, [Bar(6000.0)], SAW)
    assert sum(cut_of(plan).values()) == 60
    assert not plan.proven
    assert plan.bound_mm == 21 * 6000.0  # what the length says
    assert plan.gap == pytest.approx(1 - 21 / len(plan.bars))


def test_a_try_that_takes_too_long_is_not_made():
    sizes, counts, rooms = (1300, 700), (3000, 3000), [6000] * 1100
    assert one_try(sizes, counts, rooms) > LONGEST
    assert filled(sizes, counts, rooms, 1) is None
    assert filled(sizes, (30, 30), [6000] * 11, 1) is not None


def test_a_bar_of_more_sizes_than_python_calls_deep_is_filled():
    sizes = tuple(range(3000, 500, -1))
    best = fullest(sizes, (1,) * len(sizes), 6000, [float(size) for size in sizes])
    assert (
        sum(size * count for size, count in zip(sizes, best, strict=True)) == 5999
    )  # a short search: not all
    assert worthy_patterns(sizes, (1,) * len(sizes), 1001, [float(s) for s in sizes], 1001.0, 3000) == [
        tuple(int(size == 1001) for size in sizes)
    ]
