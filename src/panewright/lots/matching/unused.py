"""Why a soldered string is left over: what bars it, or what it would bring in the place of loose cells."""

from __future__ import annotations

import numpy as np

from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.pieces import Whole


def barred(matched: Matched, cells: list[int]) -> str:
    """Which limit keeps a string out of every panel; '' where none does."""
    pieces, seats, marks = matched.rules.pieces, matched.rules.seats, matched.lot.marks
    if len(cells) > seats.length:
        return f"That string has {len(cells)} cells, a string of this panel {seats.length}."
    if weak := [marks[c] for c in cells if pieces.most_cells[c] < min(seats.driven)]:
        return (
            f"In reverse {', '.join(weak[:6])} of that string bears no substring of this panel: the others "
            "could drive it too far in the shade."
        )
    leaky, most = [marks[c] for c in cells if pieces.leaky[c]], matched.rules.most_leaky
    if len(leaky) > most and len(cells) <= max(seats.substrings):
        return f"Leaky cells in that string: {', '.join(leaky[:6])}; one diode spans {most} at most."
    return ""


def best_run(matched: Matched, cells: list[int]) -> tuple[int, int, float] | None:
    """Panel and first seat of the run of loose cells in whose place a string brings most; how much. [W]"""
    rows, where = [], []
    for panel, seated in enumerate(matched.made.seats):
        for first in _runs(matched, seated, cells):
            row = seated.copy()
            row[first : first + len(cells)] = cells
            rows.append(row)
            where.append((panel, first))
    if not rows:
        return None
    watts = exact_w(matched.asked.network, matched.lot.cells, np.array(rows))
    change = watts - matched.made.power_w[[panel for panel, _ in where]]
    best = int(change.argmax())
    return (*where[best], float(change[best]))


def _runs(matched: Matched, seated: Whole, cells: list[int]) -> list[int]:
    """First seats of runs of loose cells in one substring that the limits leave to a string."""
    pieces, seats = matched.rules.pieces, matched.rules.seats
    part, marks, count = np.array(seats.substring_of), matched.lot.marks, len(cells)
    joined = {mark for string in matched.asked.soldered for mark in string}
    loose = np.array([marks[c] not in joined for c in seated.tolist()])
    borne = int(pieces.most_cells[cells].min())
    found = []
    for first in range(len(seated) - count + 1):
        run = slice(first, first + count)
        here = part[first]
        if not (part[run] == here).all() or not loose[run].all() or seats.driven[here] > borne:
            continue
        beside = pieces.leaky[seated[part == here]].sum() - pieces.leaky[seated[run]].sum()
        leaks = pieces.leaky[cells].sum()
        if not leaks or beside + leaks <= matched.rules.most_leaky:
            found.append(first)
    return found
