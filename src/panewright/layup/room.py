"""How much room ribbons, tolerances and creepage need on the pane.

     pane edge
     |<- rim ->|<- creepage ->|  lane 2  |  lane 1  |<- bus offset ->| silicon
     metal seat               bus ribbon  bus ribbon                   first cell

Every figure here is common practice at the bench unless a source is named.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.cell.shape import Shape

BEND_ROOM_MM = 2.0  #: between two cells of the largest size: the ribbon's S-bend without a sharp fold
LEAST_GAP_MM = 1.0  #: two cells of the largest size never come closer than this
BUS_OFFSET_MM = 4.0  #: cell edge to the nearest bus, at least: room for the tab's bend and the iron
BUS_CLEAR_MM = 1.0  #: what is left of it when every cell of the column is of the largest size
LANE_GAP_MM = 3.0  #: between two bus ribbons side by side
LEADS_APART_MM = 40.0  #: minus lead to plus lead where both leave at one end; within one junction box
BUSES_APART_MM = 2.0  #: two buses end to end never come closer, under an encapsulant
BUS_PAST_TAB_MM = 3.0  #: a bus runs on this far past its last tab
INSET_MM = 2.0  #: a tab stops this far short of the cell's far edge, so that it never shorts over it
STEP_MM = 0.5  #: extra length for each bend from one level to another
PAD_MM = 5.0  #: a joint behind back-contact cells covers this much of each cell


@dataclass(frozen=True, slots=True)
class Room:
    """What the parts round the cells ask for. [mm]"""

    bus_width_mm: float = 5.0
    rim_mm: float = 0.0  #: how far metal reaches under the pane from its edge
    creepage_mm: float = 8.0  #: live part to metal or to the pane's edge

    def __post_init__(self) -> None:
        if self.bus_width_mm <= 0 or min(self.rim_mm, self.creepage_mm) < 0:
            raise ValueError(f"a bus has a width; rim and creepage are 0 or more, got {self}")


def gap_mm(shape: Shape) -> float:
    """Gap between nominal cells, in a column and between columns. [mm]

    The ribbon's bend, once the cells' tolerance and once as much for the hand that lays them; to half
    millimetres. 3 mm for the usual tolerance of 0.5 mm.
    """
    return math.ceil(2 * (BEND_ROOM_MM + 2 * shape.tolerance_mm) - 1e-9) / 2


def side_margin_mm(room: Room, shape: Shape) -> float:
    """Silicon to pane edge at the sides, to the next whole millimetre. [mm]"""
    return float(math.ceil(room.rim_mm + room.creepage_mm + shape.tolerance_mm - 1e-9))


def end_margin_mm(room: Room, shape: Shape, rows: int, lanes: int) -> float:
    """Silicon to pane edge at the ends, bus ribbons within, to the next whole millimetre. [mm]"""
    buses = bus_offset_mm(shape, rows) + lanes * room.bus_width_mm + (lanes - 1) * LANE_GAP_MM
    return float(math.ceil(room.rim_mm + room.creepage_mm + buses - 1e-9))


def bus_offset_mm(shape: Shape, rows: int) -> float:
    """Cell edge to the nearest bus. [mm]

    A soldered column may be longer than nominal by the tolerance of each of its cells, half at each end.
    """
    return max(BUS_OFFSET_MM, rows * shape.tolerance_mm / 2 + BUS_CLEAR_MM)


def lane_offset_mm(lane: int, bus_width_mm: float) -> float:
    """Middle of a bus in that lane from the inner edge of lane 1. [mm]"""
    return bus_width_mm / 2 + (lane - 1) * (bus_width_mm + LANE_GAP_MM)
