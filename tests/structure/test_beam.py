"""Rails on brackets: closed forms of the handbooks, balance, and scale."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.structure.rails.beam import LineLoad, bend, least_sag_from_end, spread

EVEN = LineLoad(steps=((0.0, 1.0),))
TRIANGLE = LineLoad(ramps=((0.0, 2.0), (0.5, -4.0)))
loads = st.builds(
    lambda ramp, step, where, force: LineLoad(((where / 2, ramp),), ((0.0, step),), ((where, force),)),
    st.floats(0.1, 3),
    st.floats(0.1, 3),
    st.floats(0, 1),
    st.floats(0, 2),
)


def on(load, *places):
    return bend(load, np.array([places]))


def test_even_load_on_two_ends_sags_five_384ths():
    bent = on(EVEN, 0.0, 1.0)
    assert bent.sag.max() == pytest.approx(5 / 384)
    assert bent.most_moment[0] == pytest.approx(1 / 8)


def test_triangle_on_two_ends_sags_one_120th():
    bent = on(TRIANGLE, 0.0, 1.0)
    assert bent.sag.max() == pytest.approx(1 / 120)
    assert bent.most_moment[0] == pytest.approx(1 / 12)


def test_two_equal_spans_share_three_ten_three():
    bent = on(EVEN, 0.0, 0.5, 1.0)
    assert bent.reactions[0] * 16 == pytest.approx([3, 10, 3])
    assert bent.most_moment[0] == pytest.approx(1 / 32)


def test_three_equal_spans_share_four_eleven_eleven_four():
    bent = on(EVEN, 0.0, 1 / 3, 2 / 3, 1.0)
    assert bent.reactions[0] * 30 == pytest.approx([4, 11, 11, 4])


def test_a_point_load_on_the_overhang_by_hand():
    bent = on(LineLoad(points=((1.0, 1.0),)), 0.0, 0.75)
    assert bent.reactions[0] == pytest.approx([-1 / 3, 4 / 3])
    assert bent.sag[0, -1] == pytest.approx(0.25**2 * 1.0 / 3)  # P a^2 (L + a) / 3 EI


def test_two_brackets_sag_least_at_the_classic_share_of_the_length():
    """0.2232 of an even rail under an even load: end and middle then sag alike."""
    place = least_sag_from_end(EVEN, 2)
    assert place == pytest.approx(0.2232, abs=1e-3)
    bent = on(EVEN, place, 1 - place)
    assert bent.sag[0, 0] == pytest.approx(bent.sag[0, bent.sag.shape[1] // 2], rel=0.03)


@given(loads, st.floats(0.0, 0.4), st.integers(2, 5))
def test_forces_and_moments_balance(load, from_end, count):
    places = spread(count, np.array([from_end]))
    bent = bend(load, places)
    ((ramp_at, slope),), ((_, step),), ((where, force),) = load.ramps, load.steps, load.points
    run = 1 - ramp_at
    total = slope * run**2 / 2 + step + force
    turning = slope * run**2 / 2 * (ramp_at + 2 * run / 3) + step / 2 + force * where
    assert bent.reactions.sum() == pytest.approx(total)
    assert (bent.reactions * places).sum() == pytest.approx(turning)
    assert bent.moment[0, -1] == pytest.approx(0.0, abs=1e-9 * total)


@given(loads, st.floats(0.0, 0.4), st.integers(2, 5))
def test_the_rail_does_not_leave_its_brackets(load, from_end, count):
    places = spread(count, np.array([from_end]))
    bent = bend(load, places)
    at_brackets = np.interp(places[0], bent.x[0], bent.sag[0])
    assert np.abs(at_brackets).max() < 1e-9


@given(loads, st.floats(0.02, 0.4))
def test_the_best_place_is_never_worse_than_another(load, other):
    best = least_sag_from_end(load, 2)
    wave = bend(load, spread(2, np.array([best, other]))).wave
    assert wave[0] <= wave[1] * 1.02


@given(loads)
def test_moment_is_the_bend_of_the_sag(load):
    bent = bend(load, np.array([[0.1, 0.9]]), 2001)
    clear = slice(300, 400)  # even steps, away from the brackets
    step = bent.x[0, 301] - bent.x[0, 300]
    curvature = np.diff(bent.sag[0, clear], 2) / step**2
    assert -curvature == pytest.approx(bent.moment[0, clear][1:-1], rel=1e-2, abs=1e-2)
