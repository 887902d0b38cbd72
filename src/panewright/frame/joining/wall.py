"""A wall that a fastener goes through: how thick, how strong, by the family that judges it."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.frame.metals.aluminium import Family, alloy
from panewright.frame.metals.stainless import CLASSES
from panewright.frame.rail import Alloy


@dataclass(frozen=True, slots=True)
class Wall:
    """Metal round one hole."""

    thickness_mm: float
    yield_mpa: float
    rupture_mpa: float

    def __post_init__(self) -> None:
        if self.thickness_mm <= 0 or not 0 < self.yield_mpa <= self.rupture_mpa:
            raise ValueError(f"a wall has a thickness, and yields before it breaks, got {self}")


def aluminium_wall(name: Alloy, thickness_mm: float, family: Family) -> Wall | None:
    """A wall of an extruded alloy; None where the family does not list it."""
    metal = alloy(name)
    if family == "EN":
        strengths = metal.en_strengths_mpa(thickness_mm)
        return None if strengths is None else Wall(thickness_mm, *strengths)
    if metal.yield_mpa is None or metal.rupture_mpa is None:
        return None
    return Wall(thickness_mm, metal.yield_mpa, metal.rupture_mpa)


def stainless_wall(thickness_mm: float) -> Wall:
    """A wall of soft stainless sheet, reckoned as class 50."""
    soft = CLASSES[50]
    return Wall(thickness_mm, soft.proof_mpa, soft.rupture_mpa)
