"""Small jobs of sheets against a search of all ways to cut, in plain words and of no programme.

Every cut at every whole unit is tried on every plate, for every set of panels: nothing of the house's own is
used. The fewest sheets are then the fewest sets that one sheet gives.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.cutting.sheets.sheet import Cutter, Panel, Sheet
from panewright.cutting.sheets.sheets import cut_sheets, fill_sheet

WIDTH, HEIGHT = 7, 5
PANELS = st.lists(st.tuples(st.integers(1, 5), st.integers(1, 5), st.booleans()), min_size=1, max_size=4)


def sets_of(number: int) -> Iterator[tuple[int, ...]]:
    for bits in range(1 << number):
        yield tuple(i for i in range(number) if bits >> i & 1)


class Exhausted:
    """Which panels one plate gives, and how few sheets give all."""

    def __init__(self, panels: list[tuple[int, int, bool]], kerf: int = 0) -> None:
        self.panels, self.kerf = panels, kerf
        self.gives = cache(self._gives)

    def _gives(self, width: int, height: int, wanted: tuple[int, ...]) -> bool:
        if not wanted:
            return True
        if width <= 0 or height <= 0:
            return False
        if len(wanted) == 1:
            w, h, turns = self.panels[wanted[0]]
            return (w <= width and h <= height) or (turns and h <= width and w <= height)
        return any(self._by(width, height, a, b) for a, b in self._shares(wanted))

    def _shares(self, wanted: tuple[int, ...]) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
        for share in sets_of(len(wanted)):
            if share and len(share) < len(wanted):
                one = tuple(wanted[i] for i in share)
                yield one, tuple(i for i in wanted if i not in one)

    def _by(self, width: int, height: int, one: tuple[int, ...], other: tuple[int, ...]) -> bool:
        across = any(
            self.gives(at, height, one) and self.gives(width - at - self.kerf, height, other)
            for at in range(1, width)
        )
        return across or any(
            self.gives(width, at, one) and self.gives(width, height - at - self.kerf, other)
            for at in range(1, height)
        )

    def most_area(self) -> int:
        sets = sets_of(len(self.panels))
        areas = (
            sum(self.panels[i][0] * self.panels[i][1] for i in s)
            for s in sets
            if self.gives(WIDTH, HEIGHT, s)
        )
        return max(areas)

    def fewest(self, wanted: tuple[int, ...]) -> int:
        if not wanted:
            return 0
        return 1 + min(
            self.fewest(tuple(i for i in wanted if i not in share))
            for share in (tuple(wanted[i] for i in s) for s in sets_of(len(wanted)))
            if wanted[0] in share and self.gives(WIDTH, HEIGHT, share)
        )


def panels_of(sizes: list[tuple[int, int, bool]]) -> list[Panel]:
    return [Panel(str(i), float(w), float(h), 1, turns) for i, (w, h, turns) in enumerate(sizes)]


@given(PANELS, st.sampled_from((0, 1)))
@settings(deadline=None, max_examples=25)
def test_one_sheet_is_filled_as_full_as_any_cuts_fill_it(sizes, kerf):
    cut, most = fill_sheet(panels_of(sizes), Sheet(float(WIDTH), float(HEIGHT)), Cutter(float(kerf)))
    best = Exhausted(sizes, kerf).most_area()
    assert cut.panels_mm2 == best
    assert most >= best - 1e-6


@given(PANELS, st.sampled_from((0, 1)))
@settings(deadline=None, max_examples=25)
def test_no_cuts_take_fewer_sheets(sizes, kerf):
    plan = cut_sheets(panels_of(sizes), [Sheet(float(WIDTH), float(HEIGHT))], Cutter(float(kerf)))
    fewest = Exhausted(sizes, kerf).fewest(tuple(range(len(sizes))))
    assert (len(plan.sheets), plan.proven) == (fewest, True)
    assert plan.gap == 0
