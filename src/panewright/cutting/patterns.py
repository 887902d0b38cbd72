"""Ways to cut one bar: how many of each piece it gives.

All full ways where they are few; else only those that the linear programme asks for, one at a time
(column generation).

[GG] P. C. Gilmore, R. E. Gomory, A linear programming approach to the cutting-stock problem,
Operations Research 9 (1961) 849, and part II, 11 (1963) 863.
"""

from __future__ import annotations

from collections.abc import Sequence

Pattern = tuple[int, ...]
_TINY = 1e-6  # mm; a sum of lengths this much over still fits


def full_patterns(
    sizes: Sequence[float], most: Sequence[int], room: float, limit: int
) -> tuple[Pattern, ...] | None:
    """All ways to which no further piece could be added; None if there are more than `limit`.

    `sizes` fall from largest to smallest. [mm]
    """
    found: list[Pattern] = []
    steps = [0]

    def extend(index: int, left: float, counts: list[int]) -> bool:
        steps[0] += 1
        if len(found) > limit or steps[0] > 40 * limit:
            return False
        if index == len(sizes):
            if _full(sizes, most, left, counts):
                found.append(tuple(counts))
            return True
        fits = min(most[index], int((left + _TINY) // sizes[index]))
        return all(
            extend(index + 1, left - count * sizes[index], [*counts, count]) for count in range(fits, -1, -1)
        )

    return tuple(found) if extend(0, room, []) and len(found) <= limit else None


def _full(sizes: Sequence[float], most: Sequence[int], left: float, counts: Sequence[int]) -> bool:
    return all(
        count >= cap or size > left + _TINY for size, cap, count in zip(sizes, most, counts, strict=True)
    )


def dearest_pattern(
    sizes: Sequence[float], most: Sequence[int], room: float, worth: Sequence[float]
) -> tuple[float, Pattern]:
    """The way to cut a bar whose pieces are worth most, [GG]: a bounded knapsack by branch and bound."""
    order = sorted(range(len(sizes)), key=lambda i: (-worth[i] / sizes[i], i))
    best: list[tuple[float, Pattern]] = [(0.0, (0,) * len(sizes))]
    counts = [0] * len(sizes)

    def extend(place: int, left: float, value: float) -> None:
        if value > best[0][0] + 1e-12:
            best[0] = (value, tuple(counts))
        if place == len(order):
            return
        index = order[place]
        if worth[index] <= 0 or value + (left + _TINY) * worth[index] / sizes[index] <= best[0][0] + 1e-12:
            return
        for count in range(min(most[index], int((left + _TINY) // sizes[index])), -1, -1):
            counts[index] = count
            extend(place + 1, left - count * sizes[index], value + count * worth[index])
        counts[index] = 0

    extend(0, room, 0.0)
    return best[0]
