"""Laws of legs that bend across."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.structure.space import legs as room
from panewright.structure.space.legs import Legs, bolt_mm_n

ANGLE = Legs(36.5, 28.5, 3.0, 69_600.0)


def test_finer_strips_and_more_waves_change_it_by_less_than_two_percent(monkeypatch):
    coarse = bolt_mm_n(ANGLE, 26.0)
    monkeypatch.setattr(room, "_STRIPS", 8)
    monkeypatch.setattr(room, "_WAVES", 90)
    bolt_mm_n.cache_clear()
    fine = bolt_mm_n(ANGLE, 26.0)
    bolt_mm_n.cache_clear()
    assert fine == pytest.approx(coarse, rel=0.02)


@given(st.floats(0.5, 3), st.floats(0.5, 2))
def test_it_goes_as_size_squared_over_the_wall_cubed(size, wall):
    other = Legs(36.5 * size, 28.5 * size, 3.0 * wall, 69_600.0)
    share = size**2 / wall**3
    assert bolt_mm_n(other, 26.0 * size) == pytest.approx(bolt_mm_n(ANGLE, 26.0) * share, rel=1e-6)


@given(st.floats(0.3, 0.9), st.floats(0.5, 1.5))
def test_it_is_small_beside_the_twist_of_a_span(share, other):
    """Against a rail that twists between fixed ends ten legs apart, pushed in its middle."""
    legs = Legs(40.0, 40.0 * other, 3.0, 69_600.0)
    at = share * 40.0
    twist = at**2 * 400.0 / (4 * legs.twist_nmm2)
    assert abs(bolt_mm_n(legs, at)) < 0.1 * twist
