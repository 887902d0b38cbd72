"""Foam pads by their sides: where they lie on the stack, and what to cut.

Four lie on each face, at its corners, of the panel's own shape, or where four would be so small that they
buckle two across its ends; two under and two over the stack, and two at each end, at the corners and as wide
as the stack is deep.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.crate.cushion import Bearing, Cushion, Side
from panewright.crate.stack import BLOCK_SIDE_MM, BLOCKS, Stack
from panewright.crate.timber import Board

PADS: dict[Side, tuple[int, ...]] = {"face": (4, 2), "edge": (2,), "end": (2,)}
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
    panel, side = stack.panel, cushion.asked.side
    one_mm2 = cushion.area_mm2 / cushion.pads
    if side != "face":
        return Pad(one_mm2 / stack.deep_mm, stack.deep_mm)
    if cushion.pads < _AT_CORNERS:
        return Pad(one_mm2 / panel.short_mm, panel.short_mm)
    share = float((one_mm2 / (panel.long_mm * panel.short_mm)) ** 0.5)
    return Pad(share * panel.long_mm, share * panel.short_mm)


def foam_boards(stack: Stack, cushions: tuple[Cushion, ...]) -> tuple[Board, ...]:
    """Pads of all six sides, and the blocks between the frames."""
    names = {"face": "pad on a face", "edge": "pad under or over", "end": "pad at an end"}
    pads = []
    for cushion in cushions:
        one, side = pad(stack, cushion), cushion.asked.side
        count = 2 * cushion.pads
        pads.append(Board(names[side], "foam", one.along_mm, one.across_mm, cushion.thickness_mm, count))
    thick, blocks = stack.panel.block_mm, BLOCKS * stack.panels
    return (*pads, Board("block between frames", "foam", BLOCK_SIDE_MM, BLOCK_SIDE_MM, thick, blocks))
