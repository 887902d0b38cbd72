"""The hourly line of cell temperature beside the laws of an open library through which it was drawn."""

import numpy as np
import pvlib
import pytest

from panewright.climate.hourly import SHEDS, behind, hourly_cell_c

SANDIA = pvlib.temperature.TEMPERATURE_MODEL_PARAMETERS["sapm"]
KINDS = {"close": "close_mount_glass_glass", "closed": "insulated_back_glass_polymer"}
WIND = np.linspace(0, 10, 101)


@pytest.mark.parametrize("back", KINDS)
def test_close_to_a_roof_it_is_the_line_through_the_measured_law(back):
    law = pvlib.temperature.sapm_cell(1000.0, 0.0, WIND, **SANDIA[KINDS[back]])
    blown, still = np.polyfit(WIND, 1000 / law, 1)
    assert SHEDS[back] == pytest.approx((still, blown), rel=1e-3)
    ours = hourly_cell_c(np.full(101, 1000.0), np.zeros(101), WIND, back)
    usual = (WIND >= 1) & (WIND <= 6)
    assert np.abs(ours - law)[usual].max() < 0.6


def test_in_the_open_it_is_faiman_s():
    ours = hourly_cell_c(np.full(101, 700.0), np.full(101, 12.0), WIND)
    assert ours == pytest.approx(pvlib.temperature.faiman(700.0, 12.0, WIND), abs=1e-9)


def test_the_less_air_behind_the_hotter():
    light, air, wind = np.array([900.0]), np.array([25.0]), np.array([2.0])
    open_, close, closed = (hourly_cell_c(light, air, wind, back)[0] for back in ("open", "close", "closed"))
    assert open_ < close < closed
    assert behind("flat roof") == "open"
    assert behind("wall") == "close"
