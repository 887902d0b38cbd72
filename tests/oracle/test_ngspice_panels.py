"""Panels beside ngspice: the same circuit written as a netlist and solved by the program itself.

The printed figures in ngspice_panels.toml were made by ngspice-39 (confidence: derived). The netlists run
here are written afresh from our own network. ngspice's diode takes n k T / q from its own constants.
"""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from campaigns import circuits
from campaigns.found import Worst
from campaigns.spice import THERMAL_V

from panewright.cell.diode import Diode
from panewright.circuit.inside import cell_states
from panewright.circuit.maxima import power_maxima
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.solve import current_a
from panewright.enclosure.bypass import Bypass

PRINTED = tomllib.loads((Path(__file__).parent / "ngspice_panels.toml").read_text("utf-8"))["ngspice"]
CASES = [name for name in PRINTED if name != "setup"]
SCHOTTKY = Bypass("schottky", 5e-6, 1.05 * THERMAL_V, 0.01, 15.0, 45.0)

# derived: numpy and scipy, the worst points confirmed in ngspice-39 to 1e-8; module short-circuited, cell 0
# of case a shaded: its light current, and watts, volts and amperes of that cell
HOT = {
    "no bypass": ("a_36_identical", 0.0855, 115.533764, -13.5624645, 8.51864088),
    "two bypass diodes": ("c_36_two_bypass_80pct", 7.127793, 71.8502241, -8.94633293, 8.03124864),
}


def printed_network(case):
    """The network of a printed case."""
    count, each = case["cells"], case["cells_per_string"]
    names = "IL_A I0_A n Rs_ohm Rsh_ohm breakdown_factor breakdown_voltage_V breakdown_exp joint_ohm"
    columns = [case[name] if isinstance(case[name], list) else [case[name]] * count for name in names.split()]
    cells = [
        Diode(light, i0, n * THERMAL_V, rs, rsh, factor / rsh, vbr, m)
        for light, i0, n, rs, rsh, factor, vbr, m, _ in zip(*columns, strict=True)
    ]
    spans, bypass = (case["bypass_spans"], SCHOTTKY) if case["bypass_spans"] else ([[0, each]], None)
    strings = (
        String(
            tuple(
                Substring(tuple(cells[k + a : k + b]), tuple(columns[-1][k + a : k + b]), bypass)
                for a, b in spans
            )
        )
        for k in range(0, count, each)
    )
    return Network(tuple(strings), 2 * case["lead_ohm"])


def hot_network(name):
    """Case a with one cell in the shade, with or without the bypass diodes of case c."""
    case, light, *_ = HOT[name]
    network = printed_network(PRINTED["a_36_identical"] | {"bypass_spans": PRINTED[case]["bypass_spans"]})
    (string,) = network.strings
    first, *rest = string.substrings
    shaded = replace(first, cells=(replace(first.cells[0], light_a=light), *first.cells[1:]))
    return replace(network, strings=(String((shaded, *rest)),))


def differences(network):
    """What differs from ngspice by more than is allowed; an answer there must be."""
    worst = Worst(circuits.ALLOWED)
    assert circuits.compare(network, worst, "here") != circuits.GIVEN_UP, "ngspice gave no answer"
    return [f"{d.figure}: {d.worst:.2g} of {d.allowed:g}" for d in worst.deviations() if not d.holds]


@pytest.mark.parametrize("name", CASES)
def test_panels_equal_the_printed_figures(name):
    case = PRINTED[name]
    network = printed_network(case)
    maxima = power_maxima(network)
    top = maxima[0]
    for got, key in ((top.isc_a, "Isc_A"), (top.voc_v, "Voc_V"), (top.power_w, "Pmp_W")):
        assert got == pytest.approx(case[key], rel=5e-9)
    # where a power is flat a search by power finds its place to the root of the last digit, no better
    assert (top.vmp_v, top.imp_a) == pytest.approx((case["Vmp_V"], case["Imp_A"]), rel=1e-8)
    assert [m.power_w for m in maxima] == pytest.approx([m["P"] for m in case["local_maxima"]], rel=5e-9)
    assert current_a(network, np.array(case["curve_V"])) == pytest.approx(case["curve_I"], rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("name", CASES)
def test_the_watched_cell_at_short_circuit_equals_the_printed_figures(name):
    case = PRINTED[name]
    state = cell_states(printed_network(case))[case["watched_cell"]]
    assert state.voltage_v == pytest.approx(case["watched_cell_V_at_sc"], rel=2e-6, abs=2e-8)
    assert state.current_a == pytest.approx(case["watched_cell_I_at_sc"], rel=2e-7)
    assert state.absorbed_w == pytest.approx(case["watched_cell_absorbed_W_at_sc"], rel=2e-6, abs=2e-7)


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("name", CASES)
def test_panels_equal_ngspice_run_now(name):
    assert differences(printed_network(PRINTED[name])) == []


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("name", HOT)
def test_panels_with_a_hot_cell_equal_ngspice_run_now(name):
    assert differences(hot_network(name)) == []


@pytest.mark.parametrize("name", HOT)
def test_a_hot_cell_takes_the_printed_watts(name):
    state = cell_states(hot_network(name))[0]
    _, _, *printed = HOT[name]
    assert [state.absorbed_w, state.voltage_v, state.current_a] == pytest.approx(printed, rel=5e-9)
