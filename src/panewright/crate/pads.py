"""Foam pads by their sides: where they lie on the stack, and what to cut.

Four lie on each face, at its corners, of the panel's own shape, or where four would be so small that they
buckle two across its ends; two under and two over the stack, and two at each end, at the corners and as wide
as the stack is deep. Under a light panel two would be so stiff that one in the middle serves better. Each is
cut to whole steps of a rule, and proved as it is cut.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from panewright.crate.cushion import Bearing, Cushion, Cut, Side
from panewright.crate.stack import BLOCK_SIDE_MM, BLOCKS, Stack
from panewright.crate.timber import Board, Yard

PADS: dict[Side, tuple[int, ...]] = {"face": (4, 2), "edge": (2, 1), "end": (2, 1)}
BETWEEN = {"panel": "block between frames", "kit": "block between kits"}
_AT_CORNERS = 4
_MOST_SHARE = 0.9  # of a side that pads may take


@dataclass(frozen=True, slots=True)
class Pad:
    """One pad: along the panel's side it lies on, and across it. [mm]"""

    along_mm: float
    across_mm: float


def bearing(stack: Stack, side: Side, fall_mm: float, fragile_g: float) -> Bearing:
    """What a side of the stack asks of its foam."""
    panel = stack.panel
    room = {
        "face": panel.long_mm * panel.short_mm,
        "edge": panel.long_mm * stack.deep_mm,
        "end": panel.short_mm * stack.deep_mm,
    }[side]
    mass = stack.panels * panel.mass_kg
    return Bearing(side, mass, fall_mm, fragile_g, _MOST_SHARE * room, PADS[side])


def pad(stack: Stack, cushion: Cushion) -> Pad:
    """The sides of one pad; on edges and ends it is as wide as the stack is deep."""
    if cushion.sides_mm:
        return Pad(*cushion.sides_mm)
    panel, side = stack.panel, cushion.asked.side
    one_mm2 = cushion.area_mm2 / cushion.pads
    if side != "face":
        return Pad(one_mm2 / stack.deep_mm, stack.deep_mm)
    if cushion.pads < _AT_CORNERS:
        return Pad(one_mm2 / panel.short_mm, panel.short_mm)
    share = float((one_mm2 / (panel.long_mm * panel.short_mm)) ** 0.5)
    return Pad(share * panel.long_mm, share * panel.short_mm)


def whole_pads(yard: Yard, stack: Stack) -> Cut:
    """Who cuts pads to whole steps of a rule: a little larger, a little smaller, or one side of each."""
    return lambda made: _whole(yard, stack, made)


def _whole(yard: Yard, stack: Stack, made: Cushion) -> Iterator[Cushion]:
    """Such pads with their own area; those that there is no room for are left out."""
    ideal = pad(stack, made)
    ways = product(_steps(yard, ideal.along_mm), _steps(yard, ideal.across_mm))
    cut = [(made.pads * along * across, (along, across)) for along, across in ways]
    room = [each for each in cut if each[0] <= made.asked.room_mm2]
    for area, sides in sorted(room or cut[-1:], key=lambda each: abs(each[0] - made.area_mm2)):
        yield replace(made, area_mm2=area, sides_mm=sides)


def _steps(yard: Yard, size_mm: float) -> tuple[float, float]:
    """The step of a rule above, and the one below; one step at least."""
    return yard.up(size_mm), max(yard.step_mm, yard.down(size_mm))


def foam_boards(yard: Yard, stack: Stack, cushions: tuple[Cushion, ...]) -> tuple[Board, ...]:
    """Pads of all six sides, and the blocks between the frames."""
    edge = "pad under or over" if stack.lay == "on edge" else "pad along a side"
    names = {"face": "pad on a face", "edge": edge, "end": "pad at an end"}
    pads = []
    for cushion in cushions:
        one, side = pad(stack, cushion), cushion.asked.side
        count = 2 * cushion.pads
        pads.append(Board(names[side], "foam", one.along_mm, one.across_mm, cushion.thickness_mm, count))
    thick, side_mm = yard.up(stack.panel.block_mm), yard.up(BLOCK_SIDE_MM)
    return (*pads, Board(BETWEEN[stack.panel.goods], "foam", side_mm, side_mm, thick, BLOCKS * stack.panels))
