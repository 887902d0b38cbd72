"""Pieces to cut, the saw that cuts them, and the bars they come from."""

from __future__ import annotations

import math
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
    order: str = ""  #: whose it is

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
    clamp_mm: float = 0.0  #: the last bit of a bar, which the clamp holds: no piece comes from it

    def __post_init__(self) -> None:
        if min(self.kerf_mm, self.trim_mm, self.mitre_mm, self.clamp_mm) < 0:
            raise ValueError(f"a saw takes 0 or more, got {self}")

    @property
    def far_mm(self) -> float:
        """What the far end of every bar loses: its trim, or the clamp's bit with the cut before it. [mm]"""
        return max(self.trim_mm, self.clamp_mm + self.kerf_mm if self.clamp_mm else 0.0)


def taken_mm(piece: Piece, saw: Saw) -> float:
    """Length of bar that one piece takes, with the cut that parts it from the next. [mm]

    A saw turned by 45 degrees takes the square root of two times its kerf along the bar. Each piece is
    charged with half of the cuts at its two ends; measured on its longer side a mitred piece takes no
    more than that, whichever way its neighbour slopes.
    """
    mitred = piece.mitred_ends / 2
    cut = saw.kerf_mm * (1 - mitred + mitred * math.sqrt(2))
    return piece.length_mm + cut + piece.mitred_ends * saw.mitre_mm


def size(piece: Piece, saw: Saw) -> float:
    """The same without the dust of floating point. [mm]"""
    return round(taken_mm(piece, saw), 6)


def room_mm(bar_mm: float, saw: Saw, sawn: bool = False) -> float:
    """What `taken_mm` of all pieces of one bar may add up to. [mm]

    The last piece needs no cut beyond it where it ends with the bar: one kerf is given back. A bar that
    was `sawn` before, a remnant, has one clean end, which is not trimmed again.
    """
    return bar_mm - (0.0 if sawn else saw.trim_mm) - saw.far_mm + saw.kerf_mm
