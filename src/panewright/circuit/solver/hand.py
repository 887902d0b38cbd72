"""What a look at a panel writes to: how every part stands, and what the next look may begin with."""

from __future__ import annotations

from itertools import accumulate, pairwise
from typing import NamedTuple

import numpy as np

from panewright.circuit.solver.sheet import FACTS, Column, Numbers, Sheet, Table

WIDE = 8  #: cells side by side, see `abreast`
_FIGURES = 23  # of each


class Work(NamedTuple):
    """How every part of a panel stands: columns by cell, then by substring; then room for cells abreast."""

    junction_v: Column
    junction_ohm: Column  #: 1/g of each junction
    bend: Column  #: slope of g [S/V]
    own_a: Column  #: current of the cells of each substring
    branch_a: Column  #: forward current of what lies beside
    branch_share: Column  #: how much of a change of the string's current it takes
    part_v: Column  #: voltage of each substring
    part_ohm: Column  #: its -dV/dI
    first_row: Numbers  #: of each substring among the rows
    rows: Table  #: eight cells each, with what is reckoned of them; empty where nothing is compiled


class Hand(NamedTuple):
    """One look's results, and guesses for the next."""

    work: Work
    guess_a: Column  #: currents of what lies beside the substrings, 0 where nothing is known
    near_a: Column  #: currents of the strings
    seen: Table  #: of each string, as last looked at: current, voltage, r and dr/dI
    parts: Table  #: room for the facts of every substring


def hand(sheet: Sheet) -> Hand:
    """Room for one look, as arrays."""
    cells, parts, strings = sheet.first_cell[-1], len(sheet.kind), len(sheet.alike)
    full = (-(-(end - start) // WIDE) for start, end in pairwise(sheet.first_cell))
    first = np.array([0, *accumulate(full)])
    by_cell, by_part = [np.zeros(cells) for _ in range(3)], [np.zeros(parts) for _ in range(5)]
    work = Work._make((*by_cell, *by_part, first, np.zeros((first[-1], _FIGURES * WIDE))))
    return Hand(work, np.zeros(parts), np.zeros(strings), np.zeros((strings, 4)), np.zeros((parts, FACTS)))


def hand_as_lists(cells: int, parts: int, strings: int) -> Hand:
    """The same as lists, which are quicker where nothing is compiled."""
    by_cell, by_part = [[0.0] * cells for _ in range(3)], [[0.0] * parts for _ in range(5)]
    work = Work._make((*by_cell, *by_part, [], []))
    return Hand(work, [0.0] * parts, [0.0] * strings, [[0.0] * 4 for _ in range(strings)], [])
