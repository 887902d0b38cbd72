"""How many pieces of each size fill a string: every way, substring by substring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Fill = tuple[int, ...]  #: pieces of each size

_MOST = 300  # ways; more are not listed


def fills_of(
    there: NDArray[np.int64], sizes: NDArray[np.int64], strings: Sequence[tuple[int, ...]]
) -> tuple[Fill, ...]:
    """All fills of these strings by the pieces there are; none where there are too many to list.

    `there` has the size of every piece, `sizes` those that are counted, `strings` cells of substrings.
    """
    most = tuple(int((there == size).sum()) for size in sizes)
    found: set[Fill] = set()
    for string in sorted(set(strings)):
        ways = _string(tuple(sizes.tolist()), most, string)
        if ways is None or len(found | ways) > _MOST:
            return ()
        found |= ways
    return tuple(sorted(found))


def _string(sizes: Fill, most: Fill, string: tuple[int, ...]) -> set[Fill] | None:
    """Fills of one string: a substring by pieces within it, or a run of them by one that reaches over."""
    ways: list[set[Fill]] = [{(0,) * len(sizes)}, *(set() for _ in string)]
    for k, cells in enumerate(string):
        here = list(_within(sizes, most, cells))
        for done in ways[k]:
            ways[k + 1] |= {each for more in here if (each := _sum(done, more, most)) is not None}
            for s, size in enumerate(sizes):
                end = _end(string, k, size)
                one = tuple(int(s == other) for other in range(len(sizes)))
                if end > k + 1 and (each := _sum(done, one, most)) is not None:
                    ways[end].add(each)
        if max(map(len, ways)) > 4 * _MOST:
            return None
    return ways[-1]


def _sum(one: Fill, other: Fill, most: Fill) -> Fill | None:
    """Both together, if there are pieces enough."""
    both = tuple(a + b for a, b in zip(one, other, strict=True))
    return both if all(n <= m for n, m in zip(both, most, strict=True)) else None


def _end(string: tuple[int, ...], first: int, size: int) -> int:
    """Where a piece ends that begins with a substring and fills whole ones; 0 where it does not."""
    total = 0
    for k in range(first, len(string)):
        total += string[k]
        if total >= size:
            return k + 1 if total == size else 0
    return 0


def _within(sizes: Fill, most: Fill, cells: int) -> Iterator[Fill]:
    """Every way to fill so many cells."""
    if not sizes:
        if not cells:
            yield ()
        return
    for count in range(min(most[0], cells // sizes[0]) + 1):
        for rest in _within(sizes[1:], most[1:], cells - count * sizes[0]):
            yield (count, *rest)
