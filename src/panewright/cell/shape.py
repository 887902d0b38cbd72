"""The outline of a cell: a rectangle, a wafer with clipped corners, or a strip cut from one."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shape:
    """A cell seen from the front; its busbars run along the length.

    The outline is a rectangle cut by the circle of the round ingot, where there is one. A strip cut from
    a wafer keeps the wafer's circle and says how far its own middle lies from the middle of the wafer.
    """

    width_mm: float  #: across the busbars
    length_mm: float  #: along the busbars
    circle_mm: float | None = None  #: diameter of the ingot's circle; None for a full square
    off_centre_mm: float = 0.0  #: middle of this strip from the middle of its wafer, along the length
    busbars: int = 2
    busbar_width_mm: float = 1.6
    thickness_mm: float = 0.2
    tolerance_mm: float = 0.5  #: each side may be longer or shorter by this much

    def __post_init__(self) -> None:
        if min(self.width_mm, self.length_mm, self.thickness_mm, self.busbar_width_mm) <= 0:
            raise ValueError(f"a cell has positive sides, thickness and busbar width, got {self}")
        if self.busbars < 1 or self.tolerance_mm < 0:
            raise ValueError(f"a cell has a busbar or more and a tolerance of 0 or more, got {self}")
        if self.circle_mm is not None and self.circle_mm <= max(self.width_mm, self.length_mm):
            raise ValueError(f"the circle of the ingot is wider than the wafer's sides, got {self}")
