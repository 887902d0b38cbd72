"""The edges of a far bent pane: they carry its load, and the corners are held down as the twist says."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.linear import corner_force_n, edge_reaction_n_per_m, side_reaction_n
from panewright.glass.plate.path import load_path
from panewright.glass.plate.reaction import edge_reaction

GLASS = Elastic(71.7e9, 0.22)
ASPECTS = st.sampled_from([1.0, 1.3, 1.6, 2.0, 3.1])


def plate(ratio: float, q: float, pressure_pa: float = 2000.0) -> Plate:
    """A pane of so slack a thickness that the pressure is Q."""
    thickness = 1000 * (pressure_pa / (GLASS.young_pa * q)) ** 0.25
    return Plate(1000 * ratio, 1000, thickness, GLASS)


@settings(deadline=None, max_examples=40)
@given(ASPECTS, st.floats(0.01, 2000))
def test_sides_less_corners_carry_the_whole_load(ratio, q):
    push = edge_reaction(plate(ratio, q), 2000)
    assert push.known
    assert push.total_n == pytest.approx(2000 * ratio, rel=1e-9)


@settings(deadline=None, max_examples=40)
@given(ASPECTS, st.floats(0.01, 1500))
def test_the_corner_is_held_down_by_the_twist_of_the_plate(ratio, q):
    pane = plate(ratio, q)
    faces = load_path(ratio, 0.22).faces(q)
    at = faces.tables_at(np.ones(1), np.ones(1))
    twist = float((at.x[1] @ faces.state.w.reshape(faces.counts) @ at.y[1].T)[0, 0])
    book = 2 * (1 - 0.22) * twist / faces.state.load * 2000  # 2 D (1 - nu) w,xy
    assert edge_reaction(pane, 2000).corner_n == pytest.approx(book, rel=5e-4)


@pytest.mark.parametrize("ratio", [1.0, 1.4, 2.0, 4.0, 6.0])
def test_a_small_load_gives_levys_series(ratio):
    pane = plate(ratio, 1e-3)
    push = edge_reaction(pane, 2000)
    for side, at, table in (
        ("long", push.long_at_mm, push.long_n_per_mm),
        ("short", push.short_at_mm, push.short_n_per_mm),
    ):
        length = pane.long_mm if side == "long" else pane.short_mm
        levy = edge_reaction_n_per_m(pane.long_mm, 1000, 2000, side, 2 * np.array(at) / length)
        off = np.abs(np.array(table) * 1e3 - levy) / 2000
        inside = np.array(at) < 0.98 * length / 2
        assert off[inside].max() < 3e-4
        assert off.max() < 2e-3  # beside the corner it falls as s log s, for which both series are slow
    assert push.long_n == pytest.approx(side_reaction_n(pane.long_mm, 1000, 2000, "long"), rel=2e-5)
    assert push.short_n == pytest.approx(side_reaction_n(pane.long_mm, 1000, 2000, "short"), rel=2e-5)
    assert push.corner_n == pytest.approx(corner_force_n(pane.long_mm, 1000, 2000), rel=1e-4)


@settings(deadline=None, max_examples=30)
@given(ASPECTS, st.floats(0.01, 2000))
def test_the_table_holds_its_sides_whole_push(ratio, q):
    push = edge_reaction(plate(ratio, q), 2000)
    long = 2 * np.trapezoid(push.long_n_per_mm, push.long_at_mm)
    short = 2 * np.trapezoid(push.short_n_per_mm, push.short_at_mm)
    assert long == pytest.approx(push.long_n, rel=3e-3)
    assert short == pytest.approx(push.short_n, rel=3e-3)


@pytest.mark.parametrize("ratio", [1.0, 1.6, 2.0])
def test_a_far_bent_pane_hangs_in_its_corners(ratio):
    little, far = edge_reaction(plate(ratio, 1), 2000), edge_reaction(plate(ratio, 1000), 2000)
    assert far.long_n_per_mm[0] < 0.5 * little.long_n_per_mm[0]
    assert far.peak_n_per_mm > 1.4 * little.peak_n_per_mm
    assert far.long_n / far.short_n <= little.long_n / little.short_n + 1e-9


def test_no_load_gives_no_push():
    push = edge_reaction(Plate(1500, 1000, 4, GLASS), 0.0)
    assert push.total_n == push.corner_n == push.peak_n_per_mm == 0


def test_past_the_range_it_says_so():
    slack = Plate(2000, 1000, 2.0, GLASS)
    assert not edge_reaction(slack, 8000).known
    assert edge_reaction(slack, 8000).total_n == pytest.approx(16000, rel=1e-9)
