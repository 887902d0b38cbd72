"""Where plywood of a crate is joined: a side of it that is longer than a sheet is sawn from two or more.

Sheets meet over a batten, half of it under each: over an upright of a side, under a batten of the lid. The
floor has none there, so one lies across between the sills. An end gets an upright more. Loose boards are
joined by a strip of the same plywood, glued and screwed where no foam lies (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from panewright.crate.timber import Board

STRIP_MM = 100.0  #: width of a strip over a joint of loose boards; common practice
Sides = tuple[float, float]
Rule = Callable[[float], float]  #: down to a step of a rule


@dataclass(frozen=True, slots=True)
class Seams:
    """From one end of each, where its sheets meet; none where one sheet does. [mm]"""

    side_mm: tuple[float, ...] = ()
    lid_mm: tuple[float, ...] = ()  #: and the floor's
    end_mm: tuple[float, ...] = ()


def reach_mm(wide_mm: float, sheet: Sides) -> float:
    """The longest piece so wide that a sheet gives; 0 where it gives none. [mm]

    >>> [reach_mm(wide, (2500.0, 1250.0)) for wide in (500.0, 1300.0, 2600.0)]
    [2500.0, 1250.0, 0.0]
    """
    long, short = sheet
    if wide_mm <= short:
        return long
    return short if wide_mm <= long else 0.0


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
    parts = int(-(-long // reach)) if reach else 1
    return tuple(down(number * long / parts) for number in range(1, parts))


def pieces(board: Board, at_mm: Sequence[float]) -> Iterator[Board]:
    """A board sawn at these places along its length; itself where there are none."""
    if not at_mm:
        yield board
        return
    for number, (start, end) in enumerate(pairwise((0.0, *at_mm, board.long_mm)), start=1):
        yield replace(board, name=f"{board.name}, part {number}", long_mm=end - start)


def loose(board: Board, sheet: Sides | None, down: Rule) -> Iterator[Board]:
    """A loose board, with strips over its joints where it is longer than a sheet."""
    at = evenly_mm((board.long_mm, board.wide_mm), sheet, down)
    yield from pieces(board, at)
    if at:
        count = board.count * len(at)
        yield Board(
            f"strip over a joint of a {board.name}", "plywood", board.wide_mm, STRIP_MM, board.thick_mm, count
        )
