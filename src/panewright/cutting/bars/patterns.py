"""Ways to cut one bar: how many of each piece it gives.

A linear programme asks for the ways whose pieces are worth most to it (column generation, [GG]). All lengths
here are whole numbers of a small unit, so that a sum fits or does not fit, without doubt.

[GG] P. C. Gilmore, R. E. Gomory, A linear programming approach to the cutting-stock problem,
Operations Research 9 (1961) 849, and part II, 11 (1963) 863.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from panewright.cutting.bars.column import Pattern

_SAME = 1e-12
_NODES = 1000  # of the quick search


@dataclass(slots=True)
class _Search:
    """Depth first over pieces by their worth for a length; `best` so far, and how many steps were taken."""

    sizes: list[int]
    most: list[int]
    worth: list[float]
    limit: int
    best: float = 0.0
    found: list[int] = field(default_factory=list)
    steps: int = 0

    def extend(self, place: int, left: int, value: float, counts: list[int]) -> None:
        """Everything that the rest of the bar could give; deep only by sizes that it does give."""
        while True:
            self.steps += 1
            if value > self.best + _SAME:
                self.best, self.found = value, counts.copy()
            while place < len(self.sizes) and self.sizes[place] > left:
                place += 1
            if place == len(self.sizes) or self.steps > self.limit:
                return
            if value + left * self.worth[place] / self.sizes[place] <= self.best + _SAME:
                return
            size, worth = self.sizes[place], self.worth[place]
            for count in range(min(self.most[place], left // size), 0, -1):
                counts[place] = count
                self.extend(place + 1, left - count * size, value + count * worth, counts)
            counts[place] = 0
            place += 1


def fullest(sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float]) -> Pattern:
    """A way to cut a bar whose pieces are worth much: the best that a short search finds.

    >>> fullest((60, 45, 30), (1, 2, 3), 100, (60.0, 45.0, 30.0))
    (1, 0, 1)
    """
    order = sorted(
        (i for i in range(len(sizes)) if worth[i] > _SAME and sizes[i] <= room),
        key=lambda i: (-worth[i] / sizes[i], i),
    )
    if not order:
        return (0,) * len(sizes)
    search = _Search([sizes[i] for i in order], [most[i] for i in order], [worth[i] for i in order], _NODES)
    search.extend(0, room, 0.0, [0] * len(order))
    pattern = [0] * len(sizes)
    for place, count in zip(order, search.found, strict=False):
        pattern[place] = count
    return tuple(pattern)


def worthy_patterns(
    sizes: Sequence[int], most: Sequence[int], room: int, worth: Sequence[float], least: float, limit: int
) -> list[Pattern] | None:
    """All full ways whose pieces are worth at least `least`; None if there are more than `limit`.

    A way is full where no further piece could be added.
    """
    from panewright.cutting.bars.table import Pieces, Table  # a quick search needs no table

    order = sorted(range(len(sizes)), key=lambda i: (-sizes[i], i))
    within = Table(Pieces(tuple(sizes), tuple(most), tuple(worth)), room, up=False).most
    found: list[Pattern] = []
    counts = [0] * len(sizes)
    steps = 0

    def extend(place: int, left: int, value: float) -> bool:
        """Whether the limits hold; deep only by sizes that the bar gives."""
        nonlocal steps
        while True:
            steps += 1
            if len(found) > limit or steps > 100 * limit:
                return False
            if place == len(order):
                if value >= least - 1e-9 and _full(sizes, most, left, counts):
                    found.append(tuple(counts))
                return True
            if value + within(left) < least - 1e-9:
                return True
            index = order[place]
            for count in range(min(most[index], left // sizes[index]), 0, -1):
                counts[index] = count
                if not extend(place + 1, left - count * sizes[index], value + count * worth[index]):
                    return False
            counts[index] = 0
            place += 1

    return found if extend(0, room, 0.0) else None


def _full(sizes: Sequence[int], most: Sequence[int], left: int, counts: Sequence[int]) -> bool:
    return all(count >= cap or size > left for size, cap, count in zip(sizes, most, counts, strict=True))
