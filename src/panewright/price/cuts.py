"""The rails of one order as pieces, and from which bars they are sawn."""

from __future__ import annotations

from collections import Counter
from functools import lru_cache

from panewright.cutting.bars.bars import cut_bars
from panewright.cutting.piece import Piece, PieceTooLong
from panewright.cutting.plan import CutPlan
from panewright.panel.design import Design


def rail_pieces(design: Design, panels: int, order: str = "") -> tuple[Piece, ...]:
    """The rails of so many frames; rails of one length and one way of cutting are one kind."""
    kinds: Counter[tuple[str, float, int]] = Counter()
    longest = max(piece.length_mm for piece in design.structural.frame.pieces)
    for piece in design.structural.frame.pieces:
        name = "long rail" if piece.length_mm == longest else "short rail"
        mitred = 2 if piece.cut_deg == 45.0 else 0
        kinds[(name, round(piece.length_mm, 2), mitred)] += panels
    return tuple(Piece(name, length, count, mitred, order) for (name, length, mitred), count in kinds.items())


def rail_cuts(design: Design, panels: int) -> CutPlan | None:
    """Which rail from which bar; None where one is longer than the bar it is sold in."""
    return _rail_cuts(rail_pieces(design, panels), design.structural.rail.bar_mm)


@lru_cache(maxsize=64)
def _rail_cuts(pieces: tuple[Piece, ...], bar_mm: float) -> CutPlan | None:
    """Kept, for many sizes of a catalogue have frames alike."""
    try:
        return cut_bars(pieces, bar_mm)
    except PieceTooLong:
        return None
