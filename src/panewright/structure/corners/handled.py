"""Corners, bead and pane of a finished panel: in wind and snow, and in the hands of those who carry it."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.frame.rail import Rail
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.corners.corner import Fastened, judge_fastened, judge_welded
from panewright.structure.corners.force import (
    CornerForce,
    carried_n,
    lifted_force,
    standing_force,
    weather_force,
)
from panewright.structure.corners.racking import judge_racking, rack, stiff_moment_nmm
from panewright.structure.corners.twist import judge_twist
from panewright.structure.drilling.fixing import Joint
from panewright.structure.drilling.frame_plan import corner_from_end_mm, hole_line
from panewright.structure.loads import Loads
from panewright.structure.space.space_frame import AtCorner


@dataclass(frozen=True, slots=True)
class Handled:
    """A panel as it comes off the bench."""

    pane: Pane
    bead: Bead
    rail: Rail
    loads: Loads
    mass_kg: float
    joint: Joint | None  #: None where corners are welded
    at_corner: tuple[
        AtCorner, AtCorner
    ]  #: of the long and the short rail in wind and snow, level of strength


def handled_checks(panel: Handled) -> tuple[Check, ...]:
    """Corners in every case, then what carrying does to bead and pane."""
    family = panel.loads.family
    return (
        *_corner_checks(panel),
        *judge_racking(panel.pane, panel.bead, panel.mass_kg, family),
        judge_twist(panel.pane, panel.mass_kg, family),
    )


def corner_forces(panel: Handled) -> tuple[CornerForce, ...]:
    """In wind and snow, lifted by one corner, standing on one corner; stiff corners get its moment too."""
    pane, family, turn = panel.pane, panel.loads.family, 0.0
    if panel.joint is None:
        lean = rack(pane, panel.bead, carried_n(panel.mass_kg, family)).lean
        turn = stiff_moment_nmm(panel.rail, pane, lean, family)
    return (
        weather_force("long", panel.at_corner[0]),
        weather_force("short", panel.at_corner[1]),
        lifted_force(panel.mass_kg, family),
        standing_force(panel.mass_kg, pane.long_mm, pane.short_mm, family, turn),
    )


def _corner_checks(panel: Handled) -> tuple[Check, ...]:
    forces, family = corner_forces(panel), panel.loads.family
    if panel.joint is None:
        return judge_welded(panel.rail, forces, family)
    line, joint = hole_line(panel.rail, panel.bead, panel.pane), panel.joint
    where = line.leg, line.edge_mm, corner_from_end_mm(line)
    return judge_fastened(Fastened(panel.rail, joint.fastener, joint.clip, *where), forces, family)
