"""Labels to be cut apart and put where cells wait: on a sleeve, a tray, a sheet of card."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.drawing.drawing import Drawing, Item, box
from panewright.drawing.paper_size import Paper, figure_area
from panewright.drawing.sheet import Figure
from panewright.pack.figures.scale import fitted

_WIDE, _HIGH = 42.0, 22.0  # of a label; a sleeve for half a cell bears it
_AIR, _MARK, _LINE = 2.5, 9.0, 3.4
_EDGE = 2.0


@dataclass(frozen=True, slots=True)
class Label:
    """What one label says."""

    mark: str
    place: str
    lot: str


def label_figures(labels: Sequence[Label], paper: Paper) -> tuple[Figure, ...]:
    """A figure a page, as many labels on it as go."""
    room = figure_area(paper)
    across = int((room.width_mm - _EDGE) // _WIDE)
    down = int((room.height_mm - _EDGE) // _HIGH)
    sheets = (labels[n : n + across * down] for n in range(0, len(labels), across * down))
    return tuple(
        Figure(Drawing("Labels", tuple(_sheet(some, across))), 1.0, "Cut along the lines") for some in sheets
    )


def _sheet(labels: Sequence[Label], across: int) -> Iterator[Item]:
    for n, label in enumerate(labels):
        left, top = n % across * _WIDE, -(n // across) * _HIGH
        yield box(left, top - _HIGH, left + _WIDE, top, "cut")
        room = _WIDE - 2 * _AIR
        yield fitted((left + _AIR, top - 10.5), label.mark, _MARK, room, bold=True)
        yield fitted((left + _AIR, top - 15.4), label.place, _LINE, room)
        yield fitted((left + _AIR, top - 19.6), label.lot, 0.8 * _LINE, room)
