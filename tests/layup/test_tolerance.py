"""Largest and smallest cells, and what a column of them adds up to."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.shape import Shape, area_mm2
from panewright.layup.candidates import candidates
from panewright.layup.place import lay
from panewright.layup.tolerance import largest, least_gaps_mm, smallest, stack_up


@given(st.floats(0.0, 1.0), st.one_of(st.none(), st.floats(190.0, 230.0)))
def test_the_nominal_cell_lies_between_the_limits(tolerance, circle):
    shape = Shape(156.0, 156.0, circle_mm=circle, tolerance_mm=tolerance)
    assert largest(shape).width_mm - smallest(shape).width_mm == pytest.approx(2 * tolerance)
    assert area_mm2(smallest(shape)) <= area_mm2(shape) <= area_mm2(largest(shape))


def test_a_column_grows_by_all_its_tolerances(whole):
    layup = lay(candidates(whole, 36)[-1], whole)
    stack = stack_up(layup)
    rows = layup.plan.rows
    assert stack.nominal_mm == pytest.approx(rows * 156 + (rows - 1) * 3)
    assert stack.longest_mm - stack.nominal_mm == pytest.approx(rows * 0.5)
    assert stack.likely_mm - stack.nominal_mm == pytest.approx(0.5 * rows**0.5)


def test_neighbours_at_their_largest_are_a_tolerance_nearer(whole):
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.columns == 4), whole)
    assert least_gaps_mm(layup) == pytest.approx((2.5, 2.5))


def test_a_single_cell_has_no_neighbour(whole):
    assert least_gaps_mm(lay(candidates(whole, 1)[0], whole)) == (float("inf"), float("inf"))
