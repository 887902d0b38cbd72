"""Pieces to cut, the saw that cuts them, and the bars they come from."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass


class PieceTooLong(ValueError):
    """A piece is longer than any bar after its ends are trimmed."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Pieces of one length; with mitred ends the length is that of the longer side."""

    name: str
    length_mm: float
    quantity: int
    mitred_ends: int = 0  #: ends cut at 45 degrees: 0, 1 or 2

    def __post_init__(self) -> None:
        if self.length_mm <= 0 or self.quantity < 0 or self.mitred_ends not in (0, 1, 2):
            raise ValueError(f"a piece has a length, a number and at most two mitred ends, got {self}")


@dataclass(frozen=True, slots=True)
class Saw:
    """What is lost between pieces and at the ends of a bar. [mm]"""

    kerf_mm: float = 3.0
    trim_mm: float = (
        5.0  #: cut off each end of a bar as delivered, kerf included; 0 to use the ends as they are
    )
    mitre_mm: float = 0.0  #: further loss for each mitred end, where a rail cannot be nested

    def __post_init__(self) -> None:
        if min(self.kerf_mm, self.trim_mm, self.mitre_mm) < 0:
            raise ValueError(f"a saw takes 0 or more, got {self}")


def taken_mm(piece: Piece, saw: Saw) -> float:
    """Length of bar that one piece takes, with the cut that parts it from the next. [mm]

    A saw turned by 45 degrees takes the square root of two times its kerf along the bar. Each piece is
    charged with half of the cuts at its two ends; measured on its longer side a mitred piece takes no
    more than that, whichever way its neighbour slopes.
    """
    mitred = piece.mitred_ends / 2
    cut = saw.kerf_mm * (1 - mitred + mitred * math.sqrt(2))
    return piece.length_mm + cut + piece.mitred_ends * saw.mitre_mm


def room_mm(bar_mm: float, saw: Saw) -> float:
    """What `taken_mm` of all pieces of one bar may add up to. [mm]

    The last piece needs no cut beyond it where it ends with the bar: one kerf is given back.
    """
    return bar_mm - 2 * saw.trim_mm + saw.kerf_mm


def refuse_too_long(pieces: Sequence[Piece], stocks_mm: Sequence[float], saw: Saw) -> None:
    """Raise `PieceTooLong` with the piece, its length and the longest bar."""
    if not stocks_mm or min(stocks_mm) <= 0:
        raise ValueError(f"bars have a length, got {tuple(stocks_mm)}")
    longest = max(stocks_mm)
    for piece in pieces:
        if piece.quantity and taken_mm(piece, saw) > room_mm(longest, saw) + 1e-6:
            raise PieceTooLong(
                f"{piece.name} is {piece.length_mm:.1f} mm long; a bar of {longest:.0f} mm leaves "
                f"{longest - 2 * saw.trim_mm:.1f} mm after its ends are trimmed. "
                "Join two pieces, or buy longer bars."
            )
