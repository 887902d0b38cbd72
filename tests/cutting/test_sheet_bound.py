"""What one sheet gives at most, and what no plan of sheets undercuts."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.sheets.panel_ends import Kind
from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet
from panewright.cutting.sheets.sheet_bound import least_cost
from panewright.cutting.sheets.sheet_job import job
from panewright.cutting.sheets.sheet_worth import Plates
from panewright.cutting.sheets.sheets import cut_sheets

SIDE, WORTH = st.integers(2, 7), st.integers(1, 9)
KINDS = st.lists(st.tuples(SIDE, SIDE, st.booleans(), WORTH), min_size=1, max_size=3)


def by_trying(size, kinds, worth, kerf) -> int:
    """The same by all cuts at all places."""

    @cache
    def most(width: int, height: int) -> int:
        singles = [
            value
            for kind, value in zip(kinds, worth, strict=True)
            for way in kind.ways
            if way[0] <= width and way[1] <= height
        ]
        best = max(singles, default=0)
        if not singles:
            return 0
        for at in range(1, width):
            best = max(best, most(at, height) + most(max(width - at - kerf, 0), height))
        for at in range(1, height):
            best = max(best, most(width, at) + most(width, max(height - at - kerf, 0)))
        return best

    return most(*size)


@settings(max_examples=40)
@given(KINDS, st.integers(5, 14), st.integers(5, 14), st.integers(0, 2))
def test_one_sheet_is_worth_what_trying_all_cuts_finds(kinds, width, height, kerf):
    listed = [Kind(w, h, 99, turns) for w, h, turns, _ in kinds]
    worth = [float(value) for *_, value in kinds]
    most, counts = Plates((width, height), listed, kerf).dearest(worth)
    assert most == by_trying((width, height), listed, tuple(worth), kerf)
    assert most == sum(n * value for n, value in zip(counts, worth, strict=True))


@pytest.mark.parametrize("have", [None, 2])
def test_two_panels_that_share_no_sheet_cost_two_sheets_though_their_area_is_one(have):
    panels = [Panel("front", 600.0, 600.0, 2)]
    asked = job(panels, (Sheet(1000.0, 1000.0, Decimal(45), have),), Cutter(), None)
    assert asked.least == 1
    assert least_cost(asked, 2) == 2


def test_a_cheap_sheet_that_runs_out_serves_once():
    stock = (Sheet(1000.0, 1000.0, Decimal(10), 1), Sheet(1000.0, 1000.0, Decimal(45)))
    asked = job([Panel("front", 600.0, 600.0, 3)], stock, Cutter(), None)
    assert least_cost(asked, 20) * asked.step == 100  # one at 10 and two at 45


@settings(max_examples=15, deadline=None)
@given(st.lists(st.tuples(SIDE, SIDE, st.integers(1, 3)), min_size=1, max_size=3), st.integers(8, 12))
def test_no_plan_is_cheaper_than_the_bound(panels, side):
    listed = [Panel("front", w * 100.0, h * 100.0, n) for w, h, n in panels]
    stock = (Sheet(side * 100.0, 900.0),)
    plan = cut_sheets(listed, stock, Cutter())
    asked = job(listed, stock, Cutter(), None)
    assert least_cost(asked, float("inf")) <= len(plan.sheets)
    assert plan.bound <= plan.area_mm2 + 1e-6


def test_six_sizes_of_acrylic_fronts_are_proven():
    sizes = ((1490, 680, 8), (1200, 540, 7), (1633, 715, 6), (980, 640, 5), (660, 520, 4), (1310, 990, 3))
    panels = [Panel("front", float(w), float(h), n) for w, h, n in sizes]
    plan = cut_sheets(panels, [Sheet(3210.0, 2250.0)], Cutter(0.0, 10.0, 15.0), (600.0, 300.0))
    assert len(plan.sheets) == 5
    assert plan.proven  # by area four sheets would do
