"""What a rework brings: held against the circuit with the part exchanged."""

from dataclasses import replace

import pytest

from panewright.bench.fault.kinds import KINDS
from panewright.bench.fault.place.belief import Spot
from panewright.bench.fault.rework import Spare, rework
from panewright.circuit.place import CellAt, DiodeAt

KIND = {kind.key: kind for kind in KINDS}
PLACE = CellAt(0, 5)


def spot(key, place, strength=0.0):
    return Spot(KIND[key], place, (strength,), (1.0,))


@pytest.fixture(scope="module")
def cell(by):
    return by.foretold.stc_with().strings[0].substrings[0].cells[0]


def part(cell, share):
    return replace(cell, light_a=cell.light_a * share)


def test_a_cell_like_the_others_brings_the_power_foretold(by, cell):
    made = rework(by.foretold, spot("weak cell", PLACE, 0.3), [Spare("A1", cell)])
    assert made.before_w < 0.95 * made.sound_w
    assert made.after_w == pytest.approx(made.sound_w, rel=1e-9)
    assert made.spare == "A1"


def test_of_spares_that_do_alike_the_weakest_is_taken(by, cell):
    spares = [
        Spare("best", part(cell, 1.05)),
        Spare("enough", part(cell, 1.01)),
        Spare("poor", part(cell, 0.8)),
    ]
    made = rework(by.foretold, spot("weak cell", PLACE, 0.3), spares)
    assert made.spare == "enough"
    assert [each.spare for each in made.spares] == ["best", "enough", "poor"]


def test_a_spare_of_which_none_is_left_is_not_taken(by, cell):
    made = rework(by.foretold, spot("shunt", PLACE, 1.0), [Spare("gone", cell, 0)])
    assert made.spare is None
    assert "No spare cell is left" in made.steps[-1]
    assert "No spares were named" in rework(by.foretold, spot("shunt", PLACE, 1.0)).steps[-1]


def test_a_closed_panel_keeps_its_cell_but_not_its_diode(by):
    weak = rework(by.foretold, spot("weak cell", PLACE, 0.3), lies="closed")
    diode = rework(by.foretold, spot("bypass shorted", DiodeAt(0, 1)), lies="closed")
    assert weak.gained_w == 0.0
    assert "closed" in weak.steps[-1]
    assert diode.after_w == diode.sound_w
    assert "row 2" in diode.steps[0]


def test_a_healthy_panel_has_nothing_to_rework(by):
    with pytest.raises(ValueError, match="nothing is wrong"):
        rework(by.foretold, Spot(None, None, (0.0,), (1.0,)))
