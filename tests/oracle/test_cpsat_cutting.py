"""Cutting plans against CP-SAT models of another kind: each piece put into a bar by itself."""

from __future__ import annotations

from random import Random

import pytest
from campaigns import cutting
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from panewright.cutting.bars.bars import cut_bars
from panewright.cutting.piece import Piece
from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet
from panewright.cutting.sheets.sheets import cut_sheets


@pytest.mark.parametrize("kind", cutting.KINDS)
def test_small_jobs_take_the_fewest_bars(kind):
    pieces = cutting.job(Random(5), kind, 12)
    plan = cut_bars(pieces, cutting.BAR_MM, cutting.KERF_MM, cutting.TRIM_MM)
    assert (len(plan.bars), cutting.fault(pieces, plan)) == (cutting.fewest(pieces), "")


def test_a_sample_of_the_campaign_holds():
    found = cutting.campaign(10, 3)
    assert found.failures == ()
    assert found.counts == {"proven": 8, "proven from racks and shop": 2, cutting.DECIDED: 1}


@given(st.lists(st.tuples(st.integers(2, 6), st.integers(2, 6)), min_size=1, max_size=6))
@settings(deadline=None, max_examples=15)
def test_no_packing_even_by_other_cuts_takes_fewer_sheets_than_the_bound(sizes):
    """Free packing bounds cuts from edge to edge from below; a plan proven by area can't lie above it."""
    panels = [Panel(str(i), float(w), float(h), 1, turns=False) for i, (w, h) in enumerate(sizes)]
    plan = cut_sheets(panels, [Sheet(8.0, 7.0)], Cutter())
    free = fewest_free(sizes, (8, 7), len(plan.sheets))
    assert free <= len(plan.sheets)
    if plan.proven and len(plan.sheets) > free:
        assert len(sizes) > 3  # some packings are not by straight cuts; of few rectangles all are


def fewest_free(sizes: list[tuple[int, int]], sheet: tuple[int, int], most: int) -> int:
    """Sheets side by side in one long strip, no two rectangles overlapping."""
    model = cp_model.CpModel()
    across, along, last = [], [], model.NewIntVar(1, most, "")
    for width, height in sizes:
        number = model.NewIntVar(0, most - 1, "")
        within = model.NewIntVar(0, sheet[0] - width, "")
        start, rise = model.NewIntVar(0, most * sheet[0], ""), model.NewIntVar(0, sheet[1] - height, "")
        model.Add(start == number * sheet[0] + within)
        model.Add(last >= number + 1)
        across.append(model.NewFixedSizeIntervalVar(start, width, ""))
        along.append(model.NewFixedSizeIntervalVar(rise, height, ""))
    model.AddNoOverlap2D(across, along)
    model.Minimize(last)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.Solve(model) == cp_model.OPTIMAL
    return round(solver.ObjectiveValue())


def test_a_piece_alone_needs_one_bar():
    assert cutting.fewest([Piece("p", 100.0, 1)]) == 1
