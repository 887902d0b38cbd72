"""Curves by chords are those of the exact circuit, in every light and heat.

The oracle is the solver of `circuit.solver`, which is held against ngspice in tests/oracle and against
published curves in tests/published.
"""

import dataclasses
from random import Random

import numpy as np
import pytest

from invented_panels import CELL, SCHOTTKY, Made
from panewright.circuit import solve
from panewright.circuit.chords.law import law_of
from panewright.circuit.chords.panels import curve_of, panels_of
from panewright.circuit.line import as_written
from panewright.circuit.network import Bridge, Network, String, Substring, Turned


def best_w(curve):
    volts = np.linspace(0, max(curve.voltage_v), 4001)
    return float((volts * np.interp(volts, curve.voltage_v, curve.current_a)).max())


STATES = ((1000, 25), (800, 48), (200, 10), (333, -12), (95, 60), (1150, 72), (41, 3))


@pytest.mark.parametrize(
    "made",
    [Made(), Made(36, 2), Made(36, 1, beside=None), Made(60, 6, 2)],
    ids=["60", "36", "36 bare", "2 x 30"],
)
def test_even_light_gives_the_power_of_the_exact_circuit(made):
    panels = panels_of([made.law()])
    for light, cell_c in STATES:
        amps, volts = as_written(made.network([light] * made.cells, cell_c)).peak()
        got = best_w(curve_of(panels, 0, light, cell_c))
        assert got == pytest.approx(amps * volts, rel=3e-4 if light > 90 else 5e-4), (light, cell_c)


@pytest.mark.parametrize("light", [3.0, 5.0, 11.0])
def test_dim_light_gives_the_power_of_the_exact_circuit(light):
    """It was taken on from brighter light along a straight line: half as much again at 2 W/m2."""
    made = Made(36, 2)
    amps, volts = as_written(made.network([light] * 36, 15)).peak()
    assert best_w(curve_of(panels_of([made.law()]), 0, light, 15)) == pytest.approx(amps * volts, rel=5e-3)


@pytest.mark.parametrize("seed", range(8))
def test_shaded_cells_give_it_to_a_two_thousandth_of_the_panel(seed):
    chance = Random(seed)
    made = chance.choice([Made(), Made(36, 2), Made(36, 1, beside=None), Made(60, 6, 2)])
    light, cell_c = chance.uniform(150, 1100), chance.uniform(-15, 70)
    lights = [light] * made.cells
    for _ in range(chance.randint(1, 12)):
        lights[chance.randrange(made.cells)] *= chance.choice((0.0, 0.1, 0.3, 0.62, 0.95))
    panels = panels_of([made.law()])
    whole = best_w(curve_of(panels, 0, light, cell_c))
    amps, volts = as_written(made.network(lights, cell_c)).peak()
    assert best_w(curve_of(panels, 0, lights, cell_c)) == pytest.approx(amps * volts, abs=5e-4 * whole)


@pytest.mark.parametrize(
    "lights", [[700.0] * 36, [700.0] * 30 + [90.0] * 2 + [400.0] * 4], ids=["even", "shade"]
)
def test_the_whole_curve_is_the_exact_one(lights):
    made = Made(36, 2, 1)
    network, panels = made.network(lights, 40), panels_of([made.law()])
    told = curve_of(panels, 0, lights if len(set(lights)) > 1 else lights[0], 40)
    amps = np.linspace(-1.0, max(told.current_a) * 0.999, 60)
    exact = solve.voltage_v(network, amps)
    got = np.interp(amps, told.current_a[::-1], told.voltage_v[::-1])
    volts = np.linspace(-0.5, exact[0], 60)
    assert np.interp(volts, told.voltage_v, told.current_a) == pytest.approx(
        solve.current_a(network, volts), abs=0.03
    )
    assert np.median(np.abs(got - exact)) < 5e-3


def test_points_rise_in_voltage_and_fall_in_current():
    made, chance = Made(60, 3), Random(3)
    panels = panels_of([made.law()])
    for _ in range(30):
        lights = [chance.choice((0.0, 30.0, 400.0, 900.0)) for _ in range(60)]
        curve = curve_of(panels, 0, lights, chance.uniform(-20, 70))
        assert (np.diff(curve.voltage_v) > 0).all()
        assert (np.diff(curve.current_a) < 0).all()


def test_a_blocking_diode_lets_nothing_back():
    made = Made(60, 6, 2, blocking=SCHOTTKY)
    curve, network = curve_of(panels_of([made.law()]), 0, 900, 40), made.network([900] * 60, 40)
    assert min(curve.current_a) > -3 * SCHOTTKY.saturation_a
    amps, volts = as_written(network).peak()
    assert best_w(curve) == pytest.approx(amps * volts, rel=3e-4)


def test_a_bridged_substring_takes_its_share():
    made = Made(60, 3, beside=Bridge(2.0))
    amps, volts = as_written(made.network([800] * 60, 35)).peak()
    assert best_w(curve_of(panels_of([made.law()]), 0, 800, 35)) == pytest.approx(amps * volts, rel=3e-4)


def test_several_panels_stand_side_by_side():
    one, other = Made(60, 3, seed=1), Made(36, 2, seed=2)
    laws = [made.law() for made in (one, other)]
    both = panels_of(laws)
    for number, made in enumerate((one, other)):
        assert curve_of(both, number, 650, 30) == curve_of(panels_of([made.law()]), 0, 650, 30)
        lights = [650.0] * (made.cells - 1) + [200.0]
        assert curve_of(both, number, lights, 30) == curve_of(panels_of([made.law()]), 0, lights, 30)


def test_equal_substrings_share_a_table():
    alike = dataclasses.replace(Made(), seed=5)
    laws = [alike.law()] * 3
    assert len(panels_of(laws).tables.counts) == len(panels_of(laws[:1]).tables.counts)


def test_in_the_dark_there_is_no_curve():
    panels = panels_of([Made(36, 2).law()])
    assert curve_of(panels, 0, 0.5, 10).voltage_v == ()
    assert curve_of(panels, 0, [0.0] * 36, 10).voltage_v == ()


@pytest.mark.parametrize("where", ["cell", "diode"])
def test_what_is_the_wrong_way_round_is_refused(where):
    part = Substring((CELL.stc,) * 3, (0.001,) * 3, Turned(SCHOTTKY) if where == "diode" else None)
    wrong = dataclasses.replace(part, turned=(1,)) if where == "cell" else part
    network = Network((String((wrong,)),))
    with pytest.raises(ValueError, match="substring 1 a cell or a diode is the wrong way round"):
        law_of(network, network)


def test_two_networks_of_different_panels_are_refused():
    with pytest.raises(ValueError, match="not of one panel"):
        law_of(Made(36, 2).network([1000] * 36, 25), Made(60, 3).network([1000] * 60, 65))
