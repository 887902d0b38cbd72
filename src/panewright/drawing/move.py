"""A drawing moved, seen from its other side, or laid together with others.

The maker works sunny side down, so the bench sees the panel mirrored. Geometry turns round a vertical
line; words move with it but stay readable, and the drawing says which side it now shows.
"""

from __future__ import annotations

from dataclasses import replace

from panewright.drawing.dimension import explode
from panewright.drawing.drawing import Align, Arc, Dimension, Drawing, Item, Path, Point, Side, Text
from panewright.drawing.lettering import CAPITAL

_OTHER_SIDE: dict[Side, Side] = {
    "sunny side up": "sunny side down",
    "sunny side down": "sunny side up",
    "": "",
}
_OTHER_END: dict[Align, Align] = {"left": "right", "right": "left", "centre": "centre"}


def moved(drawing: Drawing, right_mm: float, up_mm: float) -> Drawing:
    """The same drawing further right and up."""
    return replace(drawing, items=tuple(_moved(item, right_mm, up_mm) for item in drawing.items))


def _moved(item: Item, right: float, up: float) -> Item:
    def shift(point: Point) -> Point:
        return point[0] + right, point[1] + up

    match item:
        case Path():
            return replace(item, points=tuple(map(shift, item.points)))
        case Arc():
            return replace(item, centre=shift(item.centre))
        case Text():
            return replace(item, at=shift(item.at))
        case Dimension():
            return replace(item, start=shift(item.start), end=shift(item.end))


def enlarged(drawing: Drawing, times: float, system: str = "metric") -> Drawing:
    """The drawing so many times as large, its figures as they were: a detail beside the whole."""
    flat = (
        part
        for item in drawing.items
        for part in (explode(item, system) if isinstance(item, Dimension) else (item,))
    )
    return replace(drawing, items=tuple(_enlarged(item, times) for item in flat))


def _enlarged(item: Item, times: float) -> Item:
    def scale(point: Point) -> Point:
        return point[0] * times, point[1] * times

    match item:
        case Path():
            return replace(item, points=tuple(map(scale, item.points)))
        case Arc():
            return replace(item, centre=scale(item.centre), radius_mm=item.radius_mm * times)
        case Text():
            return replace(item, at=scale(item.at), height_mm=item.height_mm * times)
        case Dimension():
            raise ValueError("a dimension tells its own length; take it apart before it is enlarged")


def mirrored(drawing: Drawing, axis_x_mm: float) -> Drawing:
    """The drawing seen from its other side, turned round the vertical line at `axis_x_mm`.

    For a pane of width w whose lower left corner is the origin the axis is w / 2.
    """
    items = tuple(_mirrored(item, axis_x_mm) for item in drawing.items)
    return replace(drawing, items=items, side=_OTHER_SIDE[drawing.side])


def _mirrored(item: Item, axis: float) -> Item:
    def turn(point: Point) -> Point:
        return 2 * axis - point[0], point[1]

    match item:
        case Path():
            return replace(item, points=tuple(map(turn, reversed(item.points))))  # stays counter-clockwise
        case Arc():
            return _mirrored_arc(item, turn(item.centre))
        case Text():
            return _mirrored_text(item, turn(item.at))
        case Dimension():
            return replace(item, start=turn(item.start), end=turn(item.end), offset_mm=-item.offset_mm)


def _mirrored_arc(arc: Arc, centre: Point) -> Arc:
    if arc.end_deg - arc.start_deg == 360.0:
        return replace(arc, centre=centre)
    return replace(arc, centre=centre, start_deg=180.0 - arc.end_deg, end_deg=180.0 - arc.start_deg)


def _mirrored_text(text: Text, at: Point) -> Text:
    """Words keep their place on the part; upright ones still read from the right-hand side."""
    align = _OTHER_END[text.align]
    if abs(abs(text.angle_deg) - 90.0) < 1e-9:
        across = CAPITAL * text.height_mm * (1 if text.angle_deg > 0 else -1)
        return replace(text, at=(at[0] + across, at[1]))  # same direction, so the same end stays the foot
    return replace(text, at=at, align=align, angle_deg=-text.angle_deg)


def merged(name: str, drawings: tuple[Drawing, ...], side: Side | None = None) -> Drawing:
    """Several drawings as one, the first at the back; the side is theirs if they agree, else none."""
    items = tuple(item for drawing in drawings for item in drawing.items)
    sides = {drawing.side for drawing in drawings}
    common: Side = sides.pop() if len(sides) == 1 else ""
    return Drawing(name, items, common if side is None else side)
