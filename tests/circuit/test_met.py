"""A circuit moved to what was measured of it: held against the figures themselves, in both directions."""

import dataclasses
import math

import pytest

from invented_panels import Made
from panewright.circuit.chords.law import COOL_C, WARM_C
from panewright.circuit.maxima import key_points
from panewright.circuit.met import Figures, met

MADE = Made(36, 2, seed=4)
COOL, WARM = (MADE.network([1000.0] * 36, heat) for heat in (COOL_C, WARM_C))
OWN = key_points(COOL)


@pytest.mark.parametrize(
    ("light", "volts", "power"), [(0.97, 1.0, 0.96), (1.03, 0.985, 1.0), (1.0, 1.01, 0.9)]
)
def test_the_moved_circuit_has_the_measured_power_isc_and_voc(light, volts, power):
    figures = Figures(OWN.power_w * power, OWN.isc_a * light, OWN.voc_v * volts)
    found = met(COOL, WARM, figures)
    points = key_points(found.cool)
    assert found.power_met
    assert points.isc_a == pytest.approx(figures.isc_a, rel=1e-4)
    assert points.voc_v == pytest.approx(figures.voc_v, rel=1e-5)
    assert points.power_w == pytest.approx(figures.power_w, rel=1e-4)


def test_what_was_not_measured_stays():
    found = met(COOL, WARM, Figures(isc_a=OWN.isc_a * 0.9))
    assert found.ohm_times == 1.0
    cells = [cell for part in found.cool.strings[0].substrings for cell in part.cells]
    own = [cell for part in COOL.strings[0].substrings for cell in part.cells]
    assert [cell.saturation_a for cell in cells] == [cell.saturation_a for cell in own]
    ratios = {round(a.light_a / b.light_a, 9) for a, b in zip(cells, own, strict=True)}
    assert len(ratios) == 1  # cells stay as unlike as they were
    assert ratios.pop() == pytest.approx(0.9, rel=2e-3)


def test_its_own_figures_move_nothing():
    found = met(COOL, WARM, Figures(OWN.power_w, OWN.isc_a, OWN.voc_v))
    assert found.ohm_times == pytest.approx(1.0, abs=1e-3)
    assert key_points(found.warm).power_w == pytest.approx(key_points(WARM).power_w, rel=1e-5)


def test_both_heats_move_alike_so_that_heat_still_takes_the_same_share():
    found = met(COOL, WARM, Figures(OWN.power_w * 0.95, OWN.isc_a * 0.97, OWN.voc_v * 0.99))
    now = key_points(found.warm).voc_v - key_points(found.cool).voc_v
    assert now == pytest.approx(key_points(WARM).voc_v - OWN.voc_v, rel=0.02)


@pytest.mark.parametrize("power", [1.2, 0.02])
def test_a_power_that_no_resistance_gives_is_told(power):
    found = met(COOL, WARM, Figures(power_w=OWN.power_w * power))
    assert not found.power_met
    assert found.ohm_times == (0.0 if power > 1 else 40.0)


def test_open_joints_and_broken_strings_stay_as_they_are():
    string = dataclasses.replace(COOL.strings[0], tail_ohm=math.inf)
    both = dataclasses.replace(COOL, strings=(COOL.strings[0], string))
    warm = dataclasses.replace(WARM, strings=(WARM.strings[0], string))
    found = met(both, warm, Figures(isc_a=OWN.isc_a * 0.95))
    assert math.isinf(found.cool.strings[1].tail_ohm)
