"""What a rework brings: held against the circuit with the part exchanged."""

from dataclasses import replace

import pytest

from panewright.bench.fault.finding import found
from panewright.bench.fault.kinds import KINDS
from panewright.bench.fault.place.belief import Spot, begin
from panewright.bench.fault.rework import Spare, rework
from panewright.circuit.maxima import key_points
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


BOTH = {
    "in two rows": (("weak cell", PLACE, 0.3), ("resistance", CellAt(0, 30), 0.05)),
    "in one row": (("shunt", PLACE, 1.0), ("resistance", CellAt(0, 6), 0.05)),
    "a cell gone before it": (("weak cell", CellAt(0, 36), 0.4), ("cell gone", PLACE, 0.0)),
}


@pytest.mark.parametrize("name", BOTH)
def test_of_two_faults_the_other_stays_in_what_is_promised(by, wrong, cell, name):
    """Before and after are those of the exact circuit with the other fault in it; no more is promised."""
    one, other = BOTH[name]
    mended = replace(spot(*one), beside=wrong(other), beside_odds=0.97)
    made = rework(by.foretold, mended, [Spare("A1", cell)])
    left, both = (key_points(by.foretold.stc_with(wrong(*each))).power_w for each in ([other], [one, other]))
    assert made.before_w == pytest.approx(both, rel=1e-9)
    assert made.after_w == pytest.approx(left, rel=1e-3)
    assert made.after_w < 0.99 * made.sound_w
    assert "read again" in made.steps[-1]
    assert "stays (97 % sure)" in made.steps[-1]


def test_a_finding_of_two_faults_hands_both_on(by, swept):
    """The joint goes with the shade in every place the shade may be."""
    read = swept(("weak cell", PLACE, 0.3), ("resistance", CellAt(0, 20), 0.05))
    state = begin(by.foretold, found(by, read))
    likely = [each for each in state.spots if each.kind is not None and each.kind.key == "weak cell"]
    assert len(likely) == 36
    assert all([kind.key for kind in each.beside.kinds] == ["resistance"] for each in likely)
    assert all(each.beside.places[0] != each.place for each in likely)
    made = rework(by.foretold, likely[0])
    assert made.after_w < 0.97 * made.sound_w


def test_a_closed_panel_with_too_much_resistance_is_measured_over_plugs_and_box_first(by):
    made = rework(by.foretold, spot("resistance", PLACE, 0.1), lies="closed")
    assert "each lead with its end, and over each screw or joint in the box" in made.steps[0]
    assert "behind the pane" in made.steps[-1]
    assert made.at_most
    assert made.after_w == made.sound_w
    assert not rework(by.foretold, spot("resistance", PLACE, 0.1)).at_most


def test_of_a_dimmed_panel_no_more_than_at_most_is_promised(by):
    assert rework(by.foretold, spot("dimmed", None, 0.2), lies="closed").at_most


def test_a_healthy_panel_has_nothing_to_rework(by):
    with pytest.raises(ValueError, match="nothing is wrong"):
        rework(by.foretold, Spot(None, None, (0.0,), (1.0,)))
