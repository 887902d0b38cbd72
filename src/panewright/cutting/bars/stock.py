"""Bars that pieces come from: what a shop sells and what lies in the rack."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from panewright.cutting.piece import Piece, PieceTooLong, Saw, room_mm, taken_mm


class StockShort(ValueError):
    """The bars there are do not give all the pieces."""


@dataclass(frozen=True, slots=True)
class Bar:
    """Bars of one length: how many there are, and what one costs."""

    length_mm: float
    price: Decimal | None = None  #: of one bar; a remnant's is what the shop reckons for it, often 0
    have: int | None = None  #: None: as many as are wanted
    name: str = ""
    remnant: bool = False  #: cut from before: one end is sawn, and is not trimmed again

    def __post_init__(self) -> None:
        if not (math.isfinite(self.length_mm) and self.length_mm > 0) or (self.have or 0) < 0:
            raise ValueError(f"bars have a length, and there are none or some of them, got {self}")
        if self.price is not None and not (self.price.is_finite() and self.price >= 0):
            raise ValueError(f"a bar costs nothing or something, got {self}")

    def room_mm(self, saw: Saw) -> float:
        """What `taken_mm` of all its pieces may add up to. [mm]"""
        return room_mm(self.length_mm, saw, self.remnant)


def checked_stock(bars: Sequence[Bar]) -> tuple[Bar, ...]:
    """Bars in a settled order; a `ValueError` where some have a price and others none."""
    if len({bar.price is None for bar in bars if not bar.remnant or bar.price is not None}) > 1:
        raise ValueError(f"all bars have a price or none has, got {tuple(bars)}")
    there = [bar for bar in bars if bar.have != 0]
    return tuple(sorted(there, key=lambda bar: (bar.length_mm, bar.price or 0, not bar.remnant, bar.name)))


def refuse_too_long(pieces: Sequence[Piece], bars: Sequence[Bar], saw: Saw) -> None:
    """Raise `PieceTooLong` with the piece, its length and the longest bar."""
    wanted = [piece for piece in pieces if piece.quantity]
    if not bars and wanted:
        raise StockShort(f"there is no bar to cut {wanted[0].name} from. Buy bars.")
    longest = max(bars, key=lambda bar: bar.room_mm(saw), default=None)
    for piece in wanted:
        if longest and taken_mm(piece, saw) > longest.room_mm(saw) + 1e-6:
            raise PieceTooLong(
                f"{piece.name} is {piece.length_mm:.1f} mm long; a bar of {longest.length_mm:.0f} mm leaves "
                f"{longest.room_mm(saw) - saw.kerf_mm:.1f} mm after its ends are trimmed. "
                "Join two pieces, or buy longer bars."
            )
