"""What must hold for any pane: more glass is never weaker, more load never pulls less."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.plate.bending import Elastic, Plate, bend
from panewright.glass.plate.equations import PlateEquations
from panewright.glass.plate.faces import Faces
from panewright.glass.plate.path import load_path, scale, walked_path
from panewright.glass.plate.stretch import State, stretch_from
from panewright.glass.strength import e1300
from panewright.glass.strength.breakage import flaw_integral

GLASS = Elastic(71.7e9, 0.22)
RATIOS = st.sampled_from([1.0, 1.3, 1.62, 2.4, 4.0])  # few, because each has its own path to build
THICKNESS = st.floats(2.16, 8.0)
PRESSURE = st.floats(1.0, 3000.0)


def plate(ratio, thickness_mm, short_mm=700.0):
    return Plate(ratio * short_mm, short_mm, thickness_mm, GLASS)


@settings(deadline=None, max_examples=40)
@given(RATIOS, THICKNESS, st.floats(1.001, 2.0), PRESSURE)
def test_a_thicker_pane_bends_less(ratio, thickness, times, pressure):
    thin, thick = (bend(plate(ratio, t), pressure) for t in (thickness, thickness * times))
    assert thick.deflection_mm < thin.deflection_mm


@settings(deadline=None, max_examples=40)
@given(RATIOS, THICKNESS, PRESSURE, st.floats(1.001, 3.0))
def test_more_load_bends_further_and_pulls_harder(ratio, thickness, pressure, times):
    less, more = (bend(plate(ratio, thickness), p) for p in (pressure, pressure * times))
    assert more.deflection_mm > less.deflection_mm
    assert more.worst_mpa > less.worst_mpa
    assert more.peak_mpa >= more.centre_mpa * (1 - 1e-9)


@settings(deadline=None, max_examples=25)
@given(RATIOS, THICKNESS, st.floats(1.01, 1.5))
def test_a_thicker_or_smaller_pane_bears_more(ratio, thickness, times):
    bears = e1300.non_factored_load_pa(700 * ratio, 700, thickness)
    assert e1300.non_factored_load_pa(700 * ratio, 700, thickness * times) > bears
    assert e1300.non_factored_load_pa(700 * ratio * times, 700 * times, thickness) < bears


@settings(deadline=None, max_examples=25)
@given(RATIOS, st.floats(0.001, 0.5), st.floats(1.1, 2.0))
def test_a_pane_bears_more_where_more_may_break(ratio, failure, times):
    few, many = (
        e1300.non_factored_load_pa(700 * ratio, 700, 3.78, p) for p in (failure, min(failure * times, 0.99))
    )
    assert few < many


@settings(deadline=None, max_examples=40)
@given(RATIOS, st.floats(0.01, 900.0))
def test_any_state_on_the_path_is_in_balance(ratio, q):
    """The swept volume times the load equals the virtual work of the plate's moments and tensions."""
    faces = load_path(ratio, 0.22).faces(q)
    at, weight = np.polynomial.legendre.leggauss(80)
    at, weight = at[40:], weight[40:]
    lines = faces.tables_at(at, at)
    area = np.outer(weight, weight) * ratio
    w = faces.state.w.reshape(faces.counts) * faces.scale
    deflection = lines.x[0] @ w @ lines.y[0].T
    slope_x, slope_y = lines.x[1] @ w @ lines.y[0].T, lines.x[0] @ w @ lines.y[1].T
    bowed = lines.x[2] @ w @ lines.y[0].T + lines.x[0] @ w @ lines.y[2].T
    long, short, shear = faces.membrane(lines)
    pulled = long * slope_x**2 + short * slope_y**2 + 2 * shear * slope_x * slope_y
    work = np.sum(area * (faces.scale**2 * bowed**2 + pulled))
    assert q * np.sum(area * deflection) == pytest.approx(work, rel=1e-6)


@pytest.mark.parametrize("q", [1.0, 30.0, 400.0])
def test_edges_bear_nothing_in_their_plane(q):
    faces = load_path(1.6, 0.22).faces(q)
    line, edge = np.linspace(0, 1, 30), np.ones(1)
    _, short, shear = faces.membrane(faces.tables_at(line, edge))
    long, _, shear_end = faces.membrane(faces.tables_at(edge, line))
    size = np.abs(faces.membrane(faces.tables_at(line, line))).max()
    assert (
        np.abs(np.stack((short.ravel(), shear.ravel(), long.ravel(), shear_end.ravel()))).max() < 1e-9 * size
    )


@pytest.mark.parametrize("ratio", [1.0, 1.6, 2.7, 4.4])
def test_the_path_meets_itself_where_its_stretches_join_and_its_functions_change(ratio):
    path = walked_path(ratio, 0.22)
    path.faces(800.0)
    assert len(path.stretches) > 3
    for part in path.stretches:
        q = float(part.load[0]) * path.faces(1.0).scale ** 3
        if q > 0:
            before, after = path.faces(q * (1 - 1e-9)), path.faces(q * (1 + 1e-9))
            assert before.centre_deflection == pytest.approx(after.centre_deflection, rel=5e-6)
            assert before.peak.stress == pytest.approx(after.peak.stress, rel=2e-3)


@settings(deadline=None, max_examples=12)
@given(st.floats(1.0, 4.0), st.floats(1.0, 1199.0))
def test_the_few_functions_of_small_loads_say_what_many_say(ratio, q):
    few, many = load_path(ratio, 0.22).faces(q), in_many_functions(ratio, q)
    assert few.centre_deflection == pytest.approx(many.centre_deflection, rel=1e-5)
    assert few.centre_stress == pytest.approx(many.centre_stress, rel=3e-4)
    assert few.peak.stress == pytest.approx(many.peak.stress, rel=3e-3)
    assert flaw_integral(few) == pytest.approx(flaw_integral(many), rel=2e-4)


def in_many_functions(ratio, q):
    """The state at Q, walked to from no load in more functions than the path ever takes."""
    counts, scaled = (26, 16), q / scale(0.22) ** 3
    equations = PlateEquations(ratio, *counts)
    still = np.zeros(equations.push.size)
    part = stretch_from(equations, State(0.0, still, still))
    while part.top < scaled:
        part = stretch_from(equations, part.state(part.reach))
    return Faces(ratio, 0.22, counts, part.at_load(scaled), scale(0.22))


def test_no_load_no_bending():
    faces = load_path(1.6, 0.22).faces(0.0)
    assert faces.centre_deflection == 0
    assert faces.peak.stress == 0
    assert flaw_integral(faces) == 0


def test_a_wrong_request_names_the_range():
    with pytest.raises(ValueError, match="from 1 to 6"):
        load_path(7.0, 0.22)
    with pytest.raises(ValueError, match=r"from 0 to 6000"):
        load_path(1.0, 0.22).faces(7000)
    with pytest.raises(ValueError, match="long and a short side"):
        Plate(500, 600, 3, GLASS)


def test_past_its_range_a_plate_says_so_and_gives_the_last_it_knows():
    slack = bend(Plate(3000, 1500, 2.0, GLASS), 5000)
    slender = bend(Plate(5000, 500, 4.0, GLASS), 500)
    assert not slack.known
    assert not slender.known
    assert slack.deflection_mm > 50
