"""The greatest power is never missed, however many humps the curve has."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points as cell_key_points
from panewright.circuit.maxima import key_points, power_maxima
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.solve import current_a, voltage_v
from panewright.circuit.trace import trace
from panewright.circuit.trials import Trials, voltages_v
from panewright.enclosure.bypass import Bypass

CELL = Diode(8.55, 2.3e-9, 0.02826, 0.003, 20.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky 15 A 45 V", 5e-6, 0.02698, 0.01, 15.0, 45.0)


def row(lights, bypass=SCHOTTKY, shunt=20.0, siemens=0.005):
    cells = tuple(replace(CELL, light_a=x, shunt_ohm=shunt, breakdown_siemens=siemens) for x in lights)
    return Substring(cells, (0.0012,) * len(cells), bypass)


shades = st.lists(st.floats(0.05, 1.0), min_size=1, max_size=5)
panels = st.builds(
    lambda strings, bypass, shunt, lead: Network(
        tuple(
            String(tuple(row([8.55 * x] + [8.55] * 5, bypass, shunt) for x in string)) for string in strings
        ),
        lead,
    ),
    st.lists(shades, min_size=1, max_size=2),
    st.sampled_from([None, SCHOTTKY]),
    st.sampled_from([2.0, 20.0, 1000.0]),
    st.sampled_from([0.0, 0.01]),
)


def most_of_a_fine_scan(network):
    """The greatest power of 500 points even in voltage, and of as many even in current if that is quick."""
    points = key_points(network)
    volt = np.linspace(0, points.voc_v, 501)
    most = np.max(volt * current_a(network, volt))
    if len(network.strings) > 1:
        return most
    current = np.linspace(0, points.isc_a, 501)
    return max(most, np.max(current * voltage_v(network, current)))


@settings(deadline=None, max_examples=6)
@given(panels)
def test_no_point_of_a_fine_scan_beats_the_greatest_maximum(network):
    assert most_of_a_fine_scan(network) <= key_points(network).power_w * (1 + 1e-9)


@settings(deadline=None, max_examples=8)
@given(panels)
def test_every_maximum_lies_on_the_curve_and_is_higher_than_its_surroundings(network):
    maxima = power_maxima(network)
    assert [m.power_w for m in maxima] == sorted((m.power_w for m in maxima), reverse=True)
    for top in maxima:
        around = top.vmp_v * np.array([1 - 1e-5, 1.0, 1 + 1e-5])
        current = current_a(network, around)
        assert current[1] == pytest.approx(top.imp_a, rel=1e-9)
        assert np.all((around * current)[[0, 2]] <= top.power_w * (1 + 1e-12))


def test_three_shades_over_four_bypass_diodes_make_four_humps():
    network = Network((String(tuple(row([8.55 * x] + [8.55] * 8) for x in (1.0, 0.7, 0.4, 0.15))),))
    assert len(power_maxima(network)) == 4


@pytest.mark.parametrize("lights", list(itertools.product([0.2, 0.5, 0.9], repeat=3))[::4])
def test_the_order_of_the_substrings_does_not_matter(lights):
    one = Network((String(tuple(row([8.55 * x] + [8.55] * 5) for x in lights)),))
    other = Network((String(tuple(row([8.55 * x] + [8.55] * 5) for x in reversed(lights))),))
    assert key_points(one).power_w == pytest.approx(key_points(other).power_w, rel=1e-12)


def test_two_humps_of_nearly_one_height_are_told_apart():
    """The light is tuned until both humps are equal; a hair more must turn the verdict."""
    low, high = 0.3, 0.95
    for _ in range(30):
        middle = (low + high) / 2
        maxima = power_maxima(Network((String((row([8.55] * 18), row([8.55 * middle] + [8.55] * 17))),)))
        by_voltage = sorted(maxima, key=lambda m: m.vmp_v)
        low, high = (low, middle) if by_voltage[-1].power_w > by_voltage[0].power_w else (middle, high)
    for share, expected in ((low * (1 - 1e-6), 0), (high * (1 + 1e-6), -1)):
        maxima = power_maxima(Network((String((row([8.55] * 18), row([8.55 * share] + [8.55] * 17))),)))
        assert maxima[0] == sorted(maxima, key=lambda m: m.vmp_v)[expected]


def test_a_panel_of_equal_cells_is_one_cell_many_times():
    network = Network((String((Substring((CELL,) * 36, (0.0,) * 36),)),) * 2)
    points, one = key_points(network), cell_key_points(CELL)
    assert points.power_w == pytest.approx(72 * one.power_w, rel=1e-12)
    assert points.vmp_v == pytest.approx(36 * one.vmp_v, rel=1e-9)
    assert points.voc_v == pytest.approx(36 * one.voc_v, rel=1e-12)
    assert points.isc_a == pytest.approx(2 * one.isc_a, rel=1e-12)


@pytest.mark.parametrize("count", [1, 200])
def test_one_cell_and_two_hundred_cells_have_their_maximum(count):
    network = Network((String((Substring((CELL,) * count, (0.0,) * count),)),))
    assert key_points(network).power_w == pytest.approx(count * cell_key_points(CELL).power_w, rel=1e-12)


def test_twelve_unlike_strings_have_their_maximum():
    network = Network(tuple(String((row([8.55 * (0.4 + 0.05 * k)] * 6, None),)) for k in range(12)), 0.005)
    points = key_points(network)
    volt = np.linspace(0.5, 1, 201) * points.voc_v
    assert np.max(volt * current_a(network, volt)) <= points.power_w * (1 + 1e-9)


def test_cells_without_shunt_and_without_series_resistance_have_their_maximum():
    ideal = Diode(8.55, 2.3e-9, 0.02826, 0.0, math.inf)
    network = Network((String((Substring((ideal,) * 36, (0.0,) * 36),)),))
    assert key_points(network).power_w == pytest.approx(36 * cell_key_points(ideal).power_w, rel=1e-12)


def test_a_dark_panel_has_no_power():
    dark = Network((String((row([0.0] * 6),)),))
    assert key_points(dark).power_w == 0
    assert max(trace(dark, 11).power_w) == pytest.approx(0, abs=1e-12)


@settings(deadline=None, max_examples=5)
@given(panels)
def test_a_trace_runs_from_short_to_open_circuit_without_bare_parts(network):
    curve, points = trace(network, 101), key_points(network)
    volt, current = np.array(curve.voltage_v), np.array(curve.current_a)
    assert len(volt) == 101
    assert (volt[0], current[-1]) == pytest.approx((0, 0), abs=1e-12)
    assert (current[0], volt[-1]) == pytest.approx((points.isc_a, points.voc_v), rel=1e-12)
    assert np.all(np.diff(volt) >= -1e-12 * points.voc_v)
    assert np.all(np.diff(current) <= 1e-12 * points.isc_a)
    assert np.max(np.diff(volt)) <= points.voc_v / 45
    assert np.max(-np.diff(current)) <= points.isc_a / 45
    assert max(curve.power_w) <= points.power_w * (1 + 1e-12)


def test_a_trace_of_two_points_is_refused():
    with pytest.raises(ValueError, match="3 points or more"):
        trace(Network((String((row([8.55]),)),)), 2)


def test_every_hump_of_many_is_listed():
    """Each substring dimmer than the last: as many humps as a fine scan of the same curve has."""
    parts = tuple(
        Substring((replace(CELL, light_a=8.5 / (1 + 0.15 * k)),) * 12, (0.0,) * 12, SCHOTTKY)
        for k in range(60)
    )
    network = Network((String(parts),))
    amps = np.linspace(0.5, 8.55, 6000)
    watts = amps * voltages_v(Trials.once(network), amps)[0]
    seen = int(np.sum((watts[1:-1] > watts[:-2]) & (watts[1:-1] >= watts[2:]) & (watts[1:-1] > 0)))
    found = power_maxima(network)
    assert len(found) >= seen > 40
    assert found[0].power_w == pytest.approx(watts.max(), rel=1e-4)
