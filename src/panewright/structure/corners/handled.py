"""Corners, bead and pane of a finished panel: in wind and snow, and in the hands of those who carry it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import chain

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.rail import Rail
from panewright.frame.support.clip import Clip
from panewright.glass.pane import Pane
from panewright.seal.sealant import Bead
from panewright.structure.corners.clip import Clipped, choose_clip, clip_checks, judge_clip, ways
from panewright.structure.corners.corner import APART_MM, TOE_MM, Fastened, judge_fastened, judge_welded
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
from panewright.structure.drilling.frame_plan import Band, corner_band, corner_from_end_mm
from panewright.structure.loads import Loads
from panewright.structure.space.bounds import AtCorner

_CORNERS = 4


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
    pane, turn = panel.pane, 0.0
    if panel.joint is None:
        family = panel.loads.family
        lean = rack(pane, panel.bead, carried_n(panel.mass_kg, family)).lean
        turn = stiff_moment_nmm(panel.rail, pane, lean, family)
    return (*_weather_forces(panel), *_carried_forces(panel, panel.mass_kg, turn))


def _weather_forces(panel: Handled) -> tuple[CornerForce, CornerForce]:
    long, short = panel.at_corner
    return weather_force("long", long), weather_force("short", short)


def _carried_forces(panel: Handled, mass_kg: float, turn_nmm: float = 0.0) -> Iterator[CornerForce]:
    """By people, of a panel of that mass."""
    pane, family = panel.pane, panel.loads.family
    yield lifted_force(mass_kg, family)
    yield standing_force(mass_kg, pane.long_mm, pane.short_mm, family, turn_nmm)


def _corner_checks(panel: Handled) -> tuple[Check, ...]:
    forces, family = corner_forces(panel), panel.loads.family
    if panel.joint is None:
        return judge_welded(panel.rail, forces, family)
    clipped = clipped_corner(panel, panel.joint)
    return (
        *fastener_checks(clipped, forces, family),
        *judge_clip(clipped, forces, family),
    )


def clipped_corner(panel: Handled, joint: Joint) -> Clipped:
    """The clip on the free band of its rail, as near to the middle of it as may be."""
    return _clipped_on(corner_band(panel.rail, panel.bead, panel.pane), panel, joint, joint.clip)


def _clipped_on(band: Band, panel: Handled, joint: Joint, clip: Clip) -> Clipped:
    return Clipped(
        clip=clip,
        rail=panel.rail,
        fastener=joint.fastener,
        leg=band.leg,
        from_end_mm=corner_from_end_mm(band, clip),
        edge_mm=min(clip.wide_mm, band.wide_mm) / 2,
        toe_mm=TOE_MM,
        apart_mm=APART_MM,
        room_mm=band.wide_mm,
        sides_mm=panel.pane.long_mm + panel.pane.short_mm,
    )


def fastener_checks(clipped: Clipped, forces: tuple[CornerForce, ...], family: Family) -> tuple[Check, ...]:
    """What joins a rail to its clip, rule by rule under the worse of what clip and mitre hand on."""
    corner, worse = fastened_corner(clipped), dict[str, tuple[float, Check]]()
    for borne in zip(*(ways(clipped, force, family) for force in forces), strict=True):
        for check in judge_fastened(corner, borne, family):
            used, known = check.utilisation, worse.get(check.rule)
            if known is None or used > known[0]:
                worse[check.rule] = used, check
    return tuple(check for _, check in worse.values())


def fastened_corner(clipped: Clipped) -> Fastened:
    """What joins a rail to its clip."""
    return Fastened(
        clipped.rail,
        clipped.fastener,
        clipped.clip,
        clipped.leg,
        edge_mm=clipped.room_mm / 2,
        from_end_mm=clipped.from_end_mm,
        clip_edge_mm=clipped.edge_mm,
    )


def clip_of(panel: Handled, clips: tuple[Clip, ...]) -> Clip:
    """The lightest clip that holds; each counted with what it weighs more than the panel's own."""
    if panel.joint is None:
        raise ValueError("a welded corner has no clip to choose")
    joint, family = panel.joint, panel.loads.family
    weather, band = _weather_forces(panel), corner_band(panel.rail, panel.bead, panel.pane)

    def judge(clip: Clip) -> Iterator[Iterable[Check]]:
        mass_kg = with_clips_kg(panel.mass_kg, joint.clip, clip)
        clipped = _clipped_on(band, panel, joint, clip)
        yield clip_checks(clipped, chain(weather, _carried_forces(panel, mass_kg)), family)
        yield fastener_checks(clipped, (*weather, *_carried_forces(panel, mass_kg)), family)

    return choose_clip(clips, judge)


def with_clips_kg(mass_kg: float, clip: Clip, other: Clip) -> float:
    """Mass of a panel with other clips in its corners. [kg]"""
    return mass_kg + _CORNERS * (other.mass_kg - clip.mass_kg)
