"""How many pieces of each size fill a string: every way, substring by substring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Fill = tuple[int, ...]  #: pieces of each size

_MOST = 300  # ways; more are not listed
_WORK, _ROUNDED = 2.0, 1e-6  # in the solver's own measure; what its bound may be rounded by


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


def most_strings(fills: Sequence[Fill], there: Sequence[int]) -> int:
    """How many strings can be filled at most by so many pieces of each size, each in one of these ways."""
    return _shared(fills, there, None)[1]


def shared_out(fills: Sequence[Fill], there: Sequence[int], strings: int) -> list[Fill]:
    """Ways to fill so many strings by these pieces, none if there are none, or none is found."""
    times = _shared(fills, there, strings)[0]
    return [fill for fill, n in zip(fills, times, strict=True) for _ in range(n)]


def _shared(fills: Sequence[Fill], there: Sequence[int], strings: int | None) -> tuple[list[int], int]:
    """How often each way is taken, and how many strings there are at most."""
    from ortools.sat.python import cp_model

    model, most = cp_model.CpModel(), sum(there)
    times = [model.new_int_var(0, most, "") for _ in fills]
    for s, pieces in enumerate(there):
        model.add(sum(fill[s] * n for fill, n in zip(fills, times, strict=True)) <= pieces)
    if strings is not None:
        model.add(sum(times) == strings)
    model.maximize(sum(times))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers, solver.parameters.random_seed = 1, 0
    solver.parameters.max_deterministic_time = _WORK
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return [0] * len(fills), most
    return [int(solver.value(n)) for n in times], min(most, int(solver.best_objective_bound + _ROUNDED))


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
