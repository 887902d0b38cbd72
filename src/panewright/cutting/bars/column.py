"""What is cut from one bar, and what that bar costs: one column of the programme."""

from __future__ import annotations

from dataclasses import dataclass

Pattern = tuple[int, ...]  #: how many of each size
Column = tuple[int, Pattern]  #: which bar, and what is cut from it


@dataclass(frozen=True, slots=True)
class Costed:
    """A column with its cost, and its part in the second sum."""

    column: Column
    cost: float
    second: float = 0.0
