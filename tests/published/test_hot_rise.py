"""Heat balance of an evenly heated cell with Faiman's figures (u0 25.0 W/m2K, u1 6.84 W s/m3K).

Confidence: derived (plain arithmetic on the coefficients of D. Faiman, Prog. Photovolt. 16, 2008, p. 307).
"""

import pytest

from panewright.circuit.hot.heat import Cooling, even_rise_k
from panewright.climate.rise import faiman_c


def test_one_watt_a_square_centimetre_heats_by_314_kelvin_in_a_breeze_and_400_in_still_air():
    assert even_rise_k(1.0, 100.0) == pytest.approx(314.0704, abs=5e-5)
    assert even_rise_k(1.0, 100.0, faiman_c(1.0, 0.0, 0.0)) == pytest.approx(400.0)


def test_seventy_two_watts_in_a_whole_cell_heat_it_by_93_kelvin_and_with_the_sun_by_124():
    area_mm2 = 72.0 / 0.2961456 * 100  # the printed W/cm2 goes with this area
    rise = even_rise_k(72.0, area_mm2)
    assert rise == pytest.approx(93.01056, abs=2e-5)
    assert rise + Cooling().k_m2_w * 1000.0 == pytest.approx(124.4176, abs=5e-5)
