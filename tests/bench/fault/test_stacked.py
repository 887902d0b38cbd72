"""What each fault changes, beside the whole circuit with that fault."""

import numpy as np
import pytest

from panewright.bench.fault.kinds import broken
from panewright.bench.fault.stacked import Stacked
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, DiodeAt, StringAt
from panewright.circuit.summed import Summed

CASES = {
    "a weak cell": (("weak cell", 0.3, CellAt(0, 5)),),
    "a shunt": (("shunt", 1.0, CellAt(0, 5)),),
    "a resistance": (("resistance", 0.05, CellAt(0, 5)),),
    "a cell gone": (("cell gone", 0.0, CellAt(0, 20)),),
    "a turned cell": (("cell turned", 0.0, CellAt(0, 20)),),
    "a shorted diode": (("bypass shorted", 0.0, DiodeAt(0, 1)),),
    "a turned diode": (("bypass turned", 0.0, DiodeAt(0, 0)),),
    "a joint off": (("joint open", 0.0, CellAt(0, 5)),),
    "a joint off beside a weak cell": (("weak cell", 0.3, CellAt(0, 30)), ("joint open", 0.0, CellAt(0, 5))),
    "two in a row": (("weak cell", 0.3, CellAt(0, 5)), ("shunt", 1.0, CellAt(0, 6))),
    "a cell and its diode": (("weak cell", 0.3, CellAt(0, 5)), ("bypass turned", 0.0, DiodeAt(0, 0))),
    "two rows": (("weak cell", 0.3, CellAt(0, 5)), ("resistance", 0.05, CellAt(0, 30))),
}


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("strings", [1, 2])
def test_changes_add_up_to_the_circuit_with_the_fault(by, name, strings):
    sound = by.foretold.network
    panel = Network(sound.strings * strings, sound.lead_ohm)
    grid = np.linspace(-0.2, 7.2, 300)
    whole = panel
    for key, strength, place in CASES[name]:
        kind = next(kind for each in by.supposed for kind in each.wrong.kinds if kind.key == key)
        whole = broken(whole, kind, strength, place, by.foretold.scale)
    found = Stacked(panel, grid, by.foretold.scale).panel_v(CASES[name])
    assert found == pytest.approx(Summed(grid).panel_v(whole), abs=1e-6)


def test_an_open_string_carries_nothing(by):
    sound = by.foretold.network
    grid = np.linspace(-0.2, 7.2, 300)
    two = Stacked(Network(sound.strings * 2), grid, by.foretold.scale).panel_v(
        (("string open", 0.0, StringAt(0)),)
    )
    assert np.interp(0.0, -two, 2 * grid) == pytest.approx(
        np.interp(0.0, -Summed(grid).panel_v(sound), grid), rel=0.01
    )


def test_what_sound_strings_carry_is_kept_and_changes_no_figure(by):
    """To the last digit as a panel that was never asked before, whichever string is faulty."""
    two, grid = Network(by.foretold.network.strings * 2, 0.01), np.linspace(-0.2, 7.2, 300)
    often = Stacked(two, grid, by.foretold.scale)
    asked = [(("weak cell", 0.3, CellAt(1, 3)),), (), (("string open", 0.0, StringAt(0)),)]
    asked += [(("shunt", 1.0, CellAt(0, 2)), ("weak cell", 0.3, CellAt(1, 3)))]
    for wrong in (*asked, *asked):
        once = Stacked(two, grid, by.foretold.scale).panel_v(wrong)
        assert np.array_equal(often.panel_v(wrong), once)
