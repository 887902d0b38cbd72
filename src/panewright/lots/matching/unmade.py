"""The panel that the cells left over would make, and what it lacks of what is asked."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.lots.matching.deal import cells_of, exact_w
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.plans.sorting import dealt


@dataclass(frozen=True, slots=True)
class Unmade:
    """A panel of the strongest cells left over, dealt in the order of their currents."""

    marks: tuple[str, ...]
    power_w: float
    rating_w: float | None  #: the rating, or the first price step; None of most watts

    @property
    def lacks_w(self) -> float:
        """What it is short of; 0 where it reaches all that is asked."""
        return max(0.0, (self.rating_w or 0.0) - self.power_w)


@dataclass(frozen=True, slots=True)
class Hindered:
    """Cells left over that would be enough for a panel, and the limits that they do not meet."""

    cells: int
    leaky: int  #: that not every substring takes
    driven: int  #: that the others of some substring could drive too far in the shade
    soldered: int  #: in strings that go in whole or not at all


def hindered(matched: Matched) -> Hindered | None:
    """What keeps the cells left over out of one more panel; None where they are too few."""
    rules, left = matched.rules, set(matched.left)
    cells = np.array([k for k, mark in enumerate(matched.lot.marks) if mark in left], dtype=np.int64)
    if len(cells) - matched.asked.spares < rules.seats.count:
        return None
    joined = sum(mark in left for string in matched.asked.soldered for mark in string)
    driven = rules.pieces.most_cells[cells] < max(rules.seats.driven)
    return Hindered(len(cells), int(rules.pieces.leaky[cells].sum()), int(driven.sum()), joined)


def unmade(matched: Matched) -> Unmade | None:
    """That panel; None where the cells left over, less the spares, fill none."""
    rules, left = matched.rules, set(matched.left)
    marks = matched.lot.marks
    pieces = [k for k, each in enumerate(rules.pieces.members) if all(marks[c] in left for c in each)]
    if int(rules.size[pieces].sum()) - matched.asked.spares < rules.seats.count:
        return None
    order = matched.maker.by_imp(np.array(pieces, dtype=np.int64))
    strings = dealt(rules, order.tolist(), 1)
    if not len(strings):
        return None
    seats = cells_of(rules, strings[:1])
    watts = float(exact_w(matched.asked.network, matched.lot.cells, seats)[0])
    ratings = Steps.of(matched.asked.aim).ratings_w
    return Unmade(tuple(marks[c] for c in seats[0].tolist()), watts, min(ratings, default=None))
