"""One cell of 36 in series under a growing shade, the panel short-circuited.

An independent numpy/scipy solution of the same circuit (confidence: derived); its worst points were confirmed
in ngspice-39 to 1e-8. Soft cells: shunt 20 ohm, breakdown factor 0.1, -18 V, exponent 3.4. Joints 1.2
milliohm, leads 5 milliohm each. Bypass diodes, where there are any: 18 cells, I0 5e-6 A, n 1.05, 10 milliohm.
"""

import pytest

from panewright.cell.diode import Diode
from panewright.circuit.hot.spot import hottest, shaded
from panewright.circuit.inside import cell_states
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt
from panewright.circuit.solve import current_a
from panewright.enclosure.bypass import Bypass

VT = 0.0256925704004  # ngspice-39 at 25 degC
SOFT = Diode(8.55, 2.3e-9, 1.1 * VT, 0.003, 20.0, 0.1 / 20.0, -18.0, 3.4)
SCHOTTKY = Bypass("Schottky", 5e-6, 1.05 * VT, 0.01, rated_a=15.0, reverse_v=45.0)
SHADES = tuple(k / 10 for k in range(11))

BARE_W = (
    -0.107976094, 74.2399685, 91.5565405, 99.2320701, 103.887471, 107.135548,
    109.587205, 111.533249, 113.132921, 114.482102, 115.642642,
)  # fmt: skip
BARE_V = (
    0.0126318911, -8.69908815, -10.7326473, -11.6352597, -12.1835563, -12.5667557,
    -12.8565248, -13.0869748, -13.2767812, -13.4371881, -13.5754477,
)  # fmt: skip
BARE_A = (
    8.54789621, 8.53422419, 8.53065773, 8.5285651, 8.52685937, 8.52531484,
    8.52385902, 8.52246233, 8.52111059, 8.51979606, 8.51851405,
)  # fmt: skip
GUARDED_W = (
    -0.107976084, 68.6035635, 71.4684107, 67.8055344, 62.4018791, 56.1330463,
    49.3188716, 42.1147243, 34.6094672, 26.859785, 18.90485,
)  # fmt: skip
GUARDED_V = (
    0.01263189, -8.15292452, -9.15776943, -9.56873563, -9.84284306, -10.0568733,
    -10.2372246, -10.3960216, -10.5398132, -10.6725268, -10.7966972,
)  # fmt: skip
GUARDED_A = (
    8.54789621, 8.41459569, 7.80412864, 7.08615401, 6.33982263, 5.58156047,
    4.81760181, 4.05104238, 3.28368886, 2.5167222, 1.75098456,
)  # fmt: skip
GUARDED_PANEL_A = (
    8.54789224, 8.54691895, 8.54675847, 8.54668096, 8.54662426, 8.54657686,
    8.54653473, 8.54649599, 8.54645964, 8.54642508, 8.54639191,
)  # fmt: skip


def panel(bypass, each):
    part = Substring((SOFT,) * each, (0.0012,) * each, bypass)
    return Network((String((part,) * (36 // each)),), lead_ohm=0.01)


BARE, GUARDED = panel(None, 36), panel(SCHOTTKY, 18)
CASES = [
    *((BARE, *row) for row in zip(SHADES, BARE_W, BARE_V, BARE_A, BARE_A, strict=True)),
    *((GUARDED, *row) for row in zip(SHADES, GUARDED_W, GUARDED_V, GUARDED_A, GUARDED_PANEL_A, strict=True)),
]


@pytest.mark.parametrize(("network", "shade", "watt", "volt", "ampere", "panel_a"), CASES)
def test_every_row_of_the_scans_is_met_to_its_printed_digits(network, shade, watt, volt, ampere, panel_a):
    under = shaded(network, CellAt(0, 6), shade)
    cell = cell_states(under)[5]
    assert cell.absorbed_w == pytest.approx(watt, rel=5e-9)
    assert cell.voltage_v == pytest.approx(volt, rel=5e-9)
    assert cell.current_a == pytest.approx(ampere, rel=5e-9)
    assert current_a(under, 0.0) == pytest.approx(panel_a, rel=5e-9)


def test_without_a_diode_heat_rises_to_the_end_of_the_range():
    spot = hottest(BARE, CellAt(0, 6), most_shade=0.99)
    assert spot.shade == 0.99
    assert spot.absorbed_w == pytest.approx(115.533764, abs=5e-7)
    assert spot.voltage_v == pytest.approx(-13.5624645, abs=5e-8)
    assert spot.current_a == pytest.approx(8.51864088, abs=5e-9)
    assert hottest(BARE, CellAt(0, 6)).absorbed_w == pytest.approx(115.642642, abs=5e-7)


def test_under_a_diode_the_worst_shade_lies_between():
    spot = hottest(GUARDED, CellAt(0, 6))
    assert spot.shade == pytest.approx(0.16634, abs=5e-6)
    assert spot.absorbed_w == pytest.approx(71.8502241, abs=5e-8)
    there = cell_states(shaded(GUARDED, CellAt(0, 6), 0.16634))[5]  # volts and amperes of the printed shade
    assert (there.voltage_v, there.current_a) == pytest.approx((-8.94633293, 8.03124864), abs=5e-9)


def test_a_hard_cell_is_hottest_at_six_hundredths_of_shade():
    """Source of the six hundredths and of 72 W: the same scan of a hard cell, told in words (derived)."""
    hard = Diode(8.55, 2.3e-9, 1.1 * VT, 0.003, 300.0, 0.01 / 300.0, -30.0, 3.4)
    part = Substring((hard,) * 18, (0.0012,) * 18, SCHOTTKY)
    spot = hottest(Network((String((part,) * 2),), lead_ohm=0.01), CellAt(0, 6))
    assert spot.shade == pytest.approx(0.06, abs=0.005)
    assert spot.absorbed_w == pytest.approx(72, abs=0.5)
