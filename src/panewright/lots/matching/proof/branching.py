"""A bound on watts made lower by cases: windows of current halved where the programme parts a string.

The programme may put half a string here and half there. Then the string of that place, in falling order of
currents, works below the current between them or above it. Each case has prices of its own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.proof.nearby import Held, between
from panewright.lots.matching.proof.programme import Mask
from panewright.lots.matching.proof.settling import Found, Growing
from panewright.lots.matching.proof.windows import Half, Halves, Windows

_CASES = 150
_STRINGS = 24  # more are not halved: the bound hardly falls
_WHOLE = 12  #: strings up to which a case is solved for as a whole
_FIRST, _HOPE = 8, 0.3  # after so many it goes on only where at this share of an even pace the bound falls
_WORK = 500  # open places solved for, all cases together, for every piece
_NEAR_WORK = 1000  # the same near cuts alone, where they are quicker
_PART = 0.02  # of a string: less is none
_EVERY = 1e-6
_NEAR = 1e-7  # of the bound: not lowered


@dataclass(slots=True)
class Case:
    """One case: its windows, what is proven of it, and how the programme would fill it."""

    windows: Windows
    found: Found
    halves: tuple[int, float, int, int] | None = None  #: place, current, numbers of the two cases


@dataclass(frozen=True, slots=True)
class Cases:
    """All cases, and those at the ends as they follow from each other."""

    halves: Halves
    ends: tuple[Case, ...]

    @property
    def bound(self) -> float:
        """What no deal exceeds."""
        return max(case.found.bound for case in self.ends)


Better = Callable[[Array, Array], float]  #: deal begun so; how low a bound will do then


def by_cases(root: Found, strings: int, enough: float, better: Better) -> Cases:
    """Halve the case of the highest bound, as long as it is too high and can be halved."""
    cases, shut = [Case(Windows.wide(strings), root)], set[int]()
    work = (_NEAR_WORK if _by_parts(root, strings) else _WORK) * root.prices.size
    while len(cases) < _CASES and work > 0 and strings <= _STRINGS:
        open_to = [k for k, case in enumerate(cases) if case.halves is None]
        worst = max(open_to, key=lambda k: cases[k].found.bound)
        lowered, needed = root.bound - cases[worst].found.bound, root.bound - enough
        if len(cases) > _FIRST and lowered < needed * _HOPE * len(cases) / _CASES:
            break
        if cases[worst].found.bound <= enough or worst in shut:
            break
        split = _split(cases[worst])
        if split is None:
            shut.add(worst)
            continue
        halves = cases[worst].windows.halved(*split)
        cases[worst].halves = (*split, len(cases), len(cases) + 1)
        for windows in halves:
            found, spent = _settled(cases[worst].found, (split[0], windows), enough, work)
            cases.append(Case(windows, found))
            work -= spent
            enough = max(enough, better(found.current_a, found.strings))
    return _told(cases)


def _settled(parent: Found, half: tuple[int, Windows], enough: float, work: int) -> tuple[Found, int]:
    """Prices for a case, begun with those of the case it comes from.

    Where strings are many, near its cut alone; as a whole where that says nothing new.
    """
    if not _by_parts(parent, half[1].low_a.size):
        return _whole(parent, half[1], enough, work)
    found, spent = _near_by(parent, half, enough, work)
    if found.bound < parent.bound * (1 - _NEAR):
        return found, spent
    found, more = _whole(parent, half[1], enough, work - spent)
    return found, spent + more


def _whole(parent: Found, windows: Windows, enough: float, work: int) -> tuple[Found, int]:
    """With all pieces and stretches."""
    open_to = {row: mask.copy() for row, mask in parent.open_to.items()}
    growing = Growing(parent.shop, windows.low_a.size, open_to, enough, max(work, 1), windows)
    growing.proven(parent.prices)
    done = growing.found()
    if done is None and growing.work > 0:  # pieces that are open do not fill the windows
        growing.open_to = _opened(parent, windows)
        done = growing.found()
    if done is None:
        table, best = parent.shop.ceilings, growing.best
        if best is None:
            raise RuntimeError("a case has the prices of the case it comes from")
        none = np.zeros(0)
        return Found(parent.shop, best[1], best[0], none, none, {}), work - growing.work + table.low_a.size
    return done[1], work - growing.work


def _by_parts(found: Found, strings: int) -> bool:
    """Whether so many strings of loose pieces are settled near each cut alone."""
    return strings > _WHOLE and int(found.shop.room.size.max()) == 1 and bool(found.current_a.size)


def _near_by(parent: Found, half: tuple[int, Windows], enough: float, work: int) -> tuple[Found, int]:
    """The same, with what is far from the cut held."""
    place, windows = half
    held = Held.about(parent, place)
    begin = held.lines(parent, windows)
    growing = Growing(
        parent.shop, windows.low_a.size, begin, enough, max(work, 1), windows, solve=held.solved
    )
    growing.proven(parent.prices)
    done = growing.found()
    spent = work - growing.work + parent.shop.ceilings.low_a.size
    if done is not None:
        return between(done[1], parent, place), spent
    if growing.best is None:
        raise RuntimeError("a case has the prices of the case it comes from")
    return replace(parent, prices=growing.best[1], bound=growing.best[0]), spent


def _opened(parent: Found, windows: Windows) -> dict[int, Mask]:
    """Rows of the case it comes from; of every window the one that pays most, open to all pieces."""
    shop, open_to = parent.shop, {row: mask.copy() for row, mask in parent.open_to.items()}
    table, half = shop.ceilings, shop.ceilings.low_a.size
    worth, _ = shop.sets(np.ones(2 * half), parent.prices)
    for low, high in {*zip(windows.low_a.tolist(), windows.high_a.tolist(), strict=True)}:
        inside = np.tile((table.low_a < high) & (table.high_a > low), 2)
        open_to[int(np.where(inside, worth, -np.inf).argmax())] = ~shop.room.shut
    return open_to


def _split(case: Case) -> tuple[int, float] | None:
    """The place and current at which a string is parted evenly, and between currents far apart."""
    found, table = case.found, case.found.shop.ceilings
    if not found.current_a.size:
        return None
    order = np.argsort(-found.current_a, kind="stable")
    above, at = np.cumsum(found.strings[order])[:-1], found.current_a[order]
    part = above - np.floor(above + _EVERY)
    even = np.minimum(part, 1 - part)
    for k in np.argsort(-even * (at[:-1] - at[1:]), kind="stable").tolist():
        edges = table.low_a[(table.low_a > at[k + 1]) & (table.low_a < at[k])]
        if even[k] >= _PART and edges.size:
            nearest = np.abs(edges - (at[k] + at[k + 1]) / 2).argmin()
            return int(np.floor(above[k] + _EVERY)), float(edges[nearest])
    return None


def _told(cases: list[Case]) -> Cases:
    ends = [k for k, case in enumerate(cases) if case.halves is None]
    number = {k: place for place, k in enumerate(ends)}

    def halves(k: int) -> Halves:
        split = cases[k].halves
        return number[k] if split is None else Half(split[0], split[1], halves(split[2]), halves(split[3]))

    return Cases(halves(0), tuple(cases[k] for k in ends))
