"""A ribbon that collects current along its way, as a ladder of resistors in ngspice.

Each rung brings an equal share of the current, half a step inside its own piece, so that even few rungs stand
for an even flow. derived: the loss tends to one third of I^2 R and the far end's drop to one half of I R.
"""

import re
import subprocess

import pytest

from panewright.ribbon.bus import BusRun, whole_current_mm
from panewright.ribbon.resistance import collected_mm

LENGTH_MM, OHM, AMPERE = 156.0, 0.009, 4.0


def ladder(rungs: int) -> str:
    """Node 0 is the cell's edge; the rungs lie at the middles of equal pieces."""
    piece = OHM / rungs
    lines = ["* ribbon along a busbar", f"r0 n0 0 {piece / 2:.17g}"]
    lines += [f"r{k} n{k} n{k - 1} {piece:.17g}" for k in range(1, rungs)]
    lines += [f"i{k} 0 n{k} dc {AMPERE / rungs:.17g}" for k in range(rungs)]
    shown = " ".join(f"v(n{k})" for k in range(rungs))
    return "\n".join(
        [
            *lines,
            ".options reltol=1e-12",
            ".control",
            "set numdgt=15",
            "op",
            f"print {shown}",
            "quit 0",
            ".endc",
            ".end\n",
        ]
    )


def node_volts(rungs: int, folder) -> list[float]:
    netlist = folder / "ladder.cir"
    netlist.write_text(ladder(rungs))
    said = subprocess.run(["ngspice", "-b", str(netlist)], capture_output=True, text=True, check=True).stdout
    return [float(found) for found in re.findall(r"v\(n\d+\) = (\S+)", said)]


@pytest.mark.peer("ngspice")
@pytest.mark.parametrize("rungs", [5, 25, 100])
def test_a_ladder_loses_what_the_ribbon_formulas_say(rungs, tmp_path):
    volts = node_volts(rungs, tmp_path)
    assert len(volts) == rungs
    loss = sum(volt * AMPERE / rungs for volt in volts)  # what the sources bring is what the copper burns
    places = tuple((k + 0.5) * LENGTH_MM / rungs for k in range(rungs))
    exact = whole_current_mm(BusRun(places, (0.0,))) / LENGTH_MM
    assert loss / (AMPERE**2 * OHM) == pytest.approx(exact, rel=1e-9)
    assert exact == pytest.approx(collected_mm(LENGTH_MM) / LENGTH_MM, rel=1 / rungs**2)
    assert volts[-1] / (AMPERE * OHM) == pytest.approx(0.5, rel=1 / rungs)
