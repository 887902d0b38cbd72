"""The label on the back: what the panel is, what it can do, and what can hurt.

One label is 100 x 70 mm. Several serials make one sheet of labels, two across, each with its own number
and its own square code. The code holds the serial alone, so that a phone or a scanner finds the record.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.drawing.drawing import Drawing, Item, Path, Point, Text, box
from panewright.drawing.move import merged, moved
from panewright.enclosure.rating import TOUCH_V
from panewright.order.order import Job
from panewright.order.terms import Kit
from panewright.pack.figures.scale import fitted
from panewright.pack.kit_claim import on_label
from panewright.panel.design import Label
from panewright.units import show

WIDTH_MM, HEIGHT_MM = 100.0, 70.0
ACROSS = 2  #: labels side by side on a sheet
_APART_MM = 6.0
_EDGE_MM = 4.0
_CODE_MM = 21.0
_ROW_MM = 4.6
_QUIET = 4  # light modules a reader needs round the code, ISO/IEC 18004

FINISHED = Kit()
PREDICTED = "Predicted at STC: 1000 W/m², AM1.5G, cell at 25 °C."
IN_SERIES = "Live whenever light falls on it; in series it can kill. Direct current does not let go."
CAUTIONS = (
    "Live whenever light falls on it. Direct current does not let go.",
    "Hand built. Not listed, not certified. Local code and a licensed person decide its use.",
)


def labels(label: Label, job: Job, proven: bool, kit: Kit = FINISHED) -> Drawing:
    """One sheet with a label for every serial. [mm]"""
    each = []
    for place, serial in enumerate(label.serials):
        down, right = divmod(place, ACROSS)
        one = one_label(label, job, serial, proven, kit=kit)
        each.append(moved(one, right * (WIDTH_MM + _APART_MM), -down * (HEIGHT_MM + _APART_MM)))
    return merged("Label", tuple(each))


def one_label(label: Label, job: Job, serial: str, proven: bool, *, kit: Kit = FINISHED) -> Drawing:
    """The label of one serial, its lower left corner at the origin; a kit's has room for its builder. [mm]"""
    right = WIDTH_MM - _EDGE_MM
    code_left = right - _CODE_MM
    items: list[Item] = [box(0, 0, WIDTH_MM, HEIGHT_MM, "border")]
    room = code_left - 2 * _EDGE_MM
    maker = job.maker or job.name
    items.append(fitted((_EDGE_MM, 61.0), f"Kit of {maker}" if kit.is_kit else maker, 6.0, room, bold=True))
    items.append(fitted((_EDGE_MM, 55.0), f"Photovoltaic panel {job.name}", 3.6, room))
    number = fitted((_EDGE_MM, 50.4), f"Serial {serial}", 3.6, 0.5 * room if kit.is_kit else room, bold=True)
    items += [number, *(_builder(_EDGE_MM + 0.54 * room, _EDGE_MM + room) if kit.is_kit else ())]
    items += code(serial, (code_left + 2.0, HEIGHT_MM - 1.0 - _CODE_MM), _CODE_MM)
    items += _figures(label, job.units, on_label(kit) or PREDICTED)
    items += _cautions(proven, label.system_v)
    return Drawing(f"Label {serial}", tuple(items))


def rated(label: Label, units: str) -> tuple[tuple[str, str], ...]:
    """What a label states at STC: name and figure."""
    return (
        ("Pmp", show(label.pmp_w, "W", units)),
        ("Voc", show(label.voc_v, "V", units)),
        ("Isc", show(label.isc_a, "A", units)),
        ("Vmp", show(label.vmp_v, "V", units)),
        ("Imp", show(label.imp_a, "A", units)),
    )


def limits(label: Label, units: str) -> tuple[tuple[str, str], ...]:
    """What the panel must not be asked for, and what it weighs."""
    return (
        ("Largest fuse", show(_whole(label.fuse_a), "A", units)),
        ("Most system voltage", show(_whole(label.system_v), "V", units)),
        ("Mass", show(label.mass_kg, "kg", units)),
    )


def _whole(value: float) -> float:
    """A rating that is a whole number is written as one."""
    return int(value) if value == int(value) else value


def _builder(left: float, right: float) -> Iterator[Item]:
    """Room for the name of whoever builds a kit."""
    yield Text((left, 50.4), "built by", 2.6)
    yield Path(((left + 11.0, 50.0), (right, 50.0)), "border")


def _figures(label: Label, units: str, predicted: str) -> Iterator[Item]:
    """Ratings at the left, limits and poles at the right, under a line."""
    top, right = 43.0, _EDGE_MM + 40.0
    yield Path(((_EDGE_MM, top + 4.6), (WIDTH_MM - _EDGE_MM, top + 4.6)), "border")
    yield from _rows(rated(label, units), _EDGE_MM, 13.0, top)
    yield from _rows(limits(label, units), right, 32.0, top)
    # the colour of a wire is never its only sign
    yield Text((right, top - 3 * _ROW_MM), "+  red lead", 3.6, "plus", bold=True)
    yield Text((right, top - 4 * _ROW_MM), "−  black lead", 3.6, "minus", bold=True)
    yield Text((_EDGE_MM, 20.4), predicted, 2.6)


def _rows(rows: tuple[tuple[str, str], ...], left: float, apart: float, top: float) -> Iterator[Text]:
    for row, (name, figure) in enumerate(rows):
        yield Text((left, top - row * _ROW_MM), name, 3.2)
        yield Text((left + apart, top - row * _ROW_MM), figure, 3.6, bold=True)


def _cautions(proven: bool, system_v: float) -> Iterator[Item]:
    """What can hurt, in series too; a design with failing checks says so here as well."""
    live = CAUTIONS[0] if system_v <= TOUCH_V else IN_SERIES
    high = 13.2 if not proven else 12.0
    yield Path(((_EDGE_MM, 18.4), (WIDTH_MM - _EDGE_MM, 18.4)), "border")
    yield Path(((4.0, high - 2.4), (8.4, high - 2.4), (6.2, high + 1.6)), "warn", closed=True)
    yield Text((6.2, high - 1.9), "!", 2.8, "warn", "centre", bold=True)
    yield fitted((10.4, high), live, 3.2, WIDTH_MM - 14.4, bold=True)
    yield fitted((10.4, high - 4.4), CAUTIONS[1], 3.2, WIDTH_MM - 14.4)
    if not proven:
        words = "NOT PROVEN: some checks of this design fail. Do not sell or mount."
        yield fitted((10.4, 3.6), words, 3.4, WIDTH_MM - 14.4, "warn", bold=True)


def code(words: str, corner: Point, size_mm: float) -> tuple[Path, ...]:
    """The square code of the words as filled boxes, its quiet rim within `size_mm`."""
    import segno

    rows = segno.make(words, error="m", micro=False).matrix
    module = size_mm / (len(rows) + 2 * _QUIET)
    left, top = corner[0] + _QUIET * module, corner[1] + size_mm - _QUIET * module
    return tuple(
        box(
            left + a * module, top - (y + 1) * module, left + b * module, top - y * module, "ink", filled=True
        )
        for y, row in enumerate(rows)
        for a, b in _runs(row)
    )


def _runs(row: bytes | bytearray) -> Iterator[tuple[int, int]]:
    """Where dark modules of a row begin and end."""
    start: int | None = None
    for x, dark in enumerate([*row, 0]):
        if dark and start is None:
            start = x
        elif not dark and start is not None:
            yield start, x
            start = None
