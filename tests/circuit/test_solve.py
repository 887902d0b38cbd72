"""Laws of a panel's voltage and current, from one cell to two hundred, in any light."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panewright.cell.curve import voltage_v as cell_voltage_v
from panewright.cell.diode import Diode
from panewright.circuit.inside import cell_states
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.solve import current_a, voltage_v
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky 15 A 45 V", 5e-6, 0.02698, 0.01, 15.0, 45.0)
laws = settings(deadline=None, max_examples=10)


def row(cells, bypass=None, joint_ohm=0.0012):
    return Substring(tuple(cells), (joint_ohm,) * len(cells), bypass)


@st.composite
def cells(draw):
    return Diode(
        light_a=draw(st.one_of(st.sampled_from([0.0, 8.55]), st.floats(0.01, 10))),
        saturation_a=draw(st.sampled_from([1e-12, 2.3e-9, 1e-7])),
        ideality_v=draw(st.floats(0.024, 0.045)),
        series_ohm=draw(st.sampled_from([0.0, 0.003, 0.05])),
        shunt_ohm=draw(st.sampled_from([0.5, 20.0, 1e4, math.inf])),
        breakdown_siemens=draw(st.sampled_from([0.0, 1e-5, 0.005])),
        breakdown_v=draw(st.sampled_from([-30.0, -12.0])),
    )


@st.composite
def substrings(draw, most=4):
    kinds = draw(st.lists(cells(), min_size=1, max_size=3))
    chosen = draw(st.lists(st.sampled_from(kinds), min_size=1, max_size=most))
    return row(chosen, draw(st.sampled_from([None, SCHOTTKY])), draw(st.sampled_from([0.0, 0.0012, 0.06])))


networks = st.builds(
    Network,
    st.lists(
        st.lists(substrings(), min_size=1, max_size=2).map(lambda parts: String(tuple(parts))),
        min_size=1,
        max_size=2,
    ).map(tuple),
    st.sampled_from([0.0, 0.01]),
)


@laws
@given(networks, st.floats(0, 12), st.floats(0, 12))
def test_voltage_falls_with_current(network, one, other):
    less, more = sorted((one, other))
    assert voltage_v(network, more) <= voltage_v(network, less) + 1e-9


@laws
@given(networks, st.floats(0.001, 0.999))
def test_current_and_voltage_turn_each_other_round(network, share):
    open_v = voltage_v(network, 0.0)
    assume(open_v > 1e-3)
    current = current_a(network, share * open_v)
    back = voltage_v(network, current)
    # flat where no cell has a shunt: a last digit of current is then many digits of voltage
    step = 1e-13 * (abs(current) + 1.0)
    around = voltage_v(network, np.array([current + step, current - step]))
    assert around[0] - 1e-9 <= share * open_v <= around[1] + 1e-9
    dust = 1e-12 * max(1.0, open_v)  # what rounding leaves of a voltage summed over cells
    assert around[0] - dust <= back <= around[1] + dust


@laws
@given(networks)
def test_open_circuit_gives_no_current(network):
    open_v = voltage_v(network, 0.0)
    step = 1e-9 * max(1.0, open_v)
    assert current_a(network, open_v + step) <= 1e-9
    assert current_a(network, open_v - step) >= -1e-9


@laws
@given(networks, st.floats(0, 0.95), st.integers(0, 2), st.floats(0.0, 1.0))
def test_a_shaded_cell_never_helps(network, share, place, light):
    string = place % len(network.strings)
    first, *rest = network.strings[string].substrings
    shaded = replace(first.cells[0], light_a=first.cells[0].light_a * light)
    darker = String((replace(first, cells=(shaded, *first.cells[1:])), *rest))
    strings = (*network.strings[:string], darker, *network.strings[string + 1 :])
    volt = share * voltage_v(network, 0.0)
    assert current_a(replace(network, strings=strings), volt) <= current_a(network, volt) + 1e-9


@pytest.mark.parametrize("count", [1, 2, 36, 72, 200])
def test_equal_cells_in_series_have_the_voltage_of_one_times_the_count(count):
    network = Network((String((row([CELL] * count, joint_ohm=0.0),)),))
    for current in (-2.0, 0.0, 5.0, 8.5, 8.6):
        assert voltage_v(network, current) == pytest.approx(count * cell_voltage_v(CELL, current), rel=1e-12)


@pytest.mark.parametrize("strings", [1, 2, 5, 12])
def test_equal_strings_in_parallel_share_the_current(strings):
    one = String((row([CELL] * 12, SCHOTTKY), row([CELL] * 12, SCHOTTKY)))
    alone, many = Network((one,)), Network((one,) * strings)
    for current in (0.0, 4.0, 8.0, 9.0):
        assert voltage_v(many, strings * current) == pytest.approx(voltage_v(alone, current), rel=1e-12)
    assert current_a(many, 10.0) == pytest.approx(strings * current_a(alone, 10.0), rel=1e-12)


def test_twelve_unlike_strings_share_one_bus():
    strings = tuple(String((row([replace(CELL, light_a=2.0 + 0.5 * k)] * 10),)) for k in range(12))
    network = Network(strings, lead_ohm=0.02)
    volt = 4.0
    whole = current_a(network, volt)
    bus = volt + 0.02 * whole
    each = [current_a(Network((string,)), bus) for string in strings]
    assert whole == pytest.approx(sum(each), rel=1e-12)
    assert voltage_v(network, whole) == pytest.approx(volt, rel=1e-10)


def test_a_dark_string_without_blocking_diode_takes_current_from_its_neighbour():
    lit, dark = row([CELL] * 18), row([replace(CELL, light_a=0.0)] * 18)
    network = Network((String((lit,)), String((dark,))))
    open_v = voltage_v(network, 0.0)
    assert 0 < open_v < voltage_v(Network((String((lit,)),)), 0.0)
    states = cell_states(network, open_v)
    assert states[0].current_a == pytest.approx(-states[18].current_a, rel=1e-9)
    assert states[18].current_a < -0.1


def test_a_bypass_diode_clamps_a_dark_substring():
    dark = row([replace(CELL, light_a=0.0)] * 18, SCHOTTKY)
    network = Network((String((row([CELL] * 18, SCHOTTKY), dark)),))
    alone = Network((String((row([CELL] * 18, SCHOTTKY),)),))
    drop = voltage_v(alone, 8.0) - voltage_v(network, 8.0)
    assert drop == pytest.approx(0.02698 * math.log(8.0 / 5e-6) + 8.0 * 0.01, rel=0.02)


@pytest.mark.parametrize("bypass", [None, SCHOTTKY])
@pytest.mark.parametrize("shunt", [20.0, math.inf])
def test_a_panel_in_the_dark_gives_nothing(bypass, shunt):
    dark = replace(CELL, light_a=0.0, shunt_ohm=shunt)
    network = Network((String((row([dark] * 18, bypass), row([dark] * 18, bypass))),) * 2, 0.01)
    assert current_a(network, 0.0) == pytest.approx(0, abs=1e-12)
    assert voltage_v(network, 0.0) == pytest.approx(0, abs=1e-12)


def test_a_cell_without_any_reverse_path_stops_its_string_but_not_past_a_bypass():
    hard = replace(CELL, light_a=2.0, shunt_ohm=math.inf, breakdown_siemens=0.0)
    stopped = Network((String((row([CELL] * 17 + [hard]),)),))
    assert voltage_v(stopped, 3.0) == -math.inf
    assert current_a(stopped, 0.0) == pytest.approx(2.0, rel=1e-6)
    helped = Network((String((row([CELL] * 18, SCHOTTKY), row([CELL] * 17 + [hard], SCHOTTKY))),))
    assert current_a(helped, 0.0) > 8.5


def test_asking_further_than_the_panel_can_be_driven_names_the_voltage():
    bare = Diode(8.55, 2.3e-9, 0.02826, 0.0, math.inf, 0.005, -18.0)
    with pytest.raises(ValueError, match="-40 V"):
        current_a(Network((String((Substring((bare,), (0.0,)),)),)), -40.0)


def test_arrays_keep_their_shape():
    network = Network((String((row([CELL] * 4),)),))
    asked = np.array([[0.0, 1.0], [2.0, 3.0]])
    assert voltage_v(network, asked).shape == (2, 2)
    assert voltage_v(network, asked)[1, 0] == voltage_v(network, 2.0)
    assert current_a(network, asked / 2).shape == (2, 2)


def test_a_network_without_strings_is_refused():
    with pytest.raises(ValueError, match="a string or more"):
        voltage_v(Network(()), 0.0)


def test_the_states_of_the_cells_add_up_to_the_panel():
    weak = replace(CELL, light_a=4.0)
    network = Network((String((row([CELL] * 17 + [weak], SCHOTTKY), row([CELL] * 18, SCHOTTKY))),), 0.01)
    states = cell_states(network, 5.0)
    assert [state.number for state in states] == list(range(1, 37))
    current = current_a(network, 5.0)
    volt = sum(s.voltage_v - 0.0012 * s.current_a for s in states[18:])
    weak_volt = sum(s.voltage_v - 0.0012 * s.current_a for s in states[:18])
    assert volt + weak_volt - 0.01 * current == pytest.approx(5.0, rel=1e-9)
    assert states[17].absorbed_w > 20


@pytest.mark.parametrize("nonsense", [float("nan"), float("inf"), -float("inf"), 1e300])
def test_no_panel_is_asked_for_what_is_no_number(nonsense):
    network = Network((String((row([CELL] * 4),)),))
    for ask in (current_a, voltage_v, cell_states):
        with pytest.raises(ValueError, match="within"):
            ask(network, nonsense)
