"""Many panels at once give what each gives by itself."""

import dataclasses
from random import Random

import numpy as np
import pytest

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.circuit.inside import cell_states, limiting
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.circuit.solve import at_resistance, current_a, voltage_v
from panewright.circuit.trials import Trials, currents_a, most_power, voltages_v
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky 15 A 45 V", 5e-6, 0.02698, 0.01, 15.0, 45.0)


def drawn(seed, count):
    chance = Random(seed)
    return tuple(
        dataclasses.replace(
            CELL,
            light_a=8.55 * chance.choice((1.0, 1.0, 1.0, 0.4, 0.0)) * chance.uniform(0.98, 1.02),
            shunt_ohm=chance.choice((5.0, 50.0, float("inf"))),
            breakdown_siemens=chance.choice((0.0, 0.005)),
        )
        for _ in range(count)
    )


def part(cells, beside=SCHOTTKY, turned=()):
    return Substring(cells, (0.0012,) * len(cells), beside, turned)


def uneven(seed):
    one = String((part(drawn(seed, 9)), part(drawn(seed + 1, 4), Bridge(0.3))), 0.02, SCHOTTKY)
    other = String((part(drawn(seed + 2, 8), None, (3,)), part(drawn(seed + 3, 5), Turned(SCHOTTKY))))
    return Network((one, other), 0.01)


WIRINGS = {
    "one string": lambda seed: Network((String((part(drawn(seed, 9)), part(drawn(seed + 1, 9)))),), 0.01),
    "no diode": lambda seed: Network((String((part(drawn(seed, 12), None),)),)),
    "two unlike strings, damaged": uneven,
}


@pytest.mark.parametrize("wiring", WIRINGS)
@pytest.mark.parametrize("seed", [0, 2, 3])
def test_compiled_and_interpreted_give_the_same(wiring, seed):
    network = WIRINGS[wiring](10 * seed)
    points, once = key_points(network), Trials.once(network)
    assert most_power(once).power_w[0] == pytest.approx(points.power_w, rel=1e-9, abs=1e-9)
    volts = np.linspace(-0.5, points.voc_v * 1.05, 9)
    assert currents_a(once, volts)[0] == pytest.approx(current_a(network, volts), rel=1e-9, abs=1e-9)
    amps = np.linspace(0, points.isc_a * 0.98, 6)
    assert voltages_v(once, amps)[0] == pytest.approx(voltage_v(network, amps), rel=1e-7, abs=1e-7)


def test_no_trial_leaves_anything_to_the_next():
    network = Network((String((part((CELL,) * 6), part((CELL,) * 6))),))
    light = 8.55 * np.random.default_rng(3).uniform(0.1, 1.0, (20, 12))
    cells = dataclasses.replace(Trials.once(network).cells, light_a=light)
    together = most_power(Trials(network, cells)).power_w
    alone = [
        most_power(Trials(network, dataclasses.replace(cells, light_a=row[None, :]))).power_w[0]
        for row in light
    ]
    assert together.tolist() == alone


def test_dark_trials_give_nothing():
    network = Network((String((part((dataclasses.replace(CELL, light_a=0.0),) * 4),)),))
    peaks = most_power(Trials.once(network))
    assert (peaks.power_w[0], peaks.current_a[0], peaks.voltage_v[0]) == (0, 0, 0)


def test_cells_of_another_number_are_refused():
    network = Network((String((part((CELL,) * 4),)),))
    cells = Diodes(*(np.ones((3, 5)) for _ in Diodes.__slots__))
    with pytest.raises(ValueError, match=r"4 cells, so trials are \(trials, 4\), got \(3, 5\)"):
        Trials(network, cells)


def test_a_load_gets_what_the_curve_gives_it():
    network = uneven(7)
    volt, current = at_resistance(network, 0.8)
    assert volt == pytest.approx(0.8 * current)
    assert current_a(network, volt) == pytest.approx(current, rel=1e-9)
    with pytest.raises(ValueError, match="0 ohm or more"):
        at_resistance(network, -1.0)


def test_equal_saturated_cells_share_a_voltage_that_nothing_tells():
    ideal = dataclasses.replace(CELL, shunt_ohm=float("inf"), breakdown_siemens=0.0)
    weak = dataclasses.replace(ideal, light_a=3.0)
    network = Network((String((part((ideal,) * 6 + (weak,) * 2, None),)),))
    states = cell_states(network, 0.0)
    sound, dim = states[:6], states[6:]
    assert all(state.determined for state in sound)
    for state in dim:
        assert state.low_v < state.voltage_v < state.high_v < 0
        assert state.low_v == pytest.approx(-sum(each.voltage_v for each in sound) - state.high_v, abs=0.1)
    lone = cell_states(Network((String((part((ideal,) * 6 + (weak,), None),)),)), 0.0)
    assert all(state.determined for state in lone)
    assert sum(state.voltage_v for state in lone) == pytest.approx(7 * 0.0012 * 3.0, abs=1e-6)


def test_the_shaded_cell_is_named_as_the_one_that_limits():
    dim = dataclasses.replace(CELL, light_a=3.0)
    network = Network((String((part((CELL,) * 5 + (dim,) + (CELL,) * 6),)),))
    first, *others = limiting(cell_states(network, 0.0))
    assert (first.string, first.number) == (0, 6)
    assert not others
    weak = dataclasses.replace(CELL, light_a=8.3)
    even = Network((String((part((CELL,) * 3 + (weak,)),)),))
    (least,) = limiting(cell_states(even, key_points(even).vmp_v))
    assert least.number == 4


def lone(cells, beside=None, lead_ohm=0.0, blocking=None):
    joints = (0.0,) * len(cells)
    return Network((String((Substring(tuple(cells), joints, beside),), 0.0, blocking),), lead_ohm)


def both(network, volt):
    """The single function's answer, which the trials' must be as well."""
    one = current_a(network, volt)
    assert currents_a(Trials.once(network), np.array([volt]))[0, 0] == pytest.approx(one, rel=1e-8, abs=1e-10)
    return one


def test_a_point_far_from_the_last_is_found_as_if_it_were_the_first():
    """A blocked string is straight where it is blocked: no step may be trusted from there."""
    bright, dim = (dataclasses.replace(CELL, light_a=light) for light in (8.55, 4.0))
    strings = (
        String((Substring((cell,) * 36, (0.0012,) * 36, SCHOTTKY),), 0.005, SCHOTTKY)
        for cell in (bright, dim)
    )
    network = Network(tuple(strings), 0.1)
    found = currents_a(Trials.once(network), np.array([-50.0, 22.0, 0.0, 21.0, -3.0]))[0]
    alone = [current_a(network, volt) for volt in (-50.0, 22.0, 0.0, 21.0, -3.0)]
    assert found == pytest.approx(alone, rel=1e-8)


@pytest.mark.parametrize(("volt", "amps"), [(-12.21, 0.7482015), (-10.0, 0.7408425), (0.0, 0.6961662)])
def test_a_turned_diode_over_cells_without_a_way_back_leaves_the_current_to_the_dimmest(volt, amps):
    """By bisection on Kirchhoff's laws (derived): the shunted cell takes nearly all of the voltage."""
    cells = (
        Diode(8.0, 1e-9, 0.028, 0.0, float("inf")),
        Diode(10.0, 4e-11, 0.07, 0.0, float("inf")),
        Diode(0.7, 2e-5, 0.02, 0.0, 300.0),
    )
    network = lone(cells, Turned(Bypass("Schottky", 5e-6, 0.027, 0.01, 15, 45)), 0.3)
    assert both(network, volt) == pytest.approx(amps, rel=1e-6)


def test_a_blocking_diode_leaks_no_more_than_the_cells_behind_it_let_through():
    cells = (*(Diode(8.0, 1e-9, 0.028, 0.005, 50.0),) * 4, Diode(0.001, 2e-8, 0.05, 0.0, 1e4))
    leaky = Bypass("leaky Schottky", 2e-3, 0.027, 0.01, 15, 45)
    network = lone(cells, leaky, 0.0, leaky)
    amps = both(network, 2.0)
    assert amps == pytest.approx(-0.00094288868, rel=1e-7)
    assert voltage_v(network, amps) == pytest.approx(2.0, rel=1e-9)


def test_a_cell_that_breaks_down_softly_is_driven_forward():
    network = lone([Diode(1e-9, 2e-9, 0.1205397, 0.0, float("inf"), 0.02, -3.0, 3.4)])
    assert both(network, 0.5) == pytest.approx(-0.00592093, rel=1e-6)
    assert voltages_v(Trials.once(network), np.array([-0.0026]))[0, 0] == pytest.approx(0.154144, rel=1e-5)


def test_what_no_panel_can_be_asked_is_refused():
    network = lone([Diode(8.0, 1e-9, 0.028, 0.0, float("inf"))])
    for ask in (lambda v: current_a(network, v), lambda v: currents_a(Trials.once(network), np.array([v]))):
        with pytest.raises(ValueError, match="no current brings"):
            ask(1.2)
        with pytest.raises(ValueError, match="within"):
            ask(1e7)
        with pytest.raises(ValueError, match="real numbers"):
            ask(1.0 + 1.0j)
    with pytest.raises(ValueError, match="shape"):
        currents_a(Trials.once(network), np.zeros((3, 2)))


#: currents of damaged panels whose branch currents lie hard by an end of their fence [V, A]
HARD = {
    60: (
        (-0.5, 2.336149832322),
        (0.109, 0.7449935940115),
        (1.022, 3.862440780671e-06),
        (1.63, 2.670293660769e-09),
        (1.934, -0.000120843795562),
    ),
    130: (
        (-0.5, 2.346459277247),
        (0.435, 0.1208942041249),
        (1.839, 4.600000759716e-09),
        (2.774, 4.554653514487e-09),
        (3.242, -0.000553796570155),
    ),
    160: (
        (-0.5, 0.05378815812198),
        (0.357, 0.01850144323726),
        (1.644, 0.009537632043101),
        (2.501, 0.004729553294169),
        (2.93, -0.003362347037369),
    ),
    220: (
        (-0.5, 0.9470952141539),
        (0.762, 0.715438089829),
        (2.655, 0.3690183989912),
        (3.917, 0.1294770802391),
        (4.548, -3.314863911479),
    ),
    350: (
        (-0.5, 0.06341273118637),
        (0.567, 0.02064190496654),
        (2.166, 0.009733899460799),
        (3.233, 0.003727304758378),
        (3.766, -0.03183448538006),
    ),
}


@pytest.mark.parametrize("seed", HARD)
def test_roots_hard_by_an_end_of_their_fence_are_the_true_ones(seed):
    """As ngspice 39 within 1e-11 A; it has no answer for the last two of 60 and the last three of 130."""
    volts, amperes = (np.array(each) for each in zip(*HARD[seed], strict=True))
    network = uneven(seed)
    assert current_a(network, volts) == pytest.approx(amperes, rel=1e-9, abs=1e-11)
    assert currents_a(Trials.once(network), volts)[0] == pytest.approx(amperes, rel=1e-9, abs=1e-9)
