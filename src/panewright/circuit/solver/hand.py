"""What a look at a panel writes to: how every part stands, and what the next look may begin with."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from panewright.circuit.solver.sheet import Column, Table


class Work(NamedTuple):
    """How every part of a panel stands: columns by cell, then by substring."""

    junction_v: Column
    junction_ohm: Column  #: 1/g of each junction
    bend: Column  #: slope of g [S/V]
    own_a: Column  #: current of the cells of each substring
    branch_a: Column  #: forward current of what lies beside
    part_v: Column  #: voltage of each substring
    part_ohm: Column  #: its -dV/dI


class Hand(NamedTuple):
    """One look's results, and guesses for the next."""

    work: Work
    guess_a: Column  #: currents of what lies beside the substrings, 0 where nothing is known
    near_a: Column  #: currents of the strings
    seen: Table  #: of each string, as last looked at: current, voltage, r and dr/dI


def hand(cells: int, parts: int, strings: int) -> Hand:
    """Room for one look, as arrays."""
    work = Work(*(np.zeros(cells) for _ in range(3)), *(np.zeros(parts) for _ in range(4)))
    return Hand(work, np.zeros(parts), np.zeros(strings), np.zeros((strings, 4)))


def hand_as_lists(cells: int, parts: int, strings: int) -> Hand:
    """The same as lists, which are quicker where nothing is compiled."""
    work = Work(*([0.0] * cells for _ in range(3)), *([0.0] * parts for _ in range(4)))
    return Hand(work, [0.0] * parts, [0.0] * strings, [[0.0] * 4 for _ in range(strings)])
