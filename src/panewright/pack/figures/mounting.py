"""What carries the panel, from the side, to scale: the whole on a post or on ballast, or one bracket on its
support.

The sun is at the left. Arrows show which way a force acts; their length says nothing, their figures all.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from panewright.drawing.drawing import Dimension, Drawing, Item, Layer, Path, Point, Text, box
from panewright.panel.design import Design
from panewright.structure.mounting.choice import MountingProof
from panewright.structure.mounting.forces import Panel
from panewright.structure.mounting.ground.ballast import Stand, stack_mm
from panewright.structure.mounting.ground.post import Standing
from panewright.structure.mounting.timber.wood import WASHER_MM
from panewright.units import show

_ARROW = 6.0  # lengths of a letter
_HEAD = 0.8
_LOW_DEG = 20.0  # from here on both arrows lean out to the left


def mounting_figure(design: Design, text_mm: float) -> Drawing:
    """The mounting of a design. [mm]"""
    proof, units = design.structural.mounting, design.order.job.units
    if proof.standing:
        items = [*_on_post(proof.standing, design, text_mm)]
    elif proof.stand:
        items = [*_on_ballast(proof.stand, proof, design, text_mm)]
    else:
        items = [*_on_support(proof, design, text_mm, units)]
    return Drawing("Mounting from the side", tuple(items))


def _arrow(start: Point, end: Point, text: float, layer: Layer = "warn") -> Iterator[Item]:
    """A force: a line and a head at its end."""
    long = math.dist(start, end) or 1.0
    along = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    foot = end[0] - _HEAD * text * along[0], end[1] - _HEAD * text * along[1]
    half = 0.35 * _HEAD * text
    wings = (
        (foot[0] - half * along[1], foot[1] + half * along[0]),
        (
            foot[0] + half * along[1],
            foot[1] - half * along[0],
        ),
    )
    yield Path((start, foot), layer)
    yield Path((end, *wings), layer, closed=True, filled=True)


def _tilted(panel: Panel, middle: Point, along_mm: float, off_mm: float) -> Point:
    """A point of the panel: up its slope from the middle, and out of its face towards the sun."""
    tilt = math.radians(panel.tilt_deg)
    x = middle[0] + along_mm * math.cos(tilt) - off_mm * math.sin(tilt)
    return x, middle[1] + along_mm * math.sin(tilt) + off_mm * math.cos(tilt)


def _panel(design: Design, middle: Point, text: float, clear_mm: float = 0.0) -> Iterator[Item]:
    """The panel's edge with wind each way, and its weight beside `clear_mm`."""
    panel, units = design.structural.mounting.panel, design.order.job.units
    half, deep = panel.slope_mm / 2, design.structural.rail.upright_mm
    corners = ((-half, 0.0), (half, 0.0), (half, -deep), (-half, -deep))
    yield Path(tuple(_tilted(panel, middle, *corner) for corner in corners), "pane", True, True)
    reach, gap = _ARROW * text, 0.5 * text
    press = _tilted(panel, middle, half / 2, reach + gap), _tilted(panel, middle, half / 2, gap)
    lift = _tilted(panel, middle, -half / 2, gap), _tilted(panel, middle, -half / 2, reach + gap)
    yield from _arrow(*press, text)
    yield from _arrow(*lift, text)
    words = f"wind presses {show(panel.down_n, 'N', units)}"
    if panel.tilt_deg < _LOW_DEG:
        yield Text((press[0][0] + 0.4 * text, press[0][1] + 0.3 * text), words, text)
    else:
        yield Text((press[0][0] - 0.4 * text, press[0][1] + 0.3 * text), words, text, align="right")
    words = f"wind lifts {show(panel.up_n, 'N', units)}"
    yield Text((lift[1][0] - 0.4 * text, lift[1][1] - text), words, text, align="right")
    foot = _tilted(panel, middle, half, -deep)
    beside = max(foot[0], clear_mm) + 2 * text
    weight = (beside, foot[1]), (beside, foot[1] - reach)
    yield from _arrow(*weight, text, "ink")
    words = f"weight {show(panel.mass_kg, 'kg', units)}"
    yield Text((weight[1][0] + text, weight[1][1]), words, text)


def _ground(left: float, right: float) -> Path:
    return Path(((left, 0.0), (right, 0.0)), "border")


def _on_post(standing: Standing, design: Design, text: float) -> Iterator[Item]:
    """Post, concrete and ground."""
    post, deep, collar = standing.post, standing.embedment_mm, standing.collar_mm
    half = post.outer_mm / 2
    yield box(-collar / 2, -deep, collar / 2, 0.0, "bead", filled=True)
    yield box(-half, -deep, half, standing.height_mm - design.structural.rail.upright_mm, "rail", filled=True)
    wide = max(standing.panel.reach_mm / 2, collar) + 2 * text
    yield _ground(-wide, wide)
    yield from _panel(design, (0.0, standing.height_mm), text)
    side = max(standing.panel.reach_mm / 2, collar / 2)
    far = -(side + 12 * text)
    yield Dimension((0.0, 0.0), (0.0, standing.height_mm), far, text, "y", outside=True)
    yield Dimension((-collar / 2, 0.0), (-collar / 2, -deep), -3 * text, text, "y", outside=True)
    yield Dimension(
        (-collar / 2, -deep), (collar / 2, -deep), -2.5 * text, text, "x", "concrete", outside=True
    )
    units = design.order.job.units
    at = half + _ARROW * text, 1.2 * text
    yield from _arrow(at, (half + 0.5 * text, at[1]), text)
    loads = standing.loads
    words = f"{show(loads.level_n, 'N', units)} level, {show(loads.moment_nm, 'N m', units)} at the ground"
    yield Text((collar / 2 + text, -1.6 * text), words, text)
    yield Text((collar / 2 + text, -3.2 * text), post.name, text)


def _on_ballast(stand: Stand, proof: MountingProof, design: Design, text: float) -> Iterator[Item]:
    """Footprint, both rows of blocks and the stand's legs."""
    half, panel, units = stand.depth_mm / 2, stand.panel, design.order.job.units
    middle = (0.0, stand.middle_mm)
    reach = panel.reach_mm / 2
    for foot, top in (
        ((-half, 0.0), (-reach, stand.low_edge_mm)),
        ((half, 0.0), (reach, stand.low_edge_mm + panel.rise_mm)),
    ):
        yield Path((foot, top), "rail")
    yield Path(((-half, 0.0), (half, 0.0)), "rail")
    yield _ground(-half - 4 * text, half + 4 * text)
    if block := proof.block:
        high = stack_mm(stand, block, proof.blocks)
        for left in (-half, half - block.short_mm):
            yield box(left, 0.0, left + block.short_mm, high, "band", filled=True)
        words = f"{proof.blocks // 2} of {block.name} in each row"
        yield Text((0.0, -5.5 * text), words, text, align="centre")
    yield from _panel(design, middle, text, half)
    yield Dimension((-half, 0.0), (half, 0.0), -2.0 * text, text, "x", "footprint")
    total = proof.blocks * (proof.block.mass_kg if proof.block else 0.0)
    yield Text((0.0, -7.2 * text), f"ballast {show(total, 'kg', units)}", text, align="centre", bold=True)


def _on_support(proof: MountingProof, design: Design, text: float, units: str) -> Iterator[Item]:
    """One bracket cut through, its fastener, the rail's leg beside it."""
    bracket, rail = proof.bracket, design.structural.rail
    leg, wall = bracket.leg_mm, bracket.wall_mm
    at = leg - bracket.toe_mm
    yield from _support(proof, at, text)
    outline = ((0.0, 0.0), (leg, 0.0), (leg, wall), (wall, wall), (wall, leg), (0.0, leg))
    yield Path(outline, "bracket", closed=True, filled=True)
    high = max(leg, rail.upright_mm) + 4.0
    yield box(-rail.wall_mm, 4.0, 0.0, high, "rail", filled=True)
    yield box(-rail.wall_mm - 5.0, leg / 2 - 3.0, wall + 5.0, leg / 2 + 3.0, "hole")
    lift = (-rail.wall_mm / 2, high + 0.5 * text), (-rail.wall_mm / 2, high + _ARROW * text)
    yield from _arrow(*lift, text)
    forces = proof.forces
    yield Text(
        (lift[1][0] + text, lift[1][1] - text),
        f"up {show(forces.up_n, 'N', units)}, down {show(forces.down_n, 'N', units)}",
        text,
    )
    slid = (leg + _ARROW * text, leg / 2), (wall + 6.0, leg / 2)
    yield from _arrow(*slid, text)
    yield Text(
        (slid[0][0] + 0.5 * text, slid[0][1] - 0.33 * text),
        f"down the slope and off the rail {show(max(forces.pushed_down_n, forces.pushed_up_n), 'N', units)}",
        text,
    )
    under = min(wall + 0.5 * text, slid[0][1] - 2.0 * text)  # clear of the line above it
    yield Text((slid[0][0] + 0.5 * text, under), bracket.name, text)


def _support(proof: MountingProof, at: float, text: float) -> Iterator[Item]:
    """Timber with its screw, a metal wall with its bolt, or only a line."""
    wall = proof.bracket.wall_mm
    if joint := proof.screwed:
        left, right = at - joint.width_mm / 2, at + joint.width_mm / 2
        yield box(left, -joint.depth_mm, right, 0.0, "band", filled=True)
        yield Path(
            ((left, 0.0), (right, 0.0), (right, -joint.depth_mm), (left, -joint.depth_mm)), "border", True
        )
        half = joint.screw.diameter_mm / 2
        head = wall + WASHER_MM
        yield box(at - half, -joint.in_wood_mm, at + half, head, "hole", filled=True)
        yield box(at - 1.7 * half, head, at + 1.7 * half, head + 1.2 * half, "hole", filled=True)
        yield Dimension((left, -joint.depth_mm), (left, 0.0), 2.5 * text, text, "y")
        aside = joint.width_mm / 2 + 2.5 * text
        yield Dimension((at, 0.0), (at, -joint.in_wood_mm), aside, text, "y", outside=True)
        beside = proof.bracket.leg_mm + (_ARROW + 0.5) * text
        words = f"{joint.screw.name}, in {joint.timber.name}"
        yield Text((beside, proof.bracket.leg_mm / 2 + 1.3 * text), words, text)
    elif bolt := proof.bolted:
        half = bolt.bolt.diameter_mm / 2
        yield box(at - 60.0, -bolt.wall_mm, at + 60.0, 0.0, "rail", filled=True)
        yield box(at - half, -bolt.wall_mm - 10.0, at + half, wall + 5.0, "hole", filled=True)
        yield Text((at - 60.0, -bolt.wall_mm - 10.0 - 1.8 * text), f"{bolt.bolt.name}, in {bolt.metal}", text)
    else:
        yield Path(((at - 60.0, 0.0), (at + 60.0, 0.0)), "hidden")
        yield Text((at - 60.0, -1.8 * text), "whatever carries the panel: not proved here", text)
