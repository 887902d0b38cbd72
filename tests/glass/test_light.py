"""Light through a sheet: textbook slab, figures from an independent evaluation (derived)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.light import oblique_transmittance, surface_reflectance, transmittance


@pytest.mark.parametrize(
    ("index", "share"),
    [(1.3, 0.017013233), (1.49, 0.038725182), (1.5, 0.04), (1.526, 0.04336155), (3.9, 0.35027072)],
)
def test_one_surface_throws_back(index, share):
    assert surface_reflectance(index) == pytest.approx(share, rel=1e-7)


@pytest.mark.parametrize(
    ("thickness", "extinction", "index", "share"),
    [
        (3.2, 0, 1.526, 0.91688107),
        (3.0, 0, 1.49, 0.9254371),
        (3.2, 4, 1.526, 0.90517668),
        (3.2, 16, 1.526, 0.87095859),
        (3.2, 32, 1.526, 0.82735095),
    ],
)
def test_a_slab_lets_through(thickness, extinction, index, share):
    assert transmittance(thickness, extinction, index) == pytest.approx(share, rel=1e-6)


@given(st.floats(0, 89.9), st.floats(1, 10), st.floats(0, 40))
def test_oblique_light_and_thicker_glass_lose_more(angle, thickness, extinction):
    here = oblique_transmittance(angle, thickness, extinction)
    assert 0 <= here <= transmittance(thickness, extinction) * (1 + 2e-3)
    assert oblique_transmittance(angle, thickness + 1, extinction) <= here


def test_straight_on_is_the_limit_of_oblique():
    assert oblique_transmittance(0.01, 3.2, 4) == pytest.approx(transmittance(3.2, 4), rel=1e-6)
    with pytest.raises(ValueError, match="0 to 90"):
        oblique_transmittance(95, 3.2, 4)
