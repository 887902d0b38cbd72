"""A drawing for the workshop's machines: DXF R2010, one file unit a millimetre or an inch.

Layers carry our names. Outlines are closed polylines, dimensions are real ones whose figure the reading
program makes from the geometry: the linear factor is 1 and nothing is typed over it. The same drawing
gives the same bytes.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Literal, get_args

from ezdxf import filemanagement
from ezdxf._options import options
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment

from panewright.drawing.bounds import Bounds, bounds
from panewright.drawing.dimension import line_ends
from panewright.drawing.drawing import Align, Arc, Dimension, Drawing, Item, Layer, Path, Point, Text
from panewright.drawing.lettering import CAPITAL
from panewright.paper.ink import INKS, THICK, THIN
from panewright.paper.words import printable
from panewright.units import INCH_MM

Units = Literal["metric", "us"]

_PLACES: dict[Align, TextEntityAlignment] = {
    "left": TextEntityAlignment.LEFT,
    "centre": TextEntityAlignment.CENTER,
    "right": TextEntityAlignment.RIGHT,
}
_LINETYPES: dict[str, tuple[str, list[float]]] = {  # mm: whole length, then dash (+), gap (-), dot (0)
    "PW_DASHED": ("dashed __ __ __", [3.6, 2.4, -1.2]),
    "PW_DASHDOT": ("dash dot __ . __", [9.0, 6.0, -1.2, 0.6, -1.2]),
    "PW_DOTTED": ("dotted . . . .", [1.3, 0.4, -0.9]),
}
_LAYER_LINETYPES: dict[str, str] = {
    "hidden": "PW_DASHED",
    "cut": "PW_DASHED",
    "centre": "PW_DASHDOT",
    "limit": "PW_DOTTED",
}


def dxf(drawing: Drawing, units: Units = "metric") -> bytes:
    """The drawing as a DXF file at full size, in millimetres or inches."""
    if units not in ("metric", "us"):
        raise ValueError(f"units are 'metric' or 'us', got {units!r}")
    per_mm = 1.0 if units == "metric" else 1 / INCH_MM
    with _no_clock():
        document = _document(drawing, per_mm, units)
        for item in drawing.items:
            _add(document.modelspace(), item, per_mm, units)
        for kind in sorted(document.entitydb.dxf_types_in_use()):  # a set: its order is not its own
            document.classes.add_class(kind)
        stream = io.StringIO()
        document.write(stream)
    return stream.getvalue().encode("utf-8", errors="replace")


@contextmanager
def _no_clock() -> Iterator[None]:
    """Dates and identifiers in the file's head are fixed while a drawing is written."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _document(drawing: Drawing, per_mm: float, units: Units) -> Document:
    """An empty file with its unit, line types, layers in use and the view on the whole drawing."""
    document = filemanagement.new("R2010", setup=False, units=4 if units == "metric" else 1)
    document.header["$MEASUREMENT"] = 1 if units == "metric" else 0
    document.header["$LTSCALE"] = 1.0
    for name, (words, pattern) in _LINETYPES.items():
        document.linetypes.add(name, [length * per_mm for length in pattern], description=words)
    used = {"dimension" if isinstance(item, Dimension) else item.layer for item in drawing.items}
    for layer in get_args(Layer):
        if layer in used:
            _add_layer(document, layer)
    _look_at(document, bounds(drawing), per_mm)
    return document


def _add_layer(document: Document, layer: Layer) -> None:
    ink = INKS[layer]
    colour = ink.letters if ink.stroke == "none" else ink.stroke
    added = document.layers.add(layer, linetype=_LAYER_LINETYPES.get(layer, "Continuous"))
    added.rgb = _rgb(colour)
    added.dxf.lineweight = 18 if ink.width_mm <= THIN else 70 if ink.width_mm >= THICK else 35


def _rgb(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _look_at(document: Document, seen: Bounds, per_mm: float) -> None:
    """Where the drawing lies, for programs that open it, and limits round it."""
    low = (seen.left * per_mm, seen.bottom * per_mm)
    high = (seen.right * per_mm, seen.top * per_mm)
    document.header["$LIMMIN"], document.header["$LIMMAX"] = low, high
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (*low, 0), (*high, 0)
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    tall = max(seen.height_mm, seen.width_mm / 1.6, 1.0) * per_mm
    document.set_modelspace_vport(height=tall * 1.1, center=middle)


def _add(space: Any, item: Item, per_mm: float, units: Units) -> None:
    match item:
        case Path():
            _add_path(space, item, per_mm)
        case Arc():
            _add_arc(space, item, per_mm)
        case Text():
            _add_text(space, item, per_mm)
        case Dimension():
            _add_dimension(space, item, per_mm, units)


def _add_path(space: Any, path: Path, per_mm: float) -> None:
    """All points in one go, each with no width at either end and no bulge: one by one they cost far more."""
    added = space.add_lwpolyline((), close=path.closed, dxfattribs={"layer": path.layer})
    added.lwpoints.set([(*_scaled(point, per_mm), 0.0, 0.0, 0.0) for point in path.points])


def _scaled(point: Point, per_mm: float) -> Point:
    return point[0] * per_mm, point[1] * per_mm


def _add_arc(space: Any, arc: Arc, per_mm: float) -> None:
    centre, radius, look = _scaled(arc.centre, per_mm), arc.radius_mm * per_mm, {"layer": arc.layer}
    if (arc.end_deg - arc.start_deg) in (0.0, 360.0):
        space.add_circle(centre, radius, dxfattribs=look)
    else:
        space.add_arc(centre, radius, arc.start_deg, arc.end_deg, dxfattribs=look)


def _add_text(space: Any, text: Text, per_mm: float) -> None:
    """DXF letters are measured by their capitals, ours by their body."""
    tall = text.height_mm * CAPITAL * per_mm
    look = {"layer": text.layer, "height": tall, "rotation": text.angle_deg}
    entity = space.add_text(_coded(text.words), dxfattribs=look)
    entity.set_placement(_scaled(text.at, per_mm), align=_PLACES[text.align])


def _coded(words: str) -> str:
    """Words in which % and ^ call no special letter: a space parts the two signs that would."""
    return printable(words).replace("\u00a0", " ").replace("%%", "% %").replace("^", "^ ")


def _add_dimension(space: Any, dimension: Dimension, per_mm: float, units: Units) -> None:
    """A real dimension; its figure is measured by whoever opens the file, and drawn here once."""
    start, end = _scaled(dimension.start, per_mm), _scaled(dimension.end, per_mm)
    note = f" {_coded(dimension.note)}" if dimension.note else ""
    look = _dimension_style(dimension.height_mm * per_mm, units) | {"dimpost": f"<>{note}"}
    attributes = {"layer": "dimension"}
    if dimension.axis == "along":
        made = space.add_aligned_dim(
            start, end, dimension.offset_mm * per_mm, override=look, dxfattribs=attributes
        )
    else:
        made = space.add_linear_dim(
            base=_scaled(line_ends(dimension)[0], per_mm),
            p1=start,
            p2=end,
            angle=0 if dimension.axis == "x" else 90,
            override=look,
            dxfattribs=attributes,
        )
    made.render()


def _dimension_style(body: float, units: Units) -> dict[str, Any]:
    """Linear factor 1, a point before the decimals, none that say nothing."""
    return {
        "dimlfac": 1.0,
        "dimscale": 1.0,
        "dimdsep": ord("."),
        "dimdec": 2 if units == "metric" else 4,  # of an inch: 0.003 mm
        "dimzin": 8,
        "dimtxt": body * CAPITAL,
        "dimasz": body * 0.8,
        "dimexo": body * 0.4,
        "dimexe": body * 0.5,
        "dimgap": body * 0.28,
        "dimtad": 1,
    }
