"""The screws of a crate, joint by joint: which, how long, how many.

A screw goes through one piece into the next and holds there with six diameters, as a joint in shear asks
(EN 1995-1-1, 8.7.2, recalled), and never comes out at the far side. Where the next piece is too thin for
both, the longest that stays in is taken. Where no screw reaches through the first piece, it is driven
skewed: aslant through its foot into the next.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Protocol

from panewright.crate import level
from panewright.crate.seams import Seams
from panewright.crate.timber import Board, Screw, Section, Yard

APART_MM = 150.0  #: from one screw to the next along a batten; common practice
HOLDS = 6.0  #: diameters in the second piece
INSIDE_MM = 1.0  #: of wood left before the tip
CORNERS = 4
BEARER = "sill, down into bearer, two each crossing"
FLOOR = "floor, down into sill"
SEAM = f"floor, down into the {level.FLOOR}"
LONG = f"plywood of the lid, up into the {level.LID}"
WALL = "plywood of a wall, outward into its battens"
SILL = "lowest batten of a side, inward into sill"
LID = "batten of the lid, down into highest batten of a side"


class Boxed(Protocol):
    """What of a crate its screws ask for."""

    @property
    def yard(self) -> Yard: ...
    @property
    def boards(self) -> tuple[Board, ...]: ...
    @property
    def ply_mm(self) -> float: ...
    @property
    def batten(self) -> Section: ...
    @property
    def sill(self) -> Section: ...
    @property
    def lid(self) -> Section: ...
    @property
    def by_hand(self) -> bool: ...
    @property
    def seams(self) -> Seams: ...


@dataclass(frozen=True, slots=True)
class Joint:
    """One kind of joint of a crate and its screws."""

    name: str  #: through what, into what
    screw: Screw
    count: int
    skewed: bool = False  #: driven aslant, for want of a screw that reaches through


def joints(crate: Boxed) -> tuple[Joint, ...]:
    """Every kind of joint of one crate, in the order in which they are made."""
    return tuple(each for each in (*_under(crate), *_walls(crate), *_lid(crate)) if each.count)


def screw_for(yard: Yard, through_mm: float, into_mm: float) -> Screw | None:
    """The shortest that holds and stays in, else the longest that stays in; None where none reaches.

    >>> from panewright.crate.timber import YARDS
    >>> [screw_for(YARDS["metric"], *joint).name for joint in ((6, 45), (6, 20), (45, 100))]
    ['4 × 30 mm', '4 × 25 mm', '5 × 80 mm']
    >>> screw_for(YARDS["metric"], 145, 100) is None
    True
    """
    reach = [each for each in yard.screws if through_mm < each.long_mm <= through_mm + into_mm - INSIDE_MM]
    held = [each for each in reach if each.long_mm >= through_mm + HOLDS * each.wide_mm]
    return held[0] if held else (reach[-1] if reach else None)


def _joint(crate: Boxed, name: str, through_mm: float, into_mm: float, count: int) -> Joint:
    found = screw_for(crate.yard, through_mm, into_mm)
    if found is not None:
        return Joint(name, found, count)
    return Joint(name, crate.yard.skewed, 2 * count, skewed=True)  # one from either side


def _under(crate: Boxed) -> Iterator[Joint]:
    """Bearers to sills, then the floor to the sills."""
    named = {board.name: board for board in crate.boards}
    if not crate.by_hand:
        crossings = named["bearer"].count * named["sill"].count
        yield _joint(crate, BEARER, crate.sill.deep_mm, crate.yard.bearer.deep_mm, 2 * crossings)
    second = len(crate.seams.lid.across_mm) * _number(named["sill"].long_mm)
    count = _along((named["sill"],)) + second
    yield _joint(crate, FLOOR, crate.ply_mm, crate.sill.deep_mm, count)
    yield _joint(crate, SEAM, crate.ply_mm, crate.batten.wide_mm, 2 * _at(crate, level.FLOOR))


def _walls(crate: Boxed) -> Iterator[Joint]:
    """Plywood to its battens, walls to the floor, walls to each other."""
    named = {board.name: board for board in crate.boards}
    proud, wide = crate.batten.wide_mm, crate.batten.deep_mm
    walls = [board for board in crate.boards if board.name in WALL_BATTENS]
    at_level = 2 * (_at(crate, level.SIDE) + _at(crate, level.END))
    yield _joint(crate, WALL, crate.ply_mm, proud, _along(walls) + _second_rows(crate, named) + at_level)
    foot = named["batten along a side"].long_mm
    yield _joint(crate, SILL, proud, crate.sill.wide_mm, 2 * _number(foot))
    upright = named["batten upright on an end"].long_mm
    name = "batten of an end, inward into upright of a side"
    yield _joint(crate, name, proud, wide, CORNERS * _number(upright))
    ends = 2 * named["sill"].count
    yield _joint(crate, "lowest batten of an end, down into sill", wide, crate.sill.deep_mm, ends)


def _second_rows(crate: Boxed, named: dict[str, Board]) -> int:
    """Where two sheets meet over an upright, each has a row of its own."""
    sides = 2 * len(crate.seams.side.along_mm) * _number(named["batten upright on a side"].long_mm)
    return sides + 2 * len(crate.seams.end.along_mm) * _number(named["batten upright on an end"].long_mm)


def _lid(crate: Boxed) -> Iterator[Joint]:
    """The lid's plywood to its battens; last of all the lid to the walls."""
    batten = next(board for board in crate.boards if board.name == "batten over the lid")
    name = "plywood of the lid, up into its battens"
    rows = len(crate.seams.lid.along_mm) * _number(batten.long_mm)
    yield _joint(crate, name, crate.ply_mm, crate.lid.deep_mm, _along((batten,)) + rows)
    yield _joint(crate, LONG, crate.ply_mm, crate.batten.wide_mm, 2 * _at(crate, level.LID))
    yield _joint(crate, LID, crate.lid.deep_mm, crate.batten.deep_mm, 2 * batten.count)


WALL_BATTENS = frozenset(
    {
        "batten along a side",
        "batten upright on a side",
        "batten across an end",
        "batten upright on an end",
        "batten to grip",
    }
)


def _at(crate: Boxed, name: str) -> int:
    """Screws of one row along all battens of one kind of joint."""
    return _along(board for board in crate.boards if board.name.startswith(name))


def _along(battens: Iterable[Board]) -> int:
    """Screws along so many battens."""
    return sum(board.count * _number(board.long_mm) for board in battens)


def _number(long_mm: float) -> int:
    """Screws along one: two at least.

    >>> _number(100.0), _number(1319.0)
    (2, 9)
    """
    return max(2, math.ceil(long_mm / APART_MM))
