"""The two-core run from the panel to the controller."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cable:
    """A pair of copper conductors."""

    one_way_m: float
    area_mm2: float
