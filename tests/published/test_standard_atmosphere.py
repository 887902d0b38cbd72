"""ISO 2533:1975, standard atmosphere: pressure over that at sea level.

memory: 89 875, 79 495, 54 020 and 101 325 Pa at 1000, 2000, 5000 and 0 m.
"""

import pytest

from panewright.climate.balance.film import air_share


@pytest.mark.parametrize(
    ("altitude_m", "pressure_pa"), [(0, 101325), (1000, 89875), (2000, 79495), (5000, 54020)]
)
def test_air_grows_lighter_with_the_standard_pressure(altitude_m, pressure_pa):
    assert air_share(altitude_m) == pytest.approx(pressure_pa / 101325, abs=5e-5)
