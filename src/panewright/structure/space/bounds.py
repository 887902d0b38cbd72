"""What a frame's sides have at worst, whatever is not known of them; under 1 Pa or under a load."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Bound:
    """The worst of one side under one way of the pane's hold; in the order of `figures.Figures`."""

    sag_mm: float  #: of the pane's edge at the bead's line, from straight
    sideways_mm: float  #: of that line
    twist_deg: float
    stress_mpa: float  #: along the rail, at any fibre
    torsion_mpa: float  #: shear of twisting
    shear_mpa: float = 0.0  #: shear of the forces across and sideways

    def times(self, factor: float) -> Bound:
        """Under so much more load."""
        return Bound(
            self.sag_mm * factor,
            self.sideways_mm * factor,
            self.twist_deg * factor,
            self.stress_mpa * factor,
            self.torsion_mpa * factor,
            self.shear_mpa * factor,
        )

    def worse(self, other: Bound) -> Bound:
        """The larger of each figure."""
        return Bound(
            max(self.sag_mm, other.sag_mm),
            max(self.sideways_mm, other.sideways_mm),
            max(self.twist_deg, other.twist_deg),
            max(self.stress_mpa, other.stress_mpa),
            max(self.torsion_mpa, other.torsion_mpa),
            max(self.shear_mpa, other.shear_mpa),
        )


@dataclass(frozen=True, slots=True)
class Force:
    """On a rail, in its own axes; sizes of the largest of each, not all at once."""

    along_n: float
    sideways_n: float
    across_n: float

    @property
    def bolt_n(self) -> float:
        """Across and sideways as if at once: along the rail a bolt has play, and only its clamp holds. [N]"""
        return math.hypot(self.sideways_n, self.across_n)

    def times(self, factor: float) -> Force:
        """Under so much more load."""
        return Force(self.along_n * factor, self.sideways_n * factor, self.across_n * factor)

    def worse(self, other: Force) -> Force:
        """The larger of each figure."""
        return Force(
            max(self.along_n, other.along_n),
            max(self.sideways_n, other.sideways_n),
            max(self.across_n, other.across_n),
        )


@dataclass(frozen=True, slots=True)
class AtCorner:
    """Of the corner on one rail: three forces, and moments about the rail's own axes, sizes as above."""

    force: Force
    twist_nmm: float  #: about the rail itself
    tilt_nmm: float  #: about the line inward: bends the rail across the pane
    turn_nmm: float  #: about the upright line: bends it sideways

    def times(self, factor: float) -> AtCorner:
        """Under so much more load."""
        moments = self.twist_nmm, self.tilt_nmm, self.turn_nmm
        return AtCorner(self.force.times(factor), *(moment * factor for moment in moments))

    def worse(self, other: AtCorner) -> AtCorner:
        """The larger of each figure."""
        return AtCorner(
            self.force.worse(other.force),
            max(self.twist_nmm, other.twist_nmm),
            max(self.tilt_nmm, other.tilt_nmm),
            max(self.turn_nmm, other.turn_nmm),
        )


@dataclass(frozen=True, slots=True)
class SideFigures:
    """One side of the frame, worst of corners and brackets as they may be."""

    free: Bound  #: the pane only loads the rail
    bead: Bound  #: the bead is an elastic spring to a pane that does not move in its plane
    held: Bound  #: the bead's line does not move sideways
    bracket: Force  #: at the bracket worst off; nothing where there is none
    handed: Force  #: the same, with the pane free or on its elastic bead: what carries the bracket bears it
    corner: AtCorner
    slide_mm: float  #: of the rail along a bracket's bolt that has play, the pane free or on its bead

    def __hash__(self) -> int:
        """Of one figure of each way of hold: sides alike in these are alike in all."""
        return hash((self.free.sag_mm, self.bead.stress_mpa, self.held.twist_deg, self.slide_mm))

    def times(self, factor: float) -> SideFigures:
        """Under so much more load: all grows alike, whichever way it pushes."""
        return SideFigures(
            self.free.times(factor),
            self.bead.times(factor),
            self.held.times(factor),
            self.bracket.times(factor),
            self.handed.times(factor),
            self.corner.times(factor),
            self.slide_mm * factor,
        )

    def worse(self, other: SideFigures) -> SideFigures:
        """The larger of each figure."""
        return SideFigures(
            self.free.worse(other.free),
            self.bead.worse(other.bead),
            self.held.worse(other.held),
            self.bracket.worse(other.bracket),
            self.handed.worse(other.handed),
            self.corner.worse(other.corner),
            max(self.slide_mm, other.slide_mm),
        )


@dataclass(frozen=True, slots=True)
class SpaceFrame:
    """Both sides under their load."""

    long: SideFigures
    short: SideFigures

    def times(self, factor: float) -> SpaceFrame:
        """Under so much more load."""
        return SpaceFrame(self.long.times(factor), self.short.times(factor))

    def worse(self, other: SpaceFrame) -> SpaceFrame:
        """The larger of every figure: each may come from another load."""
        return SpaceFrame(self.long.worse(other.long), self.short.worse(other.short))
