"""A task of which some bars are cut already: what is left, and with how many bars of each kind."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from panewright.cutting.bars.column import Column, Pattern
from panewright.cutting.bars.master import Master, Rows
from panewright.cutting.bars.wanted import TINY, Wanted, column_cost


@dataclass(slots=True)
class PartCut:
    """What is left to cut, and what has been cut."""

    wanted: Wanted
    left: list[int]
    have: list[int | None]
    cap: float | None
    cut: Counter[Column] = field(default_factory=Counter)
    cost: float = 0.0

    def take(self, column: Column, again: bool) -> bool:
        """Cut one bar so; not `again` where it would no longer be as full as it was."""
        kind, pattern = column
        served, have = _served(pattern, self.left), self.have[kind]
        if have == 0 or not any(served) or (again and sum(served) < sum(pattern)):
            return False
        self.left = [wanted - given for wanted, given in zip(self.left, served, strict=True)]
        self.have[kind] = None if have is None else have - 1
        self.cost += column_cost(self.wanted.sizes, self.wanted.stocks, (kind, served))
        if self.cap is not None:
            self.cap -= column_cost(self.wanted.sizes, self.wanted.second, (kind, served))
        self.cut[kind, served] += 1
        return True

    @property
    def rows(self) -> Rows:
        """What the rest must meet."""
        return Rows(tuple(self.left), tuple(self.have), self.cap)


def begun(wanted: Wanted, rows: Rows) -> PartCut:
    """Nothing is cut yet."""
    return PartCut(wanted, list(rows.counts), list(rows.have), rows.cap)


def cut_in_whole(master: Master, wanted: Wanted, rows: Rows, back: int) -> PartCut:
    """Bars that the last solution takes whole, less so many of each pattern; the rest is left."""
    part = begun(wanted, rows)
    for costed, value in zip(master.columns, master.values(), strict=True):
        for _ in range(math.floor(value + TINY) - back):
            if not part.take(costed.column, again=True):
                break
    return part


def _served(pattern: Pattern, left: Sequence[int]) -> Pattern:
    """What a bar so cut gives of what is left: a place for a long piece may serve a shorter one."""
    have, served, spare = list(left), [0] * len(left), 0
    for place, count in enumerate(pattern):
        spare += count
        taken = min(spare, have[place])
        served[place], spare = taken, spare - taken
    return tuple(served)
