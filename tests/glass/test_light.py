"""Light through a sheet: textbook slab, figures from an independent evaluation (derived)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.light.colours import tinted
from panewright.glass.light.through import faces_at, oblique_transmittance, surface_reflectance, transmittance


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


def test_60_degrees_on_a_clear_slab():
    """n 1.526: r across 0.185, r along 0.001, one cover of [DB], recalled."""
    (across, inner), (along, _) = faces_at(60.0, 1.526)
    assert across == pytest.approx(0.185, abs=5e-4)
    assert along == pytest.approx(0.001, abs=5e-4)
    assert inner == pytest.approx(across)  # in air both faces are alike


@given(st.floats(0, 89.5), st.floats(1.0, 1.6))
def test_encapsulant_behind_lets_more_through_and_an_angle_less(angle, behind):
    sheet = tinted("glass", 4.0, 0.12)
    assert (sheet.at_angle(angle, 1.4) >= sheet.at_angle(angle) * (1 - 1e-12)).all()
    assert sheet.at_angle(0.0, behind) == pytest.approx(sheet.through(behind))
    assert (sheet.at_angle(angle, behind) <= sheet.through(behind) * 1.003).all()
