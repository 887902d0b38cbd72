"""Which part goes through which hole: one record for the drill and for the parts list.

A part of the shelf serves a hole when its `fit` is the hole's diameter; setting blocks serve a gap that is no
narrower than they are thick.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.frame.joining.bolt import M5, M6
from panewright.frame.joining.fastener import FASTENERS, Fastener
from panewright.frame.joining.rivet import Rivet
from panewright.frame.joining.tapping import TappingScrew
from panewright.frame.support.clip import USUAL, Clip, ClipMetal
from panewright.shelf.shelf import Row, Shelf, Sundry, Use
from panewright.structure.closing_rows import closing_rows

Purpose = Literal["bracket", "corner", "drain", "earth", "board"]

_FITS_MM = 0.05  # two sizes nearer than this are one


@dataclass(frozen=True, slots=True)
class Fixing:
    """A hole and what is put into it."""

    purpose: Purpose
    use: Use
    hole_mm: float


CORNER = Fixing("corner", "screw", M5.hole_mm)
BRACKET = Fixing("bracket", "bolt", M6.hole_mm)
EARTH = Fixing("earth", "earth", M5.hole_mm)
DRAIN = Fixing("drain", "drain", 6.0)
BOARD = Fixing("board", "board screw", 4.9)  # a 5.5 mm tapping screw cuts its thread in it; recalled
FIXINGS = (CORNER, BRACKET, EARTH, DRAIN, BOARD)
CLIP_USES: dict[ClipMetal, Use] = {"stainless": "corner", "aluminium": "cleat"}
_REACH_MM = 3.0  # of a tapping screw of 16 mm or a rivet of 12 mm behind a rail's wall; common practice
_HOLE = {fixing.use: fixing.hole_mm for fixing in FIXINGS}


@dataclass(frozen=True, slots=True)
class Joint:
    """How a rail is joined to the clip of its corner."""

    fastener: Fastener
    metal: Literal["stainless", "aluminium"]  #: of the fastener
    clip: Clip
    fixing: Fixing  #: its hole, and what goes through it

    @property
    def clip_use(self) -> Use:
        """The clip as the shelf knows it."""
        return CLIP_USES[self.clip.metal]


def joint(name: str) -> Joint:
    """A joint by the fastener an order names, with the usual clip.

    Tapping screws and aluminium rivets go with a cleat of aluminium: the one cuts its thread into it, the
    other would be eaten on a stainless clip.
    """
    fastener = FASTENERS[name]
    metal: ClipMetal = "stainless"
    clip: ClipMetal = "stainless"
    use: Use = "screw"
    if isinstance(fastener, TappingScrew):
        clip, use = "aluminium", "tapping screw"
    elif isinstance(fastener, Rivet):
        metal = clip = fastener.body
        use = "stainless rivet" if metal == "stainless" else "rivet"
    return Joint(fastener, metal, USUAL[clip], Fixing("corner", use, fastener.hole_mm))


@lru_cache(maxsize=128)
def clips_for(shelf: Shelf, usual: Joint) -> tuple[Clip, ...]:
    """Clips of the shelf whose width and thickness are told and that a joint may take; else the usual one.

    Screws with nuts go with either metal; tapping screws and rivets with that of the usual clip, no thicker
    than they reach.
    """
    screwed = usual.fixing.use == "screw"
    metals: tuple[ClipMetal, ...] = ("stainless", "aluminium") if screwed else (usual.clip.metal,)
    found = tuple(
        Clip(row.name, metal, row.part.fit_mm, row.part.wall_mm, row.part.mass_kg)
        for metal in metals
        for row in shelf.sundries
        if row.part.use == CLIP_USES[metal] and row.part.wall_mm > 0 and row.part.fit_mm > 0
    )
    reached = tuple(clip for clip in found if screwed or clip.wall_mm <= _REACH_MM)
    return reached or (usual.clip,)


@lru_cache(maxsize=1024)
def rows_that_fit(
    shelf: Shelf, use: Use, gap_mm: float, hole_mm: float | None = None
) -> tuple[Row[Sundry], ...]:
    """Rows of a use that go with its hole, or with the gap; a row that tells no fit is taken at its word."""
    rows = tuple(row for row in shelf.sundries if row.part.use == use) + closing_rows(shelf, use)
    if use == "block":
        fitting = (row for row in rows if row.part.fit_mm <= gap_mm + _FITS_MM)
        return tuple(sorted(fitting, key=lambda row: -row.part.fit_mm))
    hole = _HOLE.get(use) if hole_mm is None else hole_mm
    if hole is None:
        return rows
    return tuple(row for row in rows if row.part.fit_mm == 0 or abs(row.part.fit_mm - hole) < _FITS_MM)
