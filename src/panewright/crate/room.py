"""The room that a thing takes, or that is within one."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Room:
    """Three sizes by the way they run. [mm]"""

    along_mm: float
    across_mm: float
    up_mm: float

    @property
    def sides_mm(self) -> tuple[float, float, float]:
        """The longest first. [mm]"""
        longest, middle, shortest = sorted((self.along_mm, self.across_mm, self.up_mm), reverse=True)
        return longest, middle, shortest

    @property
    def girth_mm(self) -> float:
        """Length plus girth. [mm]"""
        longest, middle, shortest = self.sides_mm
        return longest + 2 * (middle + shortest)

    @property
    def volume_cm3(self) -> float:
        """Of the whole. [cm3]"""
        return self.along_mm * self.across_mm * self.up_mm / 1000
