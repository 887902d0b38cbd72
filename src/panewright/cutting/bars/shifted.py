"""Given bars filled with given pieces, by shifting: a few bars are emptied and filled anew, again and again.

What found no place lies aside. A few bars that have room to spare, and some others, are emptied onto it and
filled one by one as full as they will go. That stands if less is left aside than before; where as much is
left, if the room to spare now lies more in one bar, or now and then by chance. So a rest of one piece wanders
until it has a place. Chance is of a fixed seed, and turns are counted: the same pieces give the same plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from panewright.cutting.bars.column import Pattern
from panewright.cutting.bars.filled import cells_of, fullest_of, pattern_of

_BARS = (2, 3, 3, 4, 4, 5)  #: emptied at once, by chance
_ASIDE = 4  #: pieces taken from those aside at once, at most
_EVEN = 0.05  #: how often a filling that is no better stands


@dataclass(slots=True)
class _Filling:
    """Pieces by their places in the list of sizes, in each bar and aside; lengths in cells."""

    cells: Sequence[int]
    rooms: Sequence[int]
    bars: list[list[int]]
    spare: list[int]  #: what is left of each bar
    aside: list[int]

    def put(self, bar: int, held: list[int]) -> None:
        """What a bar holds from now on."""
        self.bars[bar] = held
        self.spare[bar] = self.rooms[bar] - self.length(held)

    def length(self, held: Sequence[int]) -> int:
        """Of pieces."""
        return sum(self.cells[place] for place in held)


def shifted(
    sizes: Sequence[int],
    counts: Sequence[int],
    rooms: Sequence[int],
    turns: int,
    begun: Sequence[Pattern] = (),
) -> list[Pattern] | None:
    """What each of the bars gives, so that together they give all pieces; None where no turn came so far.

    `begun`: what bars hold at first, each no more than it has room for; the others are empty.

    >>> shifted((60, 45, 30), (1, 2, 2), (100, 140), 50)
    [(1, 0, 1), (0, 2, 1)]
    """
    if sum(rooms) < sum(size * count for size, count in zip(sizes, counts, strict=True)):
        return None
    chance = Random(sum(counts))
    filling = _started(sizes, counts, rooms, begun)
    for _ in range(turns):
        if not filling.aside:
            break
        _shift(filling, chance)
    return None if filling.aside else [pattern_of(held, len(sizes)) for held in filling.bars]


def _started(
    sizes: Sequence[int], counts: Sequence[int], rooms: Sequence[int], begun: Sequence[Pattern]
) -> _Filling:
    """What is begun, and the short bars first as full as they will go."""
    cells, whole = cells_of(sizes, rooms)
    left = list(counts)
    filling = _Filling(cells, whole, [[] for _ in rooms], list(whole), [])
    for bar, pattern in enumerate(begun):
        held = [place for place, count in enumerate(pattern) for _ in range(count)]
        if filling.length(held) <= whole[bar]:  # on a coarse grid a full bar may not fit
            filling.put(bar, held)
            left = [have - given for have, given in zip(left, pattern, strict=True)]
    filling.aside = [place for place, count in enumerate(left) for _ in range(count)]
    for bar in sorted(range(len(rooms)), key=lambda bar: rooms[bar]):
        taken = fullest_of(cells, filling.aside, filling.spare[bar], None)
        filling.put(bar, filling.bars[bar] + taken)
        filling.aside = _without(filling.aside, taken)
    return filling


def _shift(filling: _Filling, chance: Random) -> None:
    """A few bars emptied and filled anew, some of the pieces aside among them."""
    bars = _picked(filling, chance)
    some = filling.aside if len(filling.aside) <= _ASIDE else chance.sample(filling.aside, _ASIDE)
    left = sorted([*some, *(place for bar in bars for place in filling.bars[bar])])
    held = {}
    for bar in bars:
        held[bar] = fullest_of(filling.cells, left, filling.rooms[bar], chance)
        left = _without(left, held[bar])
    worse = filling.length(left) - filling.length(some)
    if worse < 0 or (worse == 0 and (_gathers(filling, held) or chance.random() < _EVEN)):
        filling.aside = sorted([*_without(filling.aside, some), *left])
        for bar, pieces in held.items():
            filling.put(bar, pieces)


def _picked(filling: _Filling, chance: Random) -> list[int]:
    """One or two bars with room to spare and some others, mostly the short ones first."""
    every = range(len(filling.bars))
    loose = [bar for bar in every if filling.spare[bar]]
    picked = set(chance.sample(loose, min(len(loose), chance.choice((1, 2)))))
    number = min(chance.choice(_BARS), len(filling.bars))
    while len(picked) < number:
        picked.add(chance.choice(every))
    bars = sorted(picked)
    chance.shuffle(bars)
    return sorted(bars, key=lambda bar: filling.rooms[bar]) if chance.random() < 0.5 else bars


def _gathers(filling: _Filling, held: dict[int, list[int]]) -> bool:
    """Whether the room to spare lies at least as much in one bar as before."""
    now = sum((filling.rooms[bar] - filling.length(pieces)) ** 2 for bar, pieces in held.items())
    return now >= sum(filling.spare[bar] ** 2 for bar in held)


def _without(places: Sequence[int], taken: Sequence[int]) -> list[int]:
    """Places in their order, less some of them."""
    left = list(places)
    for place in taken:
        left.remove(place)
    return left
