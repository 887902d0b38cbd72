"""Spares are cells that could take any place; what a break costs with them is tried on the circuit."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from campaigns import matching

from panewright.circuit.maxima import key_points
from panewright.lots.matching.asked import Asked, Limits, MostReaching, MostWatts, Reverse
from panewright.lots.matching.filled import filled
from panewright.lots.matching.match import match
from panewright.lots.matching.spares import breaks, spares_of

WIRED = matching.wiring(8, 1, 1)
REVERSE = Limits(reverse=Reverse(0.66))


@cache
def strong():
    return matching.standing(matching.cells(20, 5, matching.Drawn()))


def with_weak(count):
    """The lot, its strongest cells easily broken down."""
    weak = np.argsort(-strong().power_w)[:count]
    volts = np.array(strong().cells.breakdown_v)
    volts[weak] = -2.0
    cells = replace(strong().cells, breakdown_v=volts)
    return replace(strong(), cells=cells), {strong().marks[k] for k in weak.tolist()}


@pytest.mark.parametrize("aim", [MostWatts(), MostReaching(20.0)])
def test_cells_that_no_place_takes_are_no_spares(aim):
    lot, barred = with_weak(4)
    asked = Asked(WIRED, aim, REVERSE, spares=4)
    matched = match(lot, asked)
    assert matching.fault(matched) == ""
    fits = {lot.marks[k] for k in spares_of(matched)}
    assert len(matched.panels) == 1  # sixteen cells would make two, and leave no spare
    assert len(fits) >= 4
    assert not fits & barred
    assert matched.score >= matched.sorted_score
    assert matched.score[0] <= matched.bound.value * (1 + 1e-9)


def test_where_a_deal_took_the_loose_cells_and_left_soldered_ones_some_are_kept_back():
    lot = strong()
    weakest = np.argsort(lot.power_w)[:4]
    joined = (tuple(lot.marks[k] for k in weakest.tolist()),)
    asked = Asked(WIRED, MostWatts(), soldered=joined, spares=4)
    matched = match(lot, asked)
    assert matching.fault(matched) == ""
    fits = [lot.marks[k] for k in spares_of(matched)]
    assert len(matched.panels) == 2
    assert len(fits) == 4
    assert not set(fits) & set(joined[0])
    assert matched.score[0] <= matched.bound.value * (1 + 1e-9)
    assert matched.score >= matched.sorted_score


def test_what_a_break_costs_is_that_of_the_circuit():
    matched = match(strong(), Asked(WIRED, MostWatts(), spares=3))
    for each in breaks(matched):
        cells = matched.made.seats[each.panel]
        middle = np.argsort(strong().power_w[cells], kind="stable")[len(cells) // 2]
        spare = strong().marks.index(each.into)
        now = key_points(
            filled(WIRED, strong().cells, [*np.where(cells == cells[middle], spare, cells)])
        ).power_w
        assert each.change_w == pytest.approx(now - matched.panels[each.panel].power_w, abs=1e-6)
        assert (
            each.into
            == strong().marks[max(spares_of(matched), key=lambda k: _with(matched, each, middle, k))]
        )


def _with(matched, each, middle, spare):
    cells = matched.made.seats[each.panel].copy()
    cells[middle] = spare
    return key_points(filled(WIRED, strong().cells, cells.tolist())).power_w
