"""Panels beside ngspice: the same circuit written as a netlist and solved by the program itself.

The printed figures in ngspice_panels.toml were made by ngspice-39 (confidence: derived). The netlists here
are written afresh from our own network: a current source, a diode, a behavioural source for shunt and
breakdown, and a resistor for each cell. ngspice's diode takes n k T / q from its own constants.
"""

import math
import subprocess
import tomllib
from pathlib import Path

import numpy as np
import pytest

from panewright.cell.diode import Diode
from panewright.circuit.inside import cell_states
from panewright.circuit.maxima import power_maxima
from panewright.circuit.network import Network, Substring
from panewright.circuit.solve import current_a
from panewright.enclosure.bypass import Bypass

PRINTED = tomllib.loads((Path(__file__).parent / "ngspice_panels.toml").read_text("utf-8"))["ngspice"]
CASES = [name for name in PRINTED if name != "setup"]
THERMAL_V = 1.38064852e-23 * 298.15 / 1.6021766208e-19  # ngspice-39's own k and q, 25 degC
SCHOTTKY = Bypass("schottky", 5e-6, 1.05 * THERMAL_V, 0.01, 15.0, 45.0)
OPTIONS = "temp=25 tnom=25 reltol=1e-8 abstol=1e-13 vntol=1e-10 gmin=1e-16 itl1=2000 itl2=2000"
TOLERANCE = 1e-6  # relative; what the program's own tolerances leave


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
        tuple(
            Substring(tuple(cells[first + a : first + b]), tuple(columns[-1][first + a : first + b]), bypass)
            for a, b in spans
        )
        for first in range(0, count, each)
    )
    return Network(tuple(strings), 2 * case["lead_ohm"])


def cell_lines(name, minus, plus, cell):
    """One cell between two nodes."""
    inner = f"d{name}"
    path = f"V({inner},{minus})"
    breakdown = (
        f"{cell.breakdown_siemens!r}*max(1-{path}/({cell.breakdown_v!r}),1e-3)^(-{cell.breakdown_exponent!r})"
    )
    shunt = 0.0 if math.isinf(cell.shunt_ohm) else 1 / cell.shunt_ohm
    yield f"I{name} {minus} {inner} {cell.light_a!r}"
    yield f"D{name} {inner} {minus} m{name}"
    yield f".model m{name} D(IS={cell.saturation_a!r} N={cell.ideality_v / THERMAL_V!r})"
    yield f"B{name} {inner} {minus} I={path}*({shunt!r}+{breakdown})"
    yield f"R{name} {inner} {plus} {cell.series_ohm!r}"


def netlist(network, sweeps):
    """The network as a deck that sweeps the terminal voltage and writes the current to files."""
    lines = ["panel", f".options {OPTIONS}", f"Rlead top 0x {network.lead_ohm or 1e-12!r}"]
    for s, string in enumerate(network.strings):
        node = "0"
        for k, part in enumerate(string):
            first = node
            for c, (cell, joint) in enumerate(zip(part.cells, part.joints_ohm, strict=True)):
                name = f"s{s}p{k}c{c}"
                last = k == len(string) - 1 and c == len(part.cells) - 1
                after = "top" if last else f"n{name}"
                lines += [*cell_lines(name, node, f"y{name}", cell), f"RJ{name} y{name} {after} {joint!r}"]
                node = after
            if part.bypass:
                diode = part.bypass
                lines += [
                    f"DB{s}p{k} {first} {node} mb{s}p{k}",
                    f".model mb{s}p{k} D(IS={diode.saturation_a!r} N={diode.ideality_v / THERMAL_V!r} "
                    f"RS={diode.series_ohm!r})",
                ]
    lines += ["Vm 0x 0 0", ".control", "set numdgt=15", "set wr_singlescale"]
    for k, (low, high, steps) in enumerate(sweeps):
        lines += [f"dc Vm {low!r} {high!r} {(high - low) / steps!r}", f"wrdata sweep{k}.txt i(Vm)"]
    return "\n".join([*lines, ".endc", ".end", ""])


def run(network, sweeps, folder):
    """Terminal voltages and currents of every sweep, by the program."""
    (folder / "panel.cir").write_text(netlist(network, sweeps), "utf-8")
    done = subprocess.run(
        ["ngspice", "-b", "panel.cir"], cwd=folder, capture_output=True, text=True, timeout=120, check=False
    )
    files = [folder / f"sweep{k}.txt" for k in range(len(sweeps))]
    assert all(file.exists() for file in files), done.stdout + done.stderr
    return [np.loadtxt(file).T for file in files]


def compare(network, folder):
    """Isc, Voc, greatest power and the whole curve, ours against the program's."""
    top = power_maxima(network)[0]
    near = (top.vmp_v * (1 - 2e-3), top.vmp_v * (1 + 2e-3), 40)
    end = (top.voc_v * (1 - 1e-3), top.voc_v * (1 + 1e-3), 20)
    (volt, current), (near_v, near_a), (end_v, end_a) = run(
        network, [(0.0, top.voc_v, 200), near, end], folder
    )
    assert current[0] == pytest.approx(top.isc_a, rel=TOLERANCE)
    assert np.interp(0.0, -end_a, end_v) == pytest.approx(top.voc_v, rel=TOLERANCE)
    bend = np.polyfit(near_v / top.vmp_v - 1, near_v * near_a, 4)
    fine = np.linspace(-1.5e-3, 1.5e-3, 3001)
    assert np.max(np.polyval(bend, fine)) == pytest.approx(top.power_w, rel=TOLERANCE)
    assert np.max(volt * current) <= top.power_w * (1 + TOLERANCE)  # no higher hump anywhere
    ours = current_a(network, volt)
    assert ours[:-1] == pytest.approx(current[:-1], rel=1e-6, abs=2e-6)


@pytest.mark.parametrize("name", CASES)
def test_panels_equal_the_printed_figures(name):
    case = PRINTED[name]
    network = printed_network(case)
    maxima = power_maxima(network)
    top = maxima[0]
    for got, key in ((top.isc_a, "Isc_A"), (top.voc_v, "Voc_V"), (top.power_w, "Pmp_W")):
        assert got == pytest.approx(case[key], rel=5e-9)
    assert (top.vmp_v, top.imp_a) == pytest.approx((case["Vmp_V"], case["Imp_A"]), rel=5e-9)
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
def test_panels_equal_ngspice_run_now(name, tmp_path):
    compare(printed_network(PRINTED[name]), tmp_path)


def random_panel(seed):
    """Two or three strings of bypassed substrings, every cell its own, a few of them shaded."""
    dice = np.random.default_rng(seed)

    def cell():
        light = 8.5 * dice.normal(1, 0.02) * (dice.uniform(0.2, 0.9) if dice.random() < 0.1 else 1)
        return Diode(
            light_a=float(light),
            saturation_a=float(2e-9 * dice.lognormal(0, 0.3)),
            ideality_v=float(THERMAL_V * dice.uniform(1.05, 1.2)),
            series_ohm=float(dice.uniform(0.002, 0.008)),
            shunt_ohm=float(dice.choice([5.0, 20.0, 100.0])),
            breakdown_siemens=0.004,
            breakdown_v=float(dice.uniform(-20, -14)),
        )

    def part(count):
        return Substring(
            tuple(cell() for _ in range(count)), tuple(dice.uniform(5e-4, 5e-3, count).tolist()), SCHOTTKY
        )

    return Network(tuple((part(9), part(9)) for _ in range(2 + seed % 2)), 0.012)


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("seed", [4, 7])
def test_random_panels_equal_ngspice_run_now(seed, tmp_path):
    compare(random_panel(seed), tmp_path)
