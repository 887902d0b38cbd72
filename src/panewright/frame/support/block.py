"""A ballast block or paver as sold."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Block:
    """A block lying flat on its long and short side."""

    name: str
    mass_kg: float
    long_mm: float
    short_mm: float
    high_mm: float

    def __post_init__(self) -> None:
        if min(self.mass_kg, self.long_mm, self.short_mm, self.high_mm) <= 0:
            raise ValueError(f"a block has positive mass and sizes, got {self}")

    @property
    def foot_m2(self) -> float:
        """What it lies on. [m2]"""
        return self.long_mm * self.short_mm * 1e-6
