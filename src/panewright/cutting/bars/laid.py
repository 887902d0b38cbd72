"""Where on a bar each piece lies, and where its rest begins: the one geometry of every drawing of a bar."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.cutting.piece import Piece, Saw
from panewright.cutting.plan import BarCut


@dataclass(frozen=True, slots=True)
class Laid:
    """One piece on its bar, from the end at which sawing begins."""

    number: int  #: from 1
    piece: Piece
    left_mm: float
    right_mm: float


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A whole bar: pieces with a saw cut after each, then the rest."""

    bar_mm: float
    pieces: tuple[Laid, ...]
    rest_from_mm: float


def laid_out(bar: BarCut, saw: Saw) -> LaidOut:
    """The pieces in their turn; a bar as delivered is trimmed first, a remnant is not.

    The last saw cut falls away where the last piece ends with the bar.
    """
    at_mm, pieces = (0.0 if bar.from_remnant else saw.trim_mm), []
    for number, piece in enumerate(bar.pieces, start=1):
        pieces.append(Laid(number, piece, at_mm, at_mm + piece.length_mm))
        at_mm += piece.length_mm + saw.kerf_mm
    return LaidOut(bar.bar_mm, tuple(pieces), min(at_mm, bar.bar_mm))
