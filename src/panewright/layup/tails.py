"""Tails: the ribbon from each bus out through the back to its terminal in the junction box.

    terminal  ---
             (   )  bow
    back ====|===|=========     a far tail turns here and runs along the back, in a sleeve, into the box
             | rise
    bus  ====+======
             lap

A tail is a piece of bus ribbon of its own, laid square across its bus. The box stands over the leads and
over every tap within half the widest box; where the leads leave at both ends and far apart, over the minus
lead. All other tails come to it along the back. All of it is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from panewright.layup.layup import Lead, Plan, Point, Tail, Tap

BOW_MM = 60.0  #: from the back up to the terminal, with the loose bow that lets the panel warm
COVER_MM = 15.0  #: the box reaches this far past every exit that it covers
WIDE_BOX_MM = 160.0  #: no box is sold wider
_REACH_MM = WIDE_BOX_MM / 2 - COVER_MM  # of the box to an exit that it covers


@dataclass(frozen=True, slots=True)
class BoxRoom:
    """The exits that one box covers, seen sunny side up. [mm]"""

    left: float
    bottom: float
    right: float
    top: float

    def nearest(self, at: Point) -> Point:
        """The place among the covered exits that is nearest to an exit; the exit itself if it is covered."""
        return min(max(at[0], self.left), self.right), min(max(at[1], self.bottom), self.top)

    @property
    def least(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the least box. [mm]"""
        over = COVER_MM
        return self.left - over, self.bottom - over, self.right + over, self.top + over


def tails_of(plan: Plan, leads: tuple[Lead, ...], taps: tuple[Tap, ...], rise_mm: float) -> tuple[Tail, ...]:
    """A tail for each lead and each tap; `rise_mm` is the thickness of all that lies behind the cells."""
    room = box_room(plan, leads, taps)
    return tuple(_tails(plan, leads, taps, room, rise_mm))


def box_room(plan: Plan, leads: tuple[Lead, ...], taps: tuple[Tap, ...]) -> BoxRoom:
    """Where the box stands."""
    minus, plus = (next(lead.at for lead in leads if lead.pole == pole) for pole in ("minus", "plus"))
    together = plan.leads_one_end or math.dist(minus, plus) <= 2 * _REACH_MM
    over = (minus, plus) if together else (minus,)
    middle = sum(x for x, _ in over) / len(over), sum(y for _, y in over) / len(over)
    covered = (*over, *(tap.at for tap in taps if math.dist(tap.at, middle) <= _REACH_MM))
    xs, ys = [x for x, _ in covered], [y for _, y in covered]
    return BoxRoom(min(xs), min(ys), max(xs), max(ys))


def _tails(
    plan: Plan, leads: tuple[Lead, ...], taps: tuple[Tap, ...], room: BoxRoom, rise_mm: float
) -> Iterator[Tail]:
    sizes = (plan.bus_width_mm, float(math.ceil(rise_mm - 1e-6)), BOW_MM)
    for lead in leads:
        after = 0 if lead.pole == "minus" else plan.in_series * plan.strings
        name = f"{lead.pole} lead to the box"
        yield Tail(name, after, -1, lead.pole, lead.at, room.nearest(lead.at), *sizes)
    for tap in taps:
        into = room.nearest(tap.at)
        yield Tail("tap to the box", tap.after_cell, tap.string, "between", tap.at, into, *sizes)
