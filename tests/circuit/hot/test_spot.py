"""Laws of the worst shade."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panewright.cell.diode import Diode
from panewright.circuit.damage import CellTurned, DiodeShorted, Fault, StringOpen, damaged
from panewright.circuit.hot.around import around
from panewright.circuit.hot.spot import hot_spots, hottest, kinds, shaded
from panewright.circuit.inside import cell_states
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt, DiodeAt, StringAt, all_cells
from panewright.circuit.solve import current_a
from panewright.enclosure.bypass import Bypass

SCHOTTKY = Bypass("Schottky", 5e-6, 0.027, 0.01, rated_a=15.0, reverse_v=45.0)
PLAIN = Bypass("PN", 1e-9, 0.05, 0.005, rated_a=15.0, reverse_v=400.0)
SOFT = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)

cells = st.builds(
    Diode,
    light_a=st.floats(2, 10),
    saturation_a=st.floats(1e-11, 1e-8),
    ideality_v=st.floats(0.025, 0.035),
    series_ohm=st.floats(0, 0.01),
    shunt_ohm=st.floats(5, 1000),
    breakdown_siemens=st.floats(1e-5, 0.01),
    breakdown_v=st.floats(-30, -10),
    breakdown_exponent=st.floats(2.5, 4.5),
)


@st.composite
def panels(draw, strings=2):
    """One or two strings of one to three substrings, diodes of two kinds or none, a few kinds of cells."""
    kinds_of_cell = draw(st.lists(cells, min_size=1, max_size=3))

    def part():
        row = tuple(draw(st.lists(st.sampled_from(kinds_of_cell), min_size=1, max_size=10)))
        beside = draw(st.sampled_from((None, SCHOTTKY, PLAIN)))
        return Substring(row, (draw(st.floats(0, 0.01)),) * len(row), beside)

    def string():
        parts = tuple(part() for _ in range(draw(st.integers(1, 3))))
        return String(parts, draw(st.floats(0, 0.05)))

    return Network(tuple(string() for _ in range(draw(st.integers(1, strings)))), draw(st.floats(0, 0.02)))


def state_of(network, place, volt):
    states = cell_states(network, volt)
    return next(state for state in states if (state.string, state.number) == (place.string, place.number))


@settings(max_examples=15, deadline=None)
@given(panels(), st.data())
def test_no_shade_is_hotter_than_the_worst_found(network, data):
    place = data.draw(st.sampled_from(list(all_cells(network))))
    worst = hottest(network, place)
    for shade in [*np.linspace(0, 1, 9), *(worst.shade + np.array([-1e-3, 1e-3]))]:
        if 0 <= shade <= 1:
            under = state_of(shaded(network, place, float(shade)), place, 0.0)
            assert under.absorbed_w <= worst.absorbed_w * (1 + 1e-9) + 1e-6


@settings(max_examples=15, deadline=None)
@given(panels(), st.floats(0.05, 0.95), st.data())
def test_short_circuit_is_the_worst_of_all_voltages_from_zero_up(network, shade, data):
    place = data.draw(st.sampled_from(list(all_cells(network))))
    under = shaded(network, place, shade)
    volt = data.draw(st.floats(0, 0.99)) * key_points(under).voc_v
    at_short = max(0.0, state_of(under, place, 0.0).absorbed_w)
    assert state_of(under, place, volt).absorbed_w <= at_short + 1e-6


@settings(max_examples=15, deadline=None)
@given(panels(), st.floats(0.05, 0.95), st.floats(0, 0.8), st.data())
def test_the_line_round_a_cell_passes_through_every_shade(network, shade, share, data):
    place = data.draw(st.sampled_from(list(all_cells(network))))
    under = shaded(network, place, shade)
    volt = share * key_points(under).voc_v
    bus = volt + current_a(under, volt) * under.lead_ohm
    own = Network((under.strings[place.string],))
    point = around(network, place).at(volt, np.array([current_a(own, bus)]))
    state = state_of(under, place, volt)
    assume(abs(state.current_a) > 1e-3)
    assert point.shade[0] == pytest.approx(shade, abs=1e-5)
    assert point.voltage_v[0] == pytest.approx(state.voltage_v, abs=1e-5)
    assert point.current_a[0] == pytest.approx(state.current_a, abs=1e-5)


@settings(max_examples=4, deadline=None)
@given(panels(), st.floats(0.05, 0.95))
def test_cells_of_one_kind_are_heated_alike(network, shade):
    for places in kinds(network):
        watts = [state_of(shaded(network, place, shade), place, 0.0).absorbed_w for place in places[:3]]
        assert watts == pytest.approx([watts[0]] * len(watts), rel=1e-6, abs=1e-6)


@settings(max_examples=5, deadline=None)
@given(panels(strings=1))
def test_hot_spots_count_every_cell_once_and_begin_with_the_hottest(network):
    spots = hot_spots(network)
    assert sum(spot.alike for spot in spots) == len(list(all_cells(network)))
    assert [spot.absorbed_w for spot in spots] == sorted((spot.absorbed_w for spot in spots), reverse=True)


PART = Substring((SOFT,) * 12, (0.0012,) * 12, SCHOTTKY)
PANEL = Network((String((PART, PART)),), lead_ohm=0.01)


def test_at_maximum_power_and_on_a_battery_a_cell_is_cooler_than_in_short_circuit():
    short = hottest(PANEL, CellAt(0, 3))
    clamped = hottest(PANEL, CellAt(0, 3), at=6.0)
    usual = hottest(PANEL, CellAt(0, 3), at="maximum power")
    assert 0 < clamped.absorbed_w < short.absorbed_w
    assert 0 < usual.absorbed_w < short.absorbed_w
    assert (short.terminal_v, clamped.terminal_v) == (0.0, 6.0)
    assert usual.terminal_v == key_points(shaded(PANEL, CellAt(0, 3), usual.shade)).vmp_v


def test_the_worst_shade_at_maximum_power_beats_all_others_there():
    usual = hottest(PANEL, CellAt(0, 3), at="maximum power")
    for shade in np.linspace(0, 1, 12):
        under = shaded(PANEL, CellAt(0, 3), float(shade))
        state = state_of(under, CellAt(0, 3), key_points(under).vmp_v)
        assert state.absorbed_w <= usual.absorbed_w * (1 + 1e-6) + 1e-6


def test_a_cell_without_light_has_no_shade_to_look_for():
    dark = shaded(PANEL, CellAt(0, 3), 1.0)
    spot = hottest(dark, CellAt(0, 3))
    assert spot.absorbed_w == pytest.approx(state_of(dark, CellAt(0, 3), 0.0).absorbed_w)


def test_a_turned_cell_is_hottest_in_full_light():
    """Its own light adds to what the string drives through it forward."""
    spot = hottest(damaged(PANEL, Fault(CellTurned(), CellAt(0, 3))), CellAt(0, 3))
    assert spot.shade == pytest.approx(0.0, abs=1e-6)
    assert spot.absorbed_w > 0


def test_a_shorted_diode_heats_a_shaded_cell_even_in_a_broken_string():
    short = damaged(PANEL, Fault(DiodeShorted(), DiodeAt(0, 0)))
    broken = damaged(short, Fault(StringOpen(), StringAt(0)))
    whole = damaged(PANEL, Fault(StringOpen(), StringAt(0)))
    assert hottest(broken, CellAt(0, 3)).absorbed_w > 20
    assert hottest(whole, CellAt(0, 3)).absorbed_w < 1


def test_shade_ends_within_a_cell_and_a_panel_works_in_a_known_way():
    with pytest.raises(ValueError, match="write 1"):
        hottest(PANEL, CellAt(0, 3), most_shade=1.2)
    with pytest.raises(ValueError, match="maximum power"):
        hottest(PANEL, CellAt(0, 3), at="open circuit")
    with pytest.raises(ValueError, match="cells 1 to 24"):
        hottest(PANEL, CellAt(0, 25))


def test_a_diode_of_another_kind_over_one_half_makes_two_kinds_of_cells():
    uneven = Network((String((PART, replace(PART, bypass=PLAIN))),), lead_ohm=0.01)
    spots = hot_spots(uneven)
    assert [spot.alike for spot in spots] == [12, 12]
    assert {spot.place.number for spot in spots} == {1, 13}
    assert spots[0].place.number == 13  # the diode with the greater drop lets its cells be driven further
