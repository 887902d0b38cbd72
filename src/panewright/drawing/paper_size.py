"""The two papers a maker prints on, and the room they leave for a figure."""

from __future__ import annotations

from typing import Literal, NamedTuple

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing

Paper = Literal["A4", "Letter"]


class Size(NamedTuple):
    """Width and height. [mm]"""

    width_mm: float
    height_mm: float


PAPERS: dict[Paper, Size] = {"A4": Size(210.0, 297.0), "Letter": Size(215.9, 279.4)}
LEFT_MM, RIGHT_MM = 22.0, 16.0  #: margins of a book's page; the left one bears a file's holes
TOP_MM, BOTTOM_MM = 27.0, 15.0
TILE_MARGIN_MM = 9.0  #: of a sheet at full size: what few printers reach
TILE_STRIP_MM = 25.0  #: for words, map and check bars under its picture
_TITLE_MM, _CAPTION_MM = 15.0, 9.0
_EDGE_MM = 1.4  # a figure's outermost line is drawn whole: 0.7 mm more on each side

_ROUND = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.5, 8.0)


def text_area(paper: Paper) -> Size:
    """The part of a book's page that blocks may fill. [mm]"""
    whole = PAPERS[paper]
    return Size(whole.width_mm - LEFT_MM - RIGHT_MM, whole.height_mm - TOP_MM - BOTTOM_MM)


def figure_area(paper: Paper) -> Size:
    """The largest figure that fits on one page under the page's title and over its caption. [mm]"""
    area = text_area(paper)
    return Size(area.width_mm, area.height_mm - _TITLE_MM - _CAPTION_MM)


def tile_area(paper: Paper) -> Size:
    """What one sheet at full size shows of a drawing. [mm]"""
    whole = PAPERS[paper]
    return Size(whole.width_mm - 2 * TILE_MARGIN_MM, whole.height_mm - 2 * TILE_MARGIN_MM - TILE_STRIP_MM)


def scale_to_fit(drawing: Drawing, room: Size, system: str = "metric") -> float:
    """The smallest round scale, 1 at least, at which a drawing fits a room; 10 prints ten as one."""
    size = bounds(drawing, system)
    wide, high = size.width_mm / (room.width_mm - _EDGE_MM), size.height_mm / (room.height_mm - _EDGE_MM)
    needed = max(1.0, wide, high)
    tenfold = 1.0
    while True:
        for leading in _ROUND:
            if leading * tenfold >= needed - 1e-9:
                return leading * tenfold
        tenfold *= 10
