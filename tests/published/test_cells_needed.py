"""How many cells a battery needs in heat, and what direct charging gives.

Counts and voltages: pvlib 0.16.1 (De Soto, EgRef as given, dEgdT = 0) at 1000 W/m2, n = ceil(target / Vmp);
targets 14.4 + 0.5, 14.8 + 0.8, 14.4 + 1.0 and 28.8 + 1.0 V for battery, diode and wire: derived.
Power into a battery held at 12.5, 13.5 and 14.4 V with 0.4 V lost in diode and wire, and at maximum power
without loss: pvlib, 36 poly cells of 156 mm with 50 mohm of ribbon: derived.
"""

import math

import pytest

from panewright.battery.load import Battery, Controller
from panewright.cell.curve import voltage_v
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.circuit.string_length import StringAsk, direct_current_a, string_diode, study_string

THERMAL_V = 1.380649e-23 * 298.15 / 1.602176634e-19


def _model(ideality, series_ohm, shunt_ohm, light_a, saturation_a, isc_a_per_k, gap_ev, area_mm2):
    stc = Diode(light_a, saturation_a, ideality * THERMAL_V, series_ohm, shunt_ohm)
    return CellModel(stc, gap_ev, isc_a_per_k / key_points(stc).isc_a, area_mm2)


POLY = _model(1.12, 0.00410914, 20.5457, 8.5679853, 3.498345e-9, 0.00428314, 1.0375, 24336.0)
MONO = _model(1.08, 0.00376569, 37.6569, 8.8916891, 9.859977e-10, 0.0044454, 1.0759, 23900.0)
PERC = _model(1.05, 0.002456, 81.8666, 9.7722932, 1.5980505e-10, 0.004886, 1.1067, 24430.0)

#: cell, degC, Vmp, Voc, counts for 14.9, 15.6, 15.4 and 29.8 V
TABLE = [
    (POLY, 25, 0.50655684, 0.622, (30, 31, 31, 59)),
    (POLY, 35, 0.48510335, 0.60109722, (31, 33, 32, 62)),
    (POLY, 45, 0.46374064, 0.58010956, (33, 34, 34, 65)),
    (POLY, 55, 0.4424803, 0.55903992, (34, 36, 35, 68)),
    (POLY, 65, 0.42133481, 0.53789099, (36, 38, 37, 71)),
    (POLY, 75, 0.40031766, 0.51666534, (38, 39, 39, 75)),
    (MONO, 25, 0.52304735, 0.636, (29, 30, 30, 57)),
    (MONO, 35, 0.50204086, 0.61566552, (30, 32, 31, 60)),
    (MONO, 45, 0.48111116, 0.59524908, (31, 33, 33, 62)),
    (MONO, 55, 0.46026829, 0.57475348, (33, 34, 34, 65)),
    (MONO, 65, 0.43952301, 0.55418132, (34, 36, 36, 68)),
    (MONO, 75, 0.41888687, 0.53353506, (36, 38, 37, 72)),
    (PERC, 25, 0.56488635, 0.67, (27, 28, 28, 53)),
    (PERC, 35, 0.54484538, 0.65087742, (28, 29, 29, 55)),
    (PERC, 45, 0.52485447, 0.6316751, (29, 30, 30, 57)),
    (PERC, 55, 0.50492093, 0.61239574, (30, 31, 31, 60)),
    (PERC, 65, 0.48505243, 0.59304189, (31, 33, 32, 62)),
    (PERC, 75, 0.46525707, 0.57361593, (33, 34, 34, 65)),
]
#: absorption of the bank, nominal, lost on the way
TARGETS = [(14.4, 12.0, 0.5), (14.8, 12.0, 0.8), (14.4, 12.0, 1.0), (28.8, 24.0, 1.0)]


@pytest.mark.parametrize(("model", "hot_c", "vmp_v", "voc_v", "counts"), TABLE)
def test_cells_in_heat_are_as_many_as_derived(model, hot_c, vmp_v, voc_v, counts):
    hot = diode_at(model, 1000.0, hot_c)
    assert key_points(hot).vmp_v == pytest.approx(vmp_v, rel=2e-6)
    assert voltage_v(hot, 0.0) == pytest.approx(voc_v, rel=2e-6)
    for (absorption_v, nominal_v, lost_v), count in zip(TARGETS, counts, strict=True):
        battery = Battery("agm", nominal_v, absorption_v=absorption_v)
        controller = Controller("direct", most_v=100.0, drop_v=lost_v)
        study = study_string(StringAsk(model, hot_c, 45.0, -10.0, battery, controller))
        assert study.chosen == count


def test_36_poly_cells_reach_14_9_v_up_to_65_c():
    asked = {"battery": Battery("agm", 12.0), "controller": Controller("direct", 100.0, 0.5)}
    assert study_string(StringAsk(POLY, 65.0, 45.0, -10.0, **asked)).chosen == 36
    assert study_string(StringAsk(POLY, 70.0, 45.0, -10.0, **asked)).chosen > 36


#: irradiance, cell degC, Pmp, Vmp, power at 12.5, 13.5, 14.4 V
CHARGING = [
    (1000, 25, 143.63202, 17.881753, (106.79597, 115.22118, 122.64724)),
    (1000, 45, 131.26592, 16.347979, (107.55647, 115.56698, 121.98694)),
    (1000, 60, 121.90545, 15.208482, (107.45013, 114.21106, 118.11847)),
    (1000, 75, 112.49202, 14.080184, (105.61103, 109.15847, 107.62895)),
    (500, 40, 67.362607, 16.716944, (53.727263, 57.841299, 61.291944)),
    (200, 30, 27.440676, 17.024378, (21.403031, 23.067661, 24.498934)),
]


@pytest.mark.parametrize(("light_w_m2", "cell_c", "pmp_w", "vmp_v", "direct_w"), CHARGING)
def test_direct_and_tracked_charging_give_what_was_derived(light_w_m2, cell_c, pmp_w, vmp_v, direct_w):
    string = string_diode(diode_at(POLY, light_w_m2, cell_c), 36, tab_ohm=0.05 / 36)
    assert string.series_ohm == pytest.approx(0.19792904)
    points = key_points(string)
    assert points.power_w == pytest.approx(pmp_w, rel=1e-6)
    assert points.vmp_v == pytest.approx(vmp_v, rel=1e-6)
    for battery_v, power_w in zip((12.5, 13.5, 14.4), direct_w, strict=True):
        assert battery_v * direct_current_a(string, battery_v + 0.4) == pytest.approx(power_w, rel=1e-6)


def test_saturation_grows_as_the_gap_says():
    # the step from 25 to 65 degC, by hand from De Soto's rule
    warm = diode_at(POLY, 1000.0, 65.0)
    t = 338.15 / 298.15
    growth = t**3 * math.exp(1.0375 / 8.617333262e-5 * (1 / 298.15 - 1 / 338.15))
    assert warm.saturation_a == pytest.approx(3.498345e-9 * growth, rel=1e-9)
