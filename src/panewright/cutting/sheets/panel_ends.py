"""Where panels laid side by side end within a plate, and how large a plate they fill.

All ends along a side depend on its length only in how far they are counted, and on the other side only in
which panels fit: they are found once for each set of panels that fit, up to the longest sheet.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

ACROSS, ALONG = 1, 2  #: a cut across parts the width, one along the height


@dataclass(frozen=True, slots=True)
class Kind:
    """Panels of one size, in whole units."""

    width: int
    height: int
    quantity: int
    turns: bool

    @property
    def ways(self) -> tuple[tuple[int, int], ...]:
        """The sizes it may lie in."""
        turned = self.turns and self.width != self.height
        return ((self.width, self.height), (self.height, self.width))[: 1 + turned]


@dataclass(frozen=True, slots=True)
class Rules:
    """What a cut takes and leaves, in whole units."""

    kerf: int
    breakout: int
    stages: int
    single: bool  #: cuts only where a single panel ends
    keep: tuple[int, int] | None  #: long and short side of a rest worth keeping
    rounded: bool = False  #: plates are taken for the largest within them that panels fill


class Filled:
    """Where panels end in plates whose sides are no longer than `longest`, each asked once."""

    def __init__(self, kinds: Sequence[Kind], rules: Rules, longest: int) -> None:
        self.kinds, self.rules, self._most = kinds, rules, longest
        self._lying = {axis: sorted(_lying(kinds, axis)) for axis in (ACROSS, ALONG)}
        self._ends: dict[tuple[int, int, bool], list[int]] = {}
        self._sides: dict[tuple[int, int], tuple[int, int]] = {}

    def ends(self, length: int, beside: int, axis: int) -> list[int]:
        """Where panels that fit in the plate can end before its edge: one alone, or some side by side."""
        found = self._found(beside, axis, single=self.rules.single)
        return found[: bisect_left(found, length)]

    def sides(self, width: int, height: int) -> tuple[int, int]:
        """Of the largest plate within this one that panels fill; 0 where none fits."""
        if min(width, height) <= 0:
            return 0, 0
        if (width, height) not in self._sides:
            self._sides[width, height] = self._shrunk(width, height)
        return self._sides[width, height]

    def _shrunk(self, width: int, height: int) -> tuple[int, int]:
        while True:
            narrow = self._longest(width, height, ACROSS)
            low = self._longest(height, narrow, ALONG) if narrow else 0
            if not low or (narrow, low) == (width, height):
                return narrow if low else 0, low
            width, height = narrow, low

    def _longest(self, length: int, beside: int, axis: int) -> int:
        """The last end from which the rest of the length can be cut off."""
        found = self._found(beside, axis, single=False)
        at = bisect_right(found, length) - 1
        while at >= 0 and not comes_off(length - found[at], self.rules):
            at -= 1
        return found[at] if at >= 0 else 0

    def _found(self, beside: int, axis: int, *, single: bool) -> list[int]:
        """All ends along an axis of the panels that fit beside it, in order."""
        fitting = bisect_right(self._lying[axis], beside, key=lambda lying: lying[0])
        key = axis, fitting, single
        if key not in self._ends:
            sizes = _sizes(self._lying[axis][:fitting])
            sums = sizes if single else _sums(sizes, self._most, self.rules.kerf)
            self._ends[key] = sorted(sums)
        return self._ends[key]


def leaves_well(rest: int, rules: Rules) -> bool:
    """The strip left is wide enough to break off, or the saw takes all of it."""
    left = rest - rules.kerf
    return rest > 0 and (left >= max(rules.breakout, 1) or (left <= 0 < rules.kerf))


def comes_off(over: int, rules: Rules) -> bool:
    """Whether what a part is longer can be cut off, or there is none."""
    return over == 0 or leaves_well(over, rules)


def _lying(kinds: Sequence[Kind], axis: int) -> Iterator[tuple[int, int, int]]:
    """What each panel takes beside and along the axis, and how many there are."""
    for kind in kinds:
        for way in kind.ways:
            along, across = way if axis == ACROSS else way[::-1]
            yield across, along, kind.quantity


def _sizes(lying: Sequence[tuple[int, int, int]]) -> dict[int, int]:
    """Sides of panels, and how many panels may show each."""
    sizes: dict[int, int] = {}
    for _, along, quantity in lying:
        sizes[along] = sizes.get(along, 0) + quantity
    return sizes


def _sums(sizes: dict[int, int], most: int, kerf: int) -> set[int]:
    """The ends of panels side by side within the length, a saw cut between each two."""
    sums = {0}
    for size, quantity in sorted(sizes.items()):
        step, reached = size + kerf, sums
        for _ in range(min(quantity, most // step + 1)):
            reached = {end + step for end in reached if end + size <= most} - sums
            if not reached:
                break
            sums |= reached
    return {end - kerf for end in sums if end}
