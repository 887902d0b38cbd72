"""The night sky: its temperature, and how far a plate falls below the air.

W. C. Swinbank, Q. J. R. Meteorol. Soc. 89, 1963: 0.0552 Ta^1.5 (figures seen in an open library's code). P.
Berdahl, M. Martin, Sol. Energy 32, 1984, p. 663: emissivity 0.711 + 0.56 (d/100) + 0.73 (d/100)^2 of a
clear night sky, d the dew point in degC (recalled). Radiation cooling of buildings at night: a roof of 5
degC under an air of 10 degC (abstract read); plates 5 to 10 K under the air are common (recalled). Desert
skies of a summer night as much as 35 K below the air (abstract read).
"""

import pytest

from panewright.climate.balance.layers import POURED
from panewright.climate.balance.steady import heats
from panewright.climate.balance.surroundings import Surroundings, clear_sky_c
from panewright.units import KELVIN


@pytest.mark.parametrize(("air_c", "sky_k"), [(0.0, 249.20), (20.0, 277.07), (26.85, 286.83)])
def test_swinbank(air_c, sky_k):
    assert clear_sky_c(air_c) + KELVIN == pytest.approx(sky_k, abs=0.01)


def berdahl_martin_c(air_c, dew_c):
    emits = 0.711 + 0.56 * dew_c / 100 + 0.73 * (dew_c / 100) ** 2
    return emits**0.25 * (air_c + KELVIN) - KELVIN


@pytest.mark.parametrize("air_c", [-20.0, -10.0, 0.0, 10.0, 20.0, 30.0])
def test_the_sky_agrees_with_one_of_middling_damp_within_four_kelvin(air_c):
    assert clear_sky_c(air_c) == pytest.approx(berdahl_martin_c(air_c, air_c - 8.0), abs=4.0)


@pytest.mark.parametrize("air_c", [-10.0, 0.0, 10.0, 40.0])
def test_no_sky_is_colder_than_measured_ones_nor_warmer_than_the_air(air_c):
    assert 0 <= air_c - clear_sky_c(air_c) <= 35
    assert clear_sky_c(60.0) == 60.0


@pytest.mark.parametrize("air_c", [-14.0, 0.0, 10.0])
@pytest.mark.parametrize("gap_mm", [None, 100.0])
def test_a_pane_on_a_clear_calm_night_is_5_to_10_k_under_the_air(air_c, gap_mm):
    night = Surroundings(air_c, clear_sky_c(air_c), 0.0, 0.0, 25.0, gap_mm)
    assert 5 <= air_c - heats(POURED, night).pane_c <= 10
