"""Wood as the shelf keeps it: which sheet of plywood, and which bars of a batten's section."""

from __future__ import annotations

from collections.abc import Sequence

from panewright.crate.timber import Board, Section
from panewright.shelf.shelf import Sundry

HAIR_MM = 0.3  #: as far as what is sold may differ from what was reckoned


def sold_as(board: Board, wood: Sequence[Sundry]) -> Sundry | None:
    """What a board is cut from: plywood as thick, a batten of its section; None where the shelf has none."""
    if board.stuff == "plywood":
        return plywood(board.thick_mm, wood)
    thin, wide = Section(board.wide_mm, board.thick_mm).sides_mm
    return next((each for each in _thin_first(wood, "batten") if _is(each, thin, wide)), None)


def plywood(thick_mm: float, wood: Sequence[Sundry]) -> Sundry | None:
    """Plywood so thick."""
    rows = _thin_first(wood, "plywood")
    return next((each for each in rows if abs(each.wall_mm - thick_mm) < HAIR_MM), None)


def sheet_mm(thick_mm: float, wood: Sequence[Sundry]) -> tuple[float, float] | None:
    """Sides of the sheet that plywood so thick is sold in, the long first; None where it is cut to size."""
    row = plywood(thick_mm, wood)
    return (row.long_mm, row.short_mm) if row is not None and row.long_mm else None


def _is(row: Sundry, thin_mm: float, wide_mm: float) -> bool:
    return abs(row.wall_mm - thin_mm) < HAIR_MM and abs(row.fit_mm - wide_mm) < HAIR_MM


def _thin_first(wood: Sequence[Sundry], use: str) -> list[Sundry]:
    return sorted((each for each in wood if each.use == use), key=lambda each: each.wall_mm)
