"""Spares: cells kept back that may take any place, and what a break then costs.

A cell that leaks, that others could break down in the shade, or that is soldered into a string is left over
too, but takes no place of a cell that breaks. Of those that do, the weakest are kept back: what a stronger
spare saves when a cell breaks, it costs before, whether one breaks or not.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.lots.matching.asked import BestRemainder
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.making import Made
from panewright.lots.matching.plans.scoring import Score, Steps, score
from panewright.lots.matching.substitute import with_others_w

_MOST = 40  #: panels of which it is told what a break costs


def spares_of(matched: Matched) -> Whole:
    """Cells left over that may take any seat, the strongest first."""
    left = set(matched.left)
    there = np.array([mark in left for mark in matched.lot.marks], dtype=bool)
    cells = np.flatnonzero(there & matched.rules.anywhere)
    return np.asarray(cells[np.argsort(-matched.lot.power_w[cells], kind="stable")], dtype=np.int64)


def reserve(matched: Matched) -> tuple[str, ...]:
    """Cells to keep back so that as many spares fit as are asked for; none where they do already.

    Where the lot has fewer that fit any seat, all of those.
    """
    fits, spares = matched.rules.anywhere, spares_of(matched)
    need = min(matched.asked.spares, int(fits.sum()))
    if len(spares) >= need:
        return ()
    seated = np.setdiff1d(np.flatnonzero(fits), spares)
    weakest = seated[np.argsort(matched.lot.power_w[seated], kind="stable")]
    chosen = [*spares.tolist(), *weakest.tolist()][:need]
    return tuple(matched.lot.marks[k] for k in chosen)


def whole(first: Matched, second: Matched) -> Matched:
    """A deal of the cells that were not kept back, as one of the whole lot, under the bound of the whole."""
    where = {mark: k for k, mark in enumerate(first.lot.marks)}
    places = np.array([where[mark] for mark in second.lot.marks], dtype=np.int64)
    seats, watts = places[second.made.seats], second.made.power_w
    kept_w = float(first.lot.power_w.sum() - second.lot.power_w.sum())
    left_w = float(first.lot.power_w.sum() - first.lot.power_w[seats].sum())
    made = Made(seats[:, :0], seats, watts, score(first.asked.aim, watts, left_w))
    taken = set(seats.reshape(-1).tolist())
    return replace(
        first,
        panels=second.panels,
        left=tuple(mark for k, mark in enumerate(first.lot.marks) if k not in taken),
        score=made.score,
        sorted_score=_more_left(first, second.sorted_score, kept_w),
        random_score=_more_left(first, second.random_score, kept_w),
        bound=replace(first.bound, kind="tried") if first.bound.kind == "exhausted" else first.bound,
        made=made,
    )


def _more_left(matched: Matched, found: Score, kept_w: float) -> Score:
    """Of the best remainder, what is kept back is left over too."""
    return (found[0], found[1] + kept_w) if isinstance(matched.asked.aim, BestRemainder) else found


@dataclass(frozen=True, slots=True)
class Break:
    """The middle cell of a panel breaks: the spare with which least is lost. Panels from 0."""

    panel: int
    into: str
    change_w: float
    earns: bool  #: whether the panel still earns what it did


def breaks(matched: Matched) -> tuple[Break, ...]:
    """What a break costs each panel with the spares that fit, of the first panels."""
    spares = spares_of(matched)
    return tuple(_break(matched, k, spares) for k in range(min(_MOST, len(matched.panels))) if len(spares))


def _break(matched: Matched, panel: int, spares: Whole) -> Break:
    seats, lot = matched.made.seats[panel], matched.lot
    joined = {mark for string in matched.asked.soldered for mark in string}
    loose = [k for k, cell in enumerate(seats.tolist()) if lot.marks[cell] not in joined] or [0]
    seat = sorted(loose, key=lambda k: float(lot.power_w[seats[k]]))[len(loose) // 2]
    watts = with_others_w(matched, panel, seat, spares)
    best = int(np.argmax(watts))
    before = float(matched.made.power_w[panel])
    earned = Steps.of(matched.asked.aim).earned(np.array([before, watts[best]]))
    return Break(panel, lot.marks[spares[best]], float(watts[best]) - before, bool(earned[1] >= earned[0]))
