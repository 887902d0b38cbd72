"""No panel that can be built fails to be solved: from one cell to two hundred, from one string to twelve."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.diode import Diode
from panewright.circuit.inside import cell_states
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.circuit.solve import current_a, voltage_v
from panewright.enclosure.bypass import Bypass

kinds = st.builds(
    Diode,
    light_a=st.sampled_from([0.0, 1e-6, 1e-3]) | st.floats(0.0, 15.0),
    saturation_a=st.floats(-13, -6).map(lambda power: 10.0**power),
    ideality_v=st.floats(0.02, 0.06),
    series_ohm=st.just(0.0) | st.floats(0.0, 0.05),
    shunt_ohm=st.just(float("inf")) | st.floats(-1, 4).map(lambda power: 10.0**power),
    breakdown_siemens=st.just(0.0) | st.floats(-7, -1).map(lambda power: 10.0**power),
    breakdown_v=st.floats(-40.0, -4.0),
    breakdown_exponent=st.floats(1.5, 6.0),
)
diodes = st.builds(
    Bypass,
    name=st.just("diode"),
    saturation_a=st.floats(-11, -4).map(lambda power: 10.0**power),
    ideality_v=st.floats(0.025, 0.06),
    series_ohm=st.sampled_from([0.0, 0.01]),
    rated_a=st.just(15.0),
    reverse_v=st.just(45.0),
)
beside = st.none() | diodes | st.builds(Turned, diodes) | st.builds(Bridge, st.floats(0.001, 1.0))


@st.composite
def panels(draw):
    """Few kinds of cells, many of each: strings alike and unlike, damaged or not."""
    cells, guards = (
        draw(st.lists(kinds, min_size=1, max_size=3)),
        draw(st.lists(beside, min_size=1, max_size=2)),
    )
    strings, each = draw(st.integers(1, 12)), draw(st.integers(1, 200))
    each = max(1, each // strings)
    made = []
    for k in range(strings):
        row = tuple(cells[(k + c) % len(cells)] for c in range(each))
        parts = (row[: each // 2], row[each // 2 :]) if each > 1 else (row,)
        turned = draw(st.sampled_from([(), (), (), (0,)]))
        joint = draw(st.sampled_from([0.0, 0.001, float("inf")]) if k == 0 else st.just(0.001))
        substrings = tuple(
            Substring(part, (joint,) * len(part), guards[(k + p) % len(guards)], turned)
            for p, part in enumerate(parts)
        )
        tail = draw(st.sampled_from([0.0, 0.05, float("inf")]))
        made.append(String(substrings, tail, draw(st.none() | diodes)))
    return Network(tuple(made), draw(st.sampled_from([0.0, 0.02])))


@settings(deadline=None, max_examples=20)
@given(panels(), st.floats(0.0, 1.0))
def test_every_question_has_an_answer(network, share):
    points = key_points(network)
    assert np.isfinite([points.isc_a, points.voc_v, points.imp_a, points.vmp_v]).all()
    assert points.power_w >= 0
    volt = share * points.voc_v
    current = current_a(network, volt)
    assert np.isfinite(current)
    assert current * volt <= points.power_w * (1 + 1e-6) + 1e-9
    if points.power_w > 0:
        assert current_a(network, points.vmp_v) >= points.imp_a * (1 - 1e-6) - 1e-9
        assert voltage_v(network, points.isc_a * share) >= -1e-3 * (1 + points.voc_v)


@settings(deadline=None, max_examples=15)
@given(panels(), st.floats(0.0, 1.0))
def test_no_cell_is_left_without_a_voltage(network, share):
    volt = share * key_points(network).voc_v
    for state in cell_states(network, volt):
        assert np.isfinite([state.low_v, state.voltage_v, state.high_v, state.current_a]).all()
        assert state.low_v <= state.voltage_v <= state.high_v


def test_more_than_a_turned_diode_and_cells_without_a_way_back_pass_is_not_invented():
    whole = Diode(8.55, 1e-9, 0.0257, 0.003, float("inf"))
    dim = Diode(5.0, 1e-9, 0.0257, 0.003, float("inf"))
    diode = Bypass("diode", 7.46e-6, 0.0315, 0.01, 15, 45)
    parts = (
        Substring((whole,) * 17 + (dim,), (0.001,) * 18, Turned(diode)),
        Substring((whole,) * 18, (0.001,) * 18, diode),
    )
    # the dim cell's light and leak, and what the turned diode leaks back
    assert key_points(Network((String(parts),))).isc_a == pytest.approx(5.0 + 1e-9 + 7.46e-6, rel=1e-11)


def test_a_turned_cell_driven_backward_without_a_way_back_has_the_voltage_of_its_string():
    bright, dark = (Diode(a, i0, 0.03125, 0.0, float("inf")) for a, i0 in ((2.0, 1e-7), (0.0, 1e-6)))
    lone = [String((Substring((cell,), (0.001,), None),)) for cell in (dark, bright, bright, bright)]
    turned = String((Substring((bright,), (0.001,), None, (0,)),))
    network = Network((*lone, turned))
    volt = key_points(network).voc_v
    *_, last = cell_states(network, volt)
    assert last.current_a == pytest.approx(-2.0000001, rel=1e-12)
    assert last.voltage_v == pytest.approx(volt + last.current_a * 0.001, rel=1e-9)  # by Kirchhoff
    pair = String((Substring((bright, bright), (0.001,) * 2, None, (0, 1)),))
    network = Network((pair, *(String((Substring((bright,) * 2, (0.001,) * 2, None),)) for _ in range(3))))
    one, other, *_ = cell_states(network, key_points(network).voc_v)
    assert (one.low_v, one.voltage_v, one.high_v) == (other.low_v, other.voltage_v, other.high_v)
    assert 0 < one.low_v < one.voltage_v < one.high_v
    assert one.low_v + one.high_v == pytest.approx(2 * one.voltage_v)
