"""The closed line round a shaded cell says what the whole solver says."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cell.diode import Diode
from panewright.circuit.hot.around import around
from panewright.circuit.hot.lit import heat_of
from panewright.circuit.hot.spot import hottest, shaded
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt
from panewright.circuit.solve import current_a
from panewright.enclosure.bypass import Bypass

SCHOTTKY = Bypass("Schottky", 1.24e-5, 0.027, 0.008, rated_a=15.0, reverse_v=45.0)

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


def panel(cell, counts, beside, tail_ohm=0.01):
    """One string of like cells, so many under each diode."""
    parts = tuple(Substring((cell,) * count, (0.001,) * count, beside) for count in counts)
    return Network((String(parts, tail_ohm),), 0.005)


@settings(max_examples=25, deadline=None)
@given(cells, st.lists(st.integers(1, 20), min_size=1, max_size=4), st.sampled_from((None, SCHOTTKY)))
def test_the_heat_along_the_line_is_that_of_the_whole_solver(cell, counts, beside):
    network, place = panel(cell, counts, beside), CellAt(0, 1)
    lit, dark = (current_a(each, 0.0) for each in (network, shaded(network, place, 1.0)))
    amps = np.linspace(max(dark, 0.0), lit, 7)
    line = around(network, place)
    ours = heat_of(line, 0.0)(amps)
    assert ours == pytest.approx(line.at(0.0, amps).absorbed_w, rel=1e-7, abs=1e-7)


def test_diodes_that_help_by_little_are_told_to_the_last_digits():
    """Between dark and lit the string's current moves by a third of a milliampere."""
    cell = Diode(8.4965, 9.241e-10, 0.02767, 0.0055, 39.4, 0.002655, -18.0, 3.4)
    network, place = panel(cell, (18, 18, 18), SCHOTTKY), CellAt(0, 20)
    lit, dark = (current_a(each, 0.0) for each in (network, shaded(network, place, 1.0)))
    amps = np.linspace(dark, lit, 25)
    line = around(network, place)
    assert lit - dark < 1e-2
    assert heat_of(line, 0.0)(amps) == pytest.approx(line.at(0.0, amps).absorbed_w, rel=1e-8)


def test_where_cells_must_pass_more_than_their_light_the_whole_solver_is_asked():
    cell, weak = (Diode(light, 1e-9, 0.027, 0.005, 20.0, 0.005, -18.0, 3.4) for light in (8.5, 6.0))
    parts = tuple(Substring((each,) * 6, (0.0,) * 6, SCHOTTKY) for each in (cell, weak))
    network = Network((String(parts),))
    line, amps = around(network, CellAt(0, 1)), np.linspace(7.0, 8.0, 5)
    assert heat_of(line, 0.0)(amps).tolist() == line.at(0.0, amps).absorbed_w.tolist()


def test_a_string_beside_another_is_left_to_the_whole_solver():
    cell = Diode(8.5, 1e-9, 0.027, 0.005, 20.0, 0.005, -18.0, 3.4)
    string = String((Substring((cell,) * 6, (0.0,) * 6),))
    spot = hottest(Network((string, string)), CellAt(0, 1))
    assert spot.absorbed_w > 0
