"""Battens of a crate where sheets meet one over the other: pieces of a batten between those that cross.

A level joint of a side lies over battens between its uprights, one of an end likewise. A joint along the lid
lies under battens between those over it, one along the floor over a sill more. All are as wide as a batten of
the wall, half under each sheet, and the plywood holds them by a row of screws on either side (common
practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Protocol

from panewright.crate.room import Room
from panewright.crate.seams import Seams, battens_mm
from panewright.crate.timber import Board, Section, Yard

SIDE = "batten at a level joint of a side"
END = "batten at a level joint of an end"
LID = "batten at a joint along the lid"
FLOOR = "batten under a joint of the floor"
SEAT_MM = 32.0  #: least width under two sheets: each screw four of its diameters from an edge (recalled)
_ALIKE_MM = 2.0  #: gaps that differ by no more take pieces of one length


class Framed(Protocol):
    """What of a crate these battens ask for."""

    @property
    def yard(self) -> Yard: ...
    @property
    def inside(self) -> Room: ...
    @property
    def box(self) -> Room: ...
    @property
    def ply_mm(self) -> float: ...
    @property
    def batten(self) -> Section: ...
    @property
    def uprights(self) -> int: ...
    @property
    def sill(self) -> Section: ...
    @property
    def lid(self) -> Section: ...
    @property
    def lid_battens(self) -> int: ...
    @property
    def seams(self) -> Seams: ...


def level_battens(crate: Framed) -> Iterator[Board]:
    """Of the sides, of the ends, over the lid."""
    at, wide = crate.seams, crate.batten.deep_mm
    yield from _between(SIDE, uprights_mm(crate), wide, crate, 2 * len(at.side.across_mm))
    yield from _between(END, end_uprights_mm(crate), wide, crate, 2 * len(at.end.across_mm))
    yield from _between(LID, over_lid_mm(crate), crate.lid.wide_mm, crate, len(at.lid.across_mm))


def floor_battens(crate: Framed) -> Iterator[Board]:
    """Across under the joints of the floor, flat between the sills."""
    yield from _between(FLOOR, sills_mm(crate), crate.sill.wide_mm, crate, len(crate.seams.lid.along_mm))


def uprights_mm(crate: Framed) -> tuple[float, ...]:
    """Middles of a side's uprights, from one end of the box. [mm]"""
    return _all(crate.box.along_mm, crate.batten.deep_mm, crate.uprights, crate.yard)


def over_lid_mm(crate: Framed) -> tuple[float, ...]:
    """Middles of the lid's battens, from one end of the box. [mm]"""
    return _all(crate.box.along_mm, crate.lid.wide_mm, crate.lid_battens, crate.yard)


def end_uprights_mm(crate: Framed) -> tuple[float, ...]:
    """Middles of an end's uprights, from the outside of a side's battens. [mm]"""
    proud, half = crate.batten.wide_mm, crate.batten.deep_mm / 2
    seams = (proud + crate.ply_mm + each for each in crate.seams.end.along_mm)
    return (half, *seams, crate.box.across_mm + 2 * proud - half)


def sills_mm(crate: Framed) -> tuple[float, ...]:
    """Middles of the sills, from one side of the box: two, and one under each joint along the floor. [mm]"""
    half = crate.sill.wide_mm / 2
    return (half, *crate.seams.lid.across_mm, crate.box.across_mm - half)


def _all(long_mm: float, wide_mm: float, count: int, yard: Yard) -> tuple[float, ...]:
    return (wide_mm / 2, *battens_mm(long_mm, wide_mm, count, yard.down), long_mm - wide_mm / 2)


def _between(
    name: str, middles_mm: Sequence[float], wide_mm: float, crate: Framed, count: int
) -> Iterator[Board]:
    """So many rows of pieces between what crosses them; the inner ones by themselves where they differ."""
    gaps = [later - sooner - wide_mm for sooner, later in pairwise(middles_mm)]
    outer = min(gaps[0], gaps[-1])
    inner = min(gaps[1:-1], default=outer)
    if abs(inner - outer) <= _ALIKE_MM:
        sizes = [(name, min(outer, inner), len(gaps))]
    else:
        sizes = [(name, outer, 2), (f"{name}, inner", inner, len(gaps) - 2)]
    lies = crate.batten
    for called, long, pieces in sizes:
        if long > 0 and count:
            yield Board(called, "softwood", long, lies.deep_mm, lies.wide_mm, pieces * count)
