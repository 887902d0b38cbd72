"""Given bars filled with given pieces: bar by bar as full as they will go, tried in many orders.

Sums of lengths are bits of one long whole number, so that all ways to fill a bar are tried at once. What is
left over when the last bar is filled decides; chance, from a seed of its own, varies which pieces go first.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from random import Random

from panewright.cutting.bars.column import Pattern

_GRID = 65536  #: cells of the longest bar, at most; finer lengths are rounded up
_OFTEN = 0.85  #: how often the larger of two pieces is taken
_ADDING = 400  #: what it takes to add one piece to all sums, beside each 64 bits of them
_STEPS = 1_000_000  #: are one of work
LONGEST = 40  #: work of one try, at most, where less is asked for


def filled(
    sizes: Sequence[int], counts: Sequence[int], rooms: Sequence[int], work: int
) -> list[Pattern] | None:
    """What each of the bars gives, so that together they give all pieces; None where no try came so far.

    `work`: millions of steps, of which a machine does some hundreds in a second; once is tried at least, but
    not where that alone takes far more: of thousands of pieces the most are cut by other means first.

    >>> filled((60, 45, 30), (1, 2, 2), (100, 140), 1)
    [(1, 0, 1), (0, 2, 1)]
    """
    pieces = [place for place, count in enumerate(counts) for _ in range(count)]
    spare = sum(rooms) - sum(sizes[place] for place in pieces)
    if spare < 0 or one_try(sizes, counts, rooms) > max(work, LONGEST):
        return None
    chance = Random(len(pieces))
    cells, whole = cells_of(sizes, rooms)
    order = sorted(range(len(rooms)), key=lambda bar: rooms[bar])
    first, steps = True, work * _STEPS
    while first or steps > 0:
        bars = [(bar, whole[bar]) for bar in order]
        found, took = _tried(cells, pieces, bars, None if first else chance)
        if found:
            return [pattern_of(found[bar], len(sizes)) for bar in range(len(rooms))]
        first, steps, order = False, steps - took, _shuffled(order, rooms, chance)
    return None


def one_try(sizes: Sequence[int], counts: Sequence[int], rooms: Sequence[int]) -> float:
    """What filling these bars once takes, in work."""
    a_piece = _ADDING + max(rooms) // _grid(sizes, rooms) // 64
    return len(rooms) * sum(counts) / 2 * a_piece / _STEPS


def cells_of(sizes: Sequence[int], rooms: Sequence[int]) -> tuple[list[int], list[int]]:
    """Lengths of pieces and rooms of bars in cells; where these are coarse, pieces are rounded up."""
    grid = _grid(sizes, rooms)
    return [-(-size // grid) for size in sizes], [room // grid for room in rooms]


def _grid(sizes: Sequence[int], rooms: Sequence[int]) -> int:
    step = math.gcd(*sizes)
    return step if max(rooms) // step <= _GRID else -(-max(rooms) // _GRID)


def _shuffled(order: list[int], rooms: Sequence[int], chance: Random) -> list[int]:
    """Short bars mostly first: few pieces fit in them."""
    longest = max(rooms)
    return sorted(order, key=lambda bar: rooms[bar] + chance.random() * longest / 4)


def _tried(
    cells: Sequence[int], pieces: list[int], bars: Sequence[tuple[int, int]], chance: Random | None
) -> tuple[dict[int, list[int]] | None, int]:
    """One try and its steps; pieces fall in length."""
    left, found, steps = list(pieces), {}, 0
    space = sum(room for _, room in bars)
    total = sum(cells[place] for place in left)
    for bar, room in bars:
        steps += len(left) * (_ADDING + room // 64)
        taken = _fullest(cells, left, room, chance)
        found[bar] = [left[index] for index in taken]
        for index in reversed(taken):
            total -= cells[left.pop(index)]
        space -= room
        if total > space:
            return None, steps
    return (None if left else found), steps


def fullest_of(cells: Sequence[int], left: Sequence[int], room: int, chance: Random | None) -> list[int]:
    """Pieces of a list that fill a bar best."""
    return [left[index] for index in _fullest(cells, left, room, chance)]


def _fullest(cells: Sequence[int], left: Sequence[int], room: int, chance: Random | None) -> list[int]:
    """Places in the list of what fills the bar best, with the longest piece that fits; large ones rather."""
    first = next((index for index, place in enumerate(left) if cells[place] <= room), None)
    if first is None:
        return []
    room -= cells[left[first]]
    mask = (1 << (room + 1)) - 1
    sums = [1]
    rest = range(len(left) - 1, first, -1)  # the shortest first
    for index in rest:
        sums.append((sums[-1] | sums[-1] << cells[left[index]]) & mask)
    at = sums[-1].bit_length() - 1
    taken = [first]
    for number in range(len(rest) - 1, -1, -1):  # the longest first
        index = rest[number]
        size = cells[left[index]]
        if at < size or not sums[number] >> (at - size) & 1:
            continue
        if chance and sums[number] >> at & 1 and chance.random() > _OFTEN:
            continue
        taken.append(index)
        at -= size
    return sorted(taken)


def pattern_of(places: Sequence[int], sizes: int) -> Pattern:
    """How many of each size these places are."""
    counted = Counter(places)
    return tuple(counted[place] for place in range(sizes))
