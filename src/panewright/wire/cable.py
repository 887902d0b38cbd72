"""The two-core run from the panel to the controller."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cable:
    """A pair of copper conductors."""

    one_way_m: float
    area_mm2: float

    def __post_init__(self) -> None:
        if self.one_way_m < 0 or self.area_mm2 <= 0:
            raise ValueError(f"a cable has a length of 0 or more and some copper, got {self}")
