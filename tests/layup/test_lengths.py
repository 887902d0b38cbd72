"""Ribbon counted by kind adds up to the ribbon drawn."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.layup.candidates import candidates
from panewright.layup.lengths import bus_pieces, joints, ribbon_kg, tab_pieces
from panewright.layup.place import lay
from panewright.layup.runs import bus_runs

KIND = CellKind("cell", Shape(156.0, 156.0), Nameplate(9.0, 0.63, 8.5, 0.53, 0.0005, -0.003), "minus")


@settings(deadline=None)
@given(st.integers(1, 72), st.integers(1, 3))
def test_pieces_by_kind_add_up_to_every_ribbon(in_series, strings):
    for plan in candidates(KIND, in_series, strings):
        layup = lay(plan, KIND)
        tabs, buses = tab_pieces(layup), bus_pieces(layup)
        assert sum(piece.quantity for piece in tabs) == len(layup.tabs)
        drawn = sum(tab.length_mm for tab in layup.tabs) / 1000
        assert sum(piece.metres for piece in tabs) == pytest.approx(drawn, abs=1e-5)
        assert sum(piece.metres for piece in buses) == pytest.approx(
            sum(each.length_mm for each in (*layup.buses, *layup.tails)) / 1000
        )
        for piece in tabs:
            bends = piece.length_mm - piece.front_mm - piece.back_mm - piece.free_mm
            assert bends == pytest.approx(0.5 * piece.steps, abs=0.01)


@settings(deadline=None)
@given(st.integers(1, 72), st.integers(1, 3))
def test_every_cell_has_two_joints_for_each_busbar(in_series, strings):
    layup = lay(candidates(KIND, in_series, strings)[0], KIND)
    found = joints(layup)
    assert found.on_cells == 2 * KIND.shape.busbars * in_series * strings
    assert found.on_buses == 2 * KIND.shape.busbars * layup.plan.columns
    assert found.all == found.on_cells + found.on_buses + 2 + len(layup.taps)


def test_the_ribbon_of_a_36_cell_panel(whole):
    """32 joints a busbar of 312 mm; 8 column ends, 6 of them in lane 1 and 2 in lane 2."""
    layup = lay(next(plan for plan in candidates(whole, 36) if plan.columns == 4), whole)
    tabs = tab_pieces(layup)
    assert [(piece.length_mm, piece.quantity) for piece in tabs] == [
        (312.0, 96), (163.5, 9), (163.5, 9), (171.5, 3), (171.5, 3),
    ]  # fmt: skip
    metres = sum(piece.metres for piece in tabs)
    assert metres == pytest.approx(96 * 0.312 + 18 * 0.1635 + 6 * 0.1715)
    assert ribbon_kg(tabs, 0.01) == pytest.approx(0.01 * metres)


@settings(deadline=None)
@given(st.integers(1, 72), st.integers(1, 3))
def test_current_enters_and_leaves_every_bus_within_its_length(in_series, strings):
    layup = lay(candidates(KIND, in_series, strings)[-1], KIND)
    runs = bus_runs(layup)
    assert len(runs) == len(layup.buses)
    for run, bus in zip(runs, layup.buses, strict=True):
        assert all(0 < place < bus.length_mm for place in (*run.enters_mm, *run.leaves_mm))
        assert len(run.enters_mm) == KIND.shape.busbars * (len(bus.columns) if bus.pole != "between" else 1)
