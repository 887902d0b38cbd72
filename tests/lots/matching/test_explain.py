"""Why a cell is where it is, and what could take its place: every figure tried again on the circuit."""

from __future__ import annotations

import pytest
from campaigns import matching

from panewright.circuit.maxima import key_points
from panewright.circuit.place import CellAt
from panewright.lots.matching.asked import Asked, Limits, MostWatts, Reverse
from panewright.lots.matching.explain import why
from panewright.lots.matching.filled import filled
from panewright.lots.matching.match import match
from panewright.lots.matching.substitute import substitute

LOT = matching.standing(matching.cells(50, 11, matching.Drawn(leaky=0.1, weak=0.1)))
MATCHED = match(LOT, Asked(matching.wiring(8, 1, 2), MostWatts(), Limits(6.0, 1, Reverse(2.5))))


def watts(panel: int, out: str, into: str) -> float:
    marks = [seat.mark for seat in MATCHED.panels[panel].seats]
    seats = [LOT.marks.index(into if mark == out else mark) for mark in marks]
    return key_points(filled(MATCHED.asked.network, LOT.cells, seats)).power_w


@pytest.mark.parametrize("mark", MATCHED.left)
def test_what_is_said_of_a_cell_left_over_is_true(mark):
    told = why(MATCHED, mark)
    assert told.words.startswith(f"Cell {mark} is left over")
    if told.best is None:
        assert "in reverse" in told.words or "leaky" in told.words
        return
    change = watts(told.best.panel, told.best.out, mark) - MATCHED.panels[told.best.panel].power_w
    assert told.best.change_w == pytest.approx(change, abs=1e-6)
    assert told.best.change_w < 1e-3  # else it would have been dealt


@pytest.mark.parametrize("number", [1, 4, 8])
def test_every_substitute_is_reckoned_on_the_circuit_and_ranked(number):
    place = CellAt(0, number)
    found = substitute(MATCHED, 1, place)
    assert [each.power_w for each in found] == sorted((each.power_w for each in found), reverse=True)
    assert {each.mark for each in found} <= set(MATCHED.left)
    out = MATCHED.panels[1].seats[number - 1].mark
    for each in found[:4]:
        assert each.power_w == pytest.approx(watts(1, out, each.mark), rel=1e-9)
        assert each.change_w == pytest.approx(each.power_w - MATCHED.panels[1].power_w, abs=1e-6)
    told = why(MATCHED, out)
    assert (told.panel, told.place) == (1, place)
    assert told.best is not None
    assert told.best.into == found[0].mark


def test_a_place_that_is_not_there_is_refused():
    with pytest.raises(ValueError, match="cells 1 to 8"):
        substitute(MATCHED, 0, CellAt(0, 9))
    with pytest.raises(ValueError, match="no panel 40"):
        substitute(MATCHED, 40, CellAt(0, 1))
    with pytest.raises(ValueError, match="no cell x"):
        why(MATCHED, "x")
