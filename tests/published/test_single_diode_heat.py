"""The temperature trap of De Soto's model: 36 multi cells of 156 mm, made with pvlib 0.16.1.

pvlib calcparams_desoto with EgRef = 1.162 / n = 1.0375 eV and dEgdT = 0, and 50 mohm of ribbon; slopes are
means from 25 to 65 degC. With the plain gap of 1.121 eV and its usual slope Voc would fall by an unreal
0.44 % a kelvin. Confidence: derived.
"""

import pytest

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.maxima import key_points as panel_points
from panewright.circuit.network import Network, String, Substring

ALPHA_A_K, ISC_A = 0.00428314, 8.566272037
STC = Diode(8.5679853, 3.498345e-9, 0.02877568862, 0.00410914, 20.5457)
MODEL = CellModel(STC, 1.162 / 1.12, ALPHA_A_K / ISC_A, 24336.0)
RIBBON_OHM = 0.05


def panel(irradiance_w_m2, cell_c):
    cell = diode_at(MODEL, irradiance_w_m2, cell_c)
    return panel_points(Network((String((Substring((cell,) * 36, (0.0,) * 36),)),), RIBBON_OHM))


def test_the_panel_at_stc_is_the_reference_panel():
    points = panel(1000, 25)
    got = (points.isc_a, points.voc_v, points.imp_a, points.vmp_v, points.power_w)
    # the Lambert W form behind these figures finds the point of maximum power to 7e-9
    assert got == pytest.approx((8.565693106, 22.39199999, 8.032323567, 17.88175287, 143.632025), rel=7e-9)


def test_the_slopes_of_current_voltage_and_power_are_those_of_the_scaled_gap():
    cold, hot = panel(1000, 25), panel(1000, 65)
    assert (hot.isc_a - cold.isc_a) / 40 == pytest.approx(0.00428194, rel=2e-6)
    assert (hot.voc_v / cold.voc_v - 1) / 40 == pytest.approx(-0.00338059, rel=2e-6)
    assert (hot.power_w / cold.power_w - 1) / 40 == pytest.approx(-0.00432694555353, rel=2e-6)


def test_a_fifth_of_the_light_gives_the_low_light_case():
    dim = key_points(diode_at(MODEL, 200, 25))  # mpmath, 40 digits
    assert dim.power_w == pytest.approx(0.7841925652, rel=1e-9)
    assert dim.voc_v == pytest.approx(0.5756949109, rel=1e-9)
