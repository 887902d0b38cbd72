"""Why a cell sits where it sits, or is left over: what the best exchange of it would bring, tried exactly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from panewright.circuit.place import CellAt
from panewright.lots.matching.across import Across, across
from panewright.lots.matching.asked import BestRemainder, MostWatts
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.substitute import fitting, substitute, with_others_w
from panewright.lots.matching.unused import barred, best_run

_NOTHING = 5e-4  # watts that nobody reads
_NO_PANEL = "No panel is made, so there is no place for it."
Placed = Callable[[CellAt], str]


@dataclass(frozen=True, slots=True)
class Exchange:
    """A cell that is left put in the place of one that is not."""

    panel: int
    place: CellAt
    out: str
    into: str
    change_w: float  #: of that panel, by the exact circuit


@dataclass(frozen=True, slots=True)
class Why:
    """Where a cell is, the best exchange of it with or from what is left, and the reason."""

    mark: str
    panel: int | None  #: None: left over
    place: CellAt | None
    best: Exchange | None  #: None where no exchange is allowed
    reason: str  #: in sentences that say nothing of where it is
    other: Across | None = None  #: the best exchange with a cell of another panel

    def told(self, placed: Placed) -> str:
        """The whole in words, its place in those of `placed`."""
        if self.panel is None or self.place is None:
            return f"Cell {self.mark} is left over. {self.told_reason(placed)}"
        here = f"Cell {self.mark} sits in panel {self.panel + 1}, {placed(self.place)}."
        return f"{here} {self.told_reason(placed)}"

    def told_reason(self, placed: Placed) -> str:
        """The reason in words."""
        if self.panel is not None or self.best is None:
            return f"{self.reason} {_across_words(self.other, placed)}" if self.other else self.reason
        instead = f"panel {self.best.panel + 1}, {placed(self.best.place)}, instead of {self.best.out}"
        return f"Its best place would be {instead}: {self.reason}"


def in_string(place: CellAt) -> str:
    """A place as the circuit counts it."""
    return f"string {place.string + 1}, place {place.number}"


def why(matched: Matched, mark: str) -> Why:
    """Why a cell of the lot is where it is."""
    if mark not in matched.lot.marks:
        raise ValueError(f"no cell {mark} in this lot")
    return _left(matched, mark) if mark in matched.left else _seated(matched, mark)


def _left(matched: Matched, mark: str) -> Why:
    cell = matched.lot.marks.index(mark)
    if string := next((each for each in matched.asked.soldered if mark in each), ()):
        stays = f"It stays with the string of {len(string)} that it is soldered into."
        return Why(mark, None, None, None, f"{stays} {_unused(matched, string)}")
    best = _best_place(matched, cell)
    if best is None:
        return Why(mark, None, None, None, _barred(matched, cell))
    return Why(mark, None, None, best, _brings(matched, best))


def _unused(matched: Matched, string: tuple[str, ...]) -> str:
    """Why the whole of a soldered string is left over."""
    if not len(matched.made.seats):
        return _NO_PANEL
    cells = [matched.lot.marks.index(mark) for mark in string]
    if reason := barred(matched, cells):
        return reason
    found = best_run(matched, cells)
    if found is None:
        return "No substring has as many loose cells in a row that may make room for it."
    panel, first, change_w = found
    start = matched.rules.seats.place(first)
    best = Exchange(panel, start, matched.lot.marks[matched.made.seats[panel][first]], string[0], change_w)
    where = f"panel {panel + 1}, {in_string(start)} to {start.number + len(string) - 1}"
    return f"The best place of that string would be {where}, instead of loose cells: {_brings(matched, best)}"


def _best_place(matched: Matched, cell: int) -> Exchange | None:
    """The seat in which a cell would bring most, of all in which it may sit."""
    found: Exchange | None = None
    one, marks = np.array([cell]), matched.lot.marks
    joined = {mark for string in matched.asked.soldered for mark in string}
    for panel, seats in enumerate(matched.made.seats.tolist()):
        for seat, there in enumerate(seats):
            if marks[there] in joined or not fitting(matched, panel, seat, one)[0]:
                continue
            change = float(with_others_w(matched, panel, seat, one)[0] - matched.made.power_w[panel])
            if found is None or change > found.change_w:
                found = Exchange(panel, matched.rules.seats.place(seat), marks[there], marks[cell], change)
    return found


def _seated(matched: Matched, mark: str) -> Why:
    cell = matched.lot.marks.index(mark)
    panel, seat = (int(each[0]) for each in np.nonzero(matched.made.seats == cell))
    place = matched.rules.seats.place(seat)
    others, other = substitute(matched, panel, place), across(matched, panel, seat)
    if not others:
        return Why(mark, panel, place, None, "Nothing that is left may take its place.", other)
    most = max(others, key=lambda each: each.power_w)
    best = Exchange(panel, place, mark, most.mark, most.change_w)
    reason = f"Most of what is left would give {best.into} in its place: {_brings(matched, best)}"
    return Why(mark, panel, place, best, reason, other)


def _across_words(other: Across, placed: Placed) -> str:
    """What the best exchange with another panel would bring to both."""
    where = f"{other.mark} of panel {other.panel + 1}, {placed(other.place)}"
    words = f"Of exchanges with other panels the best, with {where}, would bring {other.here_w:+.3f} W here"
    if abs(other.here_w) < _NOTHING and abs(other.there_w) < _NOTHING:
        return f"Of exchanges with other panels the best, with {where}, would change nothing."
    return f"{words} and {other.there_w:+.3f} W there, {other.both_w:+.3f} W in all."


def _brings(matched: Matched, best: Exchange) -> str:
    """What an exchange brings to its panel, and whether that counts for the aim."""
    watts = f"{best.change_w:+.3f} W in that panel"
    if abs(best.change_w) < _NOTHING:
        watts = "no watts more or less in that panel"
    if best.change_w <= 0 or isinstance(matched.asked.aim, MostWatts):
        return f"{watts}."
    if isinstance(matched.asked.aim, BestRemainder):
        return f"{watts}; but the panel reaches its rating, and what is left shall be worth most."
    steps, before = Steps.of(matched.asked.aim), matched.panels[best.panel].power_w
    earned = steps.earned(np.array([before, before + best.change_w]))
    return f"{watts}, which reaches {'a' if earned[1] > earned[0] else 'no'} further step."


def _barred(matched: Matched, cell: int) -> str:
    """Which limit keeps a cell out of every seat."""
    if not len(matched.made.seats):
        return _NO_PANEL
    pieces = matched.rules.pieces
    if pieces.most_cells[cell] < min(matched.rules.seats.driven):
        return (
            "In reverse it bears no substring of this panel: the others could drive it too far in the shade."
        )
    if pieces.leaky[cell]:
        return "It is leaky, and every substring holds as many leaky cells as it may."
    return "No seat that may take it is free or holds a loose cell."
