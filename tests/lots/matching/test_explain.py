"""Why a cell is where it is, and what could take its place: every figure tried again on the circuit."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from functools import cache

import numpy as np
import pytest
from campaigns import matching

from panewright.circuit.maxima import key_points
from panewright.circuit.place import CellAt
from panewright.lots.matching.asked import (
    Asked,
    BestRemainder,
    Limits,
    MostMoney,
    MostReaching,
    MostWatts,
    Reverse,
    Step,
)
from panewright.lots.matching.explain import in_string, why
from panewright.lots.matching.filled import filled
from panewright.lots.matching.match import match
from panewright.lots.matching.substitute import substitute
from panewright.lots.matching.unmade import unmade


@cache
def lot():
    return matching.standing(matching.cells(50, 11, matching.Drawn(leaky=0.1, weak=0.1)))


@pytest.fixture(scope="module")
def matched():
    return match(lot(), Asked(matching.wiring(8, 1, 2), MostWatts(), Limits(6.0, 1, Reverse(2.5))))


def watts(matched, panel: int, out: str, into: str) -> float:
    marks = [seat.mark for seat in matched.panels[panel].seats]
    seats = [lot().marks.index(into if mark == out else mark) for mark in marks]
    return key_points(filled(matched.asked.network, lot().cells, seats)).power_w


def test_what_is_said_of_every_cell_left_over_is_true(matched):
    found = [why(matched, mark) for mark in matched.left]
    assert sum(told.best is None for told in found) < len(found)
    for told in found:
        reason = told.told_reason(in_string)
        assert told.told(in_string) == f"Cell {told.mark} is left over. {reason}"
        if told.best is None:
            assert "In reverse" in reason or "leaky" in reason
            continue
        assert f"place {told.best.place.number}, instead of {told.best.out}: " in reason
        change = watts(matched, told.best.panel, told.best.out, told.mark)
        assert told.best.change_w == pytest.approx(change - matched.panels[told.best.panel].power_w, abs=1e-6)
        assert told.best.change_w < 1e-3  # else it would have been dealt


@pytest.fixture(scope="module")
def joined():
    """Three soldered strings: of a leaky cell, of the weakest, of the next."""
    cells, power = lot().cells, lot().power_w
    sound = [k for k in np.argsort(power).tolist() if cells.shunt_ohm[k] >= 6.0]
    leaky = [int(np.flatnonzero(cells.shunt_ohm < 6.0)[0]), sound[-1]]
    marks = [tuple(lot().marks[k] for k in string) for string in (leaky, sound[:2], sound[2:4])]
    asked = Asked(matching.wiring(8, 1, 2), MostWatts(), Limits(6.0, 0), panels=2, soldered=tuple(marks))
    return match(lot(), asked)


def test_a_soldered_string_left_over_is_told_with_what_bars_it(joined):
    leaky, mate = joined.asked.soldered[0]
    told = why(joined, mate).reason
    assert f"Leaky cells in that string: {leaky}; one diode spans 0 at most." in told


def test_a_soldered_string_left_over_is_told_with_what_it_would_bring(joined):
    string = joined.asked.soldered[1]
    told = why(joined, string[1]).reason
    found = re.search(r"panel (\d), string 1, place (\d) to (\d), instead of loose cells: ([-+\d.]+) W", told)
    assert found
    panel, first, last = (int(each) for each in found.groups()[:3])
    marks = [seat.mark for seat in joined.panels[panel - 1].seats]
    assert last - first == 1
    marks[first - 1 : last] = string
    cells = [lot().marks.index(mark) for mark in marks]
    gives = key_points(filled(joined.asked.network, lot().cells, cells)).power_w
    assert float(found.group(4)) == pytest.approx(gives - joined.panels[panel - 1].power_w, abs=1e-3)
    assert float(found.group(4)) < 0  # else it would have been dealt so


def test_a_cell_left_over_where_no_panel_is_made_says_so():
    none = match(lot(), Asked(matching.wiring(8, 1, 2), MostReaching(1e4)))
    assert not none.panels
    assert "No panel is made" in why(none, none.left[0]).reason


@pytest.mark.parametrize("number", [1, 4, 8])
def test_every_substitute_is_reckoned_on_the_circuit_and_ranked(matched, number):
    place = CellAt(0, number)
    found = substitute(matched, 1, place)
    assert [each.power_w for each in found] == sorted((each.power_w for each in found), reverse=True)
    assert {each.mark for each in found} <= set(matched.left)
    out = matched.panels[1].seats[number - 1].mark
    for each in found[:4]:
        assert each.power_w == pytest.approx(watts(matched, 1, out, each.mark), rel=1e-9)
        assert each.change_w == pytest.approx(each.power_w - matched.panels[1].power_w, abs=1e-6)
    told = why(matched, out)
    assert (told.panel, told.place) == (1, place)
    assert told.best is not None
    assert told.best.into == found[0].mark  # of most watts the first gives most


@pytest.fixture(scope="module")
def few():
    """Two panels, and many cells left over."""
    return match(lot(), Asked(matching.wiring(8, 1, 2), MostWatts(), panels=2))


@pytest.mark.parametrize("kind", ["reach", "money", "remainder"])
def test_a_broken_cell_gets_the_least_that_keeps_what_the_panel_earns(few, kind):
    matched, by_watts = few, [each.power_w for each in substitute(few, 0, CellAt(0, 2))]
    rating = by_watts[len(by_watts) // 2]
    steps = (Step(rating, Decimal(40)), Step(2 * rating, Decimal(90)))
    aims = {"reach": MostReaching(rating), "money": MostMoney(steps), "remainder": BestRemainder(2, rating)}
    aimed = replace(matched, asked=replace(matched.asked, aim=aims[kind]))
    power = dict(zip(lot().marks, lot().power_w.tolist(), strict=True))
    found = substitute(aimed, 0, CellAt(0, 2))
    keeps = [each for each in found if each.power_w >= rating]
    assert 1 < len(keeps) < len(found)
    assert found[: len(keeps)] == tuple(keeps)
    assert keeps[0].mark == min((each.mark for each in keeps), key=power.__getitem__)
    rest = [each.power_w for each in found[len(keeps) :]]
    assert rest == sorted(rest, reverse=True)
    left = sum(power[mark] for mark in matched.left)
    for each in found:
        assert each.own_w == power[each.mark]
        assert each.left_w == pytest.approx(left - power[each.mark])


def test_a_seated_cell_is_held_against_its_seat_in_every_other_panel(few):
    first, second = few.panels
    mark = first.seats[2].mark
    found = why(few, mark)
    other = found.other
    assert other is not None
    assert other.panel == 1
    marks = [[seat.mark for seat in panel.seats] for panel in few.panels]

    def gain(seat):
        rows = [list(row) for row in marks]
        rows[0][2], rows[1][seat] = rows[1][seat], rows[0][2]
        cells = [[lot().marks.index(each) for each in row] for row in rows]
        return [key_points(filled(few.asked.network, lot().cells, row)).power_w for row in cells]

    before = first.power_w + second.power_w
    sums = [sum(gain(seat)) - before for seat in range(8)]
    assert other.both_w == pytest.approx(max(sums), abs=1e-6)
    here = gain(marks[1].index(other.mark))[0] - first.power_w
    assert other.here_w == pytest.approx(here, abs=1e-6)
    assert f"with {other.mark} of panel 2, " in found.told(in_string)
    assert other.both_w < 1e-3  # else they would have been dealt so


def test_cells_of_a_panel_that_is_not_made_are_told_with_what_it_lacks(few):
    found = unmade(few)
    assert found is not None
    assert set(found.marks) <= set(few.left)
    cells = [lot().marks.index(mark) for mark in found.marks]
    assert found.power_w == pytest.approx(key_points(filled(few.asked.network, lot().cells, cells)).power_w)
    aimed = replace(few, asked=replace(few.asked, aim=MostReaching(found.power_w + 1)))
    assert unmade(aimed).lacks_w == pytest.approx(1)
    assert unmade(replace(few, left=few.left[:7])) is None
    assert unmade(replace(few, asked=replace(few.asked, spares=40))) is None


def test_a_place_that_is_not_there_is_refused(matched):
    with pytest.raises(ValueError, match="cells 1 to 8"):
        substitute(matched, 0, CellAt(0, 9))
    with pytest.raises(ValueError, match="no panel 40"):
        substitute(matched, 40, CellAt(0, 1))
    with pytest.raises(ValueError, match="no cell x"):
        why(matched, "x")
