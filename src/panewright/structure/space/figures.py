"""What is read off runs that stand under their load: sag of the pane's edge, twist, stress, forces.

Movements and forces are exact at the nodes; between them the edge's line is a cubic with its own slopes, and
so are the moments, whose slopes are the shears. Each member is looked at in four places.

The sag is how far the pane's edge, at the bead's line on the seat, is from straight: its highest less its
lowest place, from the line through the pane's two corners. Twist of the rail times the bead's lever is in it.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from panewright.structure.space.conditions import HELD_MPA
from panewright.structure.space.member import Array
from panewright.structure.space.ring import Build, Stood
from panewright.structure.space.run import Run

_SAME_MM = 1e-6
LEVEL_MM = 1.0  #: a bead's line no farther from the shear centre's height lies at it
_LOOKS = np.array([0.0, 0.25, 0.5, 0.75, 1.0])
_PEAK_SHEAR = 5 / 4  # largest over the mean of a rectangle is 3/2; its area is counted by 5/6
CUBIC = np.stack(
    [
        1 - 3 * _LOOKS**2 + 2 * _LOOKS**3,
        _LOOKS - 2 * _LOOKS**2 + _LOOKS**3,
        3 * _LOOKS**2 - 2 * _LOOKS**3,
        _LOOKS**3 - _LOOKS**2,
    ],
    axis=1,
)


@dataclass(frozen=True, slots=True)
class Figures:
    """The largest of each run; axes (conditions, frames, runs)."""

    sag_mm: Array
    sideways_mm: Array  #: of the bead's line on the seat
    twist_deg: Array
    stress_mpa: Array  #: along the rail, at any fibre
    torsion_mpa: Array  #: shear of twisting
    shear_mpa: Array  #: shear of the forces across and sideways, in the wall that bears each


def table(build: Build, stood: Stood, runs: tuple[Run, ...], *, whole: bool) -> Array:
    """The same figures side by side, axes (conditions, frames, runs, figures in their order)."""
    found = figures(build, stood, runs, whole=whole)
    return np.stack([getattr(found, field.name) for field in fields(Figures)], axis=-1)


def figures(build: Build, stood: Stood, runs: tuple[Run, ...], *, whole: bool) -> Figures:
    """Largest figures of runs that are alike in all frames but for their places."""
    beside = stood.moved[..., 1] - build.bead_mm[1] * stood.moved[..., 3]
    return Figures(
        sag_mm=sag_mm(build, stood, runs, whole=whole),
        sideways_mm=np.abs(beside).max(axis=-1),
        twist_deg=np.degrees(np.abs(twist_rad(build, stood)).max(axis=(-2, -1))),
        stress_mpa=np.abs(stress_mpa(build, stood)).max(axis=(-3, -2, -1)),
        torsion_mpa=_most_torque(stood.ends) / build.member.torsion_mm3,
        shear_mpa=_most_shear_mpa(build, stood.ends),
    )


def sag_mm(build: Build, stood: Stood, runs: tuple[Run, ...], *, whole: bool) -> Array:
    """The sag alone, axes (conditions, frames, runs): what a search of places asks for. [mm]"""
    return _wave(edge_mm(build, stood), looks_mm(stood), runs, whole=whole)


def looks_mm(stood: Stood) -> Array:
    """Places that are looked at, from each run's first corner; axes (frames, runs, members, looks)."""
    place = stood.place_mm
    return np.asarray(place[..., :-1, None] + np.diff(place)[..., None] * _LOOKS)


def edge_mm(build: Build, stood: Stood) -> Array:
    """Height of the bead's line in each look, axes (conditions, frames, runs, members, looks)."""
    lengths, height, falls = np.diff(stood.place_mm), stood.moved[..., 2], -stood.moved[..., 4]
    middle = _cubic(height[..., :-1], falls[..., :-1] * lengths, height[..., 1:], falls[..., 1:] * lengths)
    return middle + build.bead_mm[0] * twist_rad(build, stood)


def twist_rad(build: Build, stood: Stood) -> Array:
    """Twist in each look; its slope is the torque over G J."""
    pace = np.diff(stood.place_mm) / (build.member.shear_mpa * build.member.j_mm4 * stood.seat)
    twist, ends = stood.moved[..., 3], stood.ends
    return _cubic(twist[..., :-1], -ends[..., 3] * pace, twist[..., 1:], ends[..., 9] * pace)


def stress_mpa(build: Build, stood: Stood) -> Array:
    """Stress along the rail in each look at every fibre (last axis): pull and both moments."""
    inward, up = build.member.centroid_mm
    ends, lengths = stood.ends, np.diff(stood.place_mm)
    pull = ends[..., 6]
    across = _ends(ends[..., 4] - up * ends[..., 0], up * pull - ends[..., 10], ends[..., 2::6], lengths)
    beside = _ends(
        -ends[..., 5] - inward * ends[..., 0], inward * pull + ends[..., 11], ends[..., 1::6], lengths
    )
    if abs(build.bead_mm[1]) < LEVEL_MM:  # a line that does not move sideways bends no rail sideways
        rigid = (stood.spring_mpa >= HELD_MPA)[:, None, None, None, None]
        beside = np.where(rigid, across * build.member.ixy_mm4 / build.member.ix_mm4, beside)
    along = np.broadcast_to(pull[..., None], (*pull.shape, len(_LOOKS)))
    parts = np.stack([along, beside @ CUBIC.T, across @ CUBIC.T], axis=-1)
    return np.asarray(parts @ build.member.stress_rows.T)


def _ends(first: Array, last: Array, shears: Array, lengths: Array) -> Array:
    """A moment at both ends of members, each with its slope: the shear, signed as forces on the ends are."""
    return np.stack([first, shears[..., 0] * lengths, last, -shears[..., 1] * lengths], axis=-1)


def bracket_forces_n(stood: Stood, *, whole: bool) -> Array:
    """Force of each bracket on its rail: along, sideways, up; nothing at other nodes. [N]

    Axes (conditions, frames, runs, nodes, 3). A bracket in the middle of a rail has its other half beyond.
    """
    force = np.zeros(stood.moved[..., :3].shape)
    force[..., :-1, :] += stood.ends[..., :3]
    force[..., 1:, :] += stood.ends[..., 6:9]
    if not whole:
        force[..., -1, 1:] *= 2
        force[..., -1, 0] = 0
    return np.asarray(force * stood.held[..., None])


def slides_mm(build: Build, stood: Stood) -> Array:
    """How far the rail slides along itself at each bracket's bolt; nothing at other nodes. [mm]

    Axes (conditions, frames, runs, nodes).
    """
    inward, up = build.bolt_mm
    moved = stood.moved
    return np.asarray(np.abs(moved[..., 0] + up * moved[..., 4] - inward * moved[..., 5]) * stood.held)


def corner_forces(stood: Stood) -> Array:
    """Of each run on its first corner, in its own axes: along, sideways, up [N], and three moments [N mm]."""
    return -stood.ends[..., 0, :6]


def _cubic(first: Array, first_slope: Array, last: Array, last_slope: Array) -> Array:
    """Cubics through both ends of members with the slopes there (per length of the member)."""
    return np.asarray(np.stack([first, first_slope, last, last_slope], axis=-1) @ CUBIC.T)


def _wave(edge: Array, place: Array, runs: tuple[Run, ...], *, whole: bool) -> Array:
    """Highest less lowest place of the pane's edge, from the line through its corners."""
    start, end = (np.array([run.load[at][0] for run in runs])[None, :, None, None] for at in (0, -1))
    under = (place > start - _SAME_MM) & (place < end + _SAME_MM)
    if whole:
        share = (place - start) / (end - start)
        edge = edge - _at(edge, place, start) * (1 - share) - _at(edge, place, end) * share
    high, low = np.where(under, edge, -np.inf), np.where(under, edge, np.inf)
    return np.asarray(high.max(axis=(-2, -1)) - low.min(axis=(-2, -1)))


def _at(edge: Array, place: Array, where: Array) -> Array:
    """Height at the look nearest to a place, kept as a column of its own."""
    flat, away = edge.reshape(*edge.shape[:-2], -1), np.abs(place - where)
    near = away.reshape(*away.shape[:-2], -1).argmin(axis=-1)
    found = np.take_along_axis(flat, np.broadcast_to(near, flat.shape[:-1])[..., None], axis=-1)
    return np.asarray(found[..., None])


def _most_torque(ends: Array) -> Array:
    return np.asarray(np.maximum(np.abs(ends[..., 3]), np.abs(ends[..., 9])).max(axis=-1))


def _most_shear_mpa(build: Build, ends: Array) -> Array:
    """Forces sideways and across, each borne by the walls along it; walls differ, so the worse one counts."""
    forces = np.maximum(np.abs(ends[..., 1:3]), np.abs(ends[..., 7:9]))
    return np.asarray((_PEAK_SHEAR * forces / np.array(build.member.shear_area_mm2)).max(axis=(-2, -1)))
