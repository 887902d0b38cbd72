"""Where plywood of a crate is joined: a side of it that is longer than a sheet is sawn from two or more.

Sheets meet over a batten, half of it under each: over an upright of a side, under a batten of the lid. The
floor has none there, so one lies across between the sills. An end gets an upright more. What is larger than a
sheet both ways is parted evenly in height too, over battens of its own (`crate/level.py`). Loose boards are
joined by a strip of the same plywood, glued on where no foam lies: a screw would come through both (common
practice, no source).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from panewright.crate.timber import Board

STRIP_MM = 100.0  #: width of a strip over a joint of loose boards; common practice
_HAIR_MM = 1e-6
Sides = tuple[float, float]
Rule = Callable[[float], float]  #: down to a step of a rule


@dataclass(frozen=True, slots=True)
class Cuts:
    """Where a board is sawn apart, from one end along it and from one side across it. [mm]"""

    along_mm: tuple[float, ...] = ()
    across_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Seams:
    """Where the sheets of each meet, a side's and an end's across it from its foot; none where one does."""

    side: Cuts = Cuts()
    lid: Cuts = Cuts()  #: and the floor's
    end: Cuts = Cuts()


def reach_mm(wide_mm: float, sheet: Sides) -> float:
    """The longest piece so wide that a sheet gives; 0 where it gives none. [mm]

    >>> [reach_mm(wide, (2500.0, 1250.0)) for wide in (500.0, 1300.0, 2600.0)]
    [2500.0, 1250.0, 0.0]
    """
    long, short = sheet
    if wide_mm <= short + _HAIR_MM:
        return long
    return short if wide_mm <= long + _HAIR_MM else 0.0


def seams(size: Sides, places: Sequence[float], sheet: Sides | None) -> tuple[float, ...]:
    """Of the places, the farthest that each sheet still reaches, along the first size. [mm]

    None where one sheet does, and where none of them could: then the board stays one, larger than a sheet.

    >>> seams((2633.0, 497.0), (658.0, 1316.0, 1975.0), (2500.0, 1250.0))
    (1975.0,)
    """
    long, reach = size[0], reach_mm(size[1], sheet) if sheet else 0.0
    found: list[float] = []
    while reach and long - (found[-1] if found else 0.0) > reach:
        last = found[-1] if found else 0.0
        place = max((each for each in places if last < each <= last + reach), default=None)
        if place is None:
            return ()
        found.append(place)
    return tuple(found)


def battens_mm(long_mm: float, wide_mm: float, count: int, down: Rule) -> tuple[float, ...]:
    """Middles of battens between the first and the last, evenly along a side. [mm]"""
    apart = (long_mm - wide_mm) / (count - 1)
    return tuple(down(wide_mm / 2 + number * apart) for number in range(1, count - 1))


def evenly_mm(size: Sides, sheet: Sides | None, down: Rule) -> tuple[float, ...]:
    """Places that part a length evenly, as few as sheets allow. [mm]"""
    long, reach = size[0], reach_mm(size[1], sheet) if sheet else 0.0
    return parted(long, int(-(-long // reach)) if reach else 1, down)


def cuts(size: Sides, sheet: Sides | None, down: Rule, places: Sequence[float] | None = None) -> Cuts:
    """Along at the places, or evenly where there are none to keep to; across evenly, only where it must be.

    Of several ways across the one of fewest pieces. None where no way gives pieces that a sheet does: the
    places lie further apart than it is long. Then the board stays one, larger than a sheet.

    >>> cuts((1648.0, 1439.0), (1200.0, 600.0), math.floor, (561.0, 1086.0))
    Cuts(along_mm=(561.0, 1086.0), across_mm=(719,))
    >>> cuts((723.0, 1439.0), (1200.0, 600.0), math.floor)
    Cuts(along_mm=(), across_mm=(479, 959))
    """
    if sheet is None:
        return Cuts()
    whole = _in_bands(size, 1, sheet, down, places)
    if whole is not None:
        return whole
    most = math.ceil(size[1] / min(sheet)) + 1
    found = [_in_bands(size, bands, sheet, down, places) for bands in range(2, most + 1)]
    served = [each for each in found if each is not None]
    return min(served, key=lambda each: (len(each.along_mm) + 1) * (len(each.across_mm) + 1), default=Cuts())


def _in_bands(
    size: Sides, bands: int, sheet: Sides, down: Rule, places: Sequence[float] | None
) -> Cuts | None:
    """In so many bands of even height; None where a piece of them is larger than a sheet."""
    long, wide = size
    across = parted(wide, bands, down)
    band = _widest((0.0, *across, wide))
    along = evenly_mm((long, band), sheet, down) if places is None else seams((long, band), places, sheet)
    fits = _widest((0.0, *along, long)) <= reach_mm(band, sheet) + _HAIR_MM
    return Cuts(along, across) if fits else None


def parted(long_mm: float, parts: int, down: Rule) -> tuple[float, ...]:
    """Places that part a length into so many even parts. [mm]"""
    return tuple(down(number * long_mm / parts) for number in range(1, parts))


def _widest(places_mm: Sequence[float]) -> float:
    return max(later - sooner for sooner, later in pairwise(places_mm))


def pieces(board: Board, at: Cuts) -> Iterator[Board]:
    """A board sawn at these places, band by band; itself where there are none."""
    if at == Cuts():
        yield board
        return
    bands, parts = (0.0, *at.across_mm, board.wide_mm), (0.0, *at.along_mm, board.long_mm)
    sides = [(end - start, top - low) for low, top in pairwise(bands) for start, end in pairwise(parts)]
    for number, (long, wide) in enumerate(sides, start=1):
        yield replace(board, name=f"{board.name}, part {number}", long_mm=long, wide_mm=wide)


def loose(board: Board, sheet: Sides | None, down: Rule) -> Iterator[Board]:
    """A loose board, with strips over its joints where it is larger than a sheet."""
    at = cuts((board.long_mm, board.wide_mm), sheet, down)
    yield from pieces(board, at)
    if sheet is not None and at.along_mm:
        yield from _strips(board, at, max(sheet), down)
    if at.across_mm:
        yield from _level_strips(board, at)


def _strips(board: Board, at: Cuts, longest_mm: float, down: Rule) -> Iterator[Board]:
    """Across the board, whole where a sheet is so long; else sawn where none of the board's joints lies.

    One part more than there are bands: such joints never meet.
    """
    count = board.count * len(at.along_mm)
    strip = _strip(f"strip over a joint of a {board.name}", board.wide_mm, board, count)
    parts = 1 if board.wide_mm <= longest_mm + _HAIR_MM else len(at.across_mm) + 2
    yield from pieces(strip, Cuts(parted(board.wide_mm, parts, down)))


def _level_strips(board: Board, at: Cuts) -> Iterator[Board]:
    """Along the board, between the strips across it."""
    name, count = f"strip over a long joint of a {board.name}", board.count * len(at.across_mm)
    edges = (0.0, *at.along_mm, board.long_mm)
    for number, (start, end) in enumerate(pairwise(edges), start=1):
        covered = STRIP_MM / 2 * ((start > 0) + (end < board.long_mm))
        part = f", part {number}" if at.along_mm else ""
        yield _strip(f"{name}{part}", end - start - covered, board, count)


def _strip(name: str, long_mm: float, board: Board, count: int) -> Board:
    return Board(name, "plywood", long_mm, STRIP_MM, board.thick_mm, count)
