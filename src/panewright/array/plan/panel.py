"""One finished panel as an array asks for it: its circuit's law, its label, where its cells lie on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from panewright.array.doubts import RATINGS, Rated
from panewright.array.plate import Plate
from panewright.cell.kind import CellKind
from panewright.cell.model import CellModel, diode_at, fit_cell
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape
from panewright.circuit.chords.law import COOL_C, WARM_C, Law, law_of
from panewright.circuit.maxima import key_points
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import Bypass
from panewright.order.site.lying import USUAL_ISC_PER_K, USUAL_VOC_PER_K
from panewright.order.site.site import LabelFigures
from panewright.panel.design import Design
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import network_at
from panewright.sky.shadow.pane import Rectangle
from panewright.units import MM

FULL_SUN_W_M2 = 1000.0
#: of a panel whose box nobody opened: 0.40 V at 1 A, 0.55 V at 10 A; common practice, no source
USUAL_DIODE = Bypass("Schottky, unknown", 3e-6, 0.0313, 0.008, 15.0, 45.0)
_EDGE_MM, _BETWEEN_MM = 25.0, 3.0  # frame and margin round the cells of a label's panel, and between them


@dataclass(frozen=True)
class Limits:
    """What else its label says."""

    fuse_a: float
    system_v: float
    voc_per_k: float | None  #: None where nobody knows it; a circuit's own is told anyway


@dataclass(frozen=True)
class Outline:
    """Its size, and its cells from its lower left corner seen from its face, in the order of its circuit."""

    width_mm: float
    height_mm: float
    cells_m: tuple[Rectangle, ...]


@dataclass(frozen=True)
class Panel:
    """A panel that lies nowhere yet."""

    law: Law
    plate: Plate
    outline: Outline
    rated_w: float
    known_by: str
    doubt: Rated


def panel_of(
    networks: tuple[Network, Network], limits: Limits, outline: Outline, known_by: str, doubt: Rated
) -> Panel:
    """A panel by its circuit in full sun at 25 and at 65 degC."""
    cool, warm = (key_points(network) for network in networks)
    span = WARM_C - COOL_C
    plate = Plate(
        known_by,
        cool.voc_v,
        cool.vmp_v,
        cool.isc_a,
        cool.imp_a,
        limits.fuse_a,
        limits.system_v,
        limits.voc_per_k,
        min(0.0, (warm.vmp_v / cool.vmp_v - 1) / span),
    )
    return Panel(law_of(*networks), plate, outline, cool.power_w, known_by, doubt)


def networks_of_design(design: Design) -> tuple[Network, Network]:
    """A design's circuit in full sun, cool and warm; of a serial, from its design as built."""
    wired = wired_of(design)
    return network_at(wired, FULL_SUN_W_M2, COOL_C), network_at(wired, FULL_SUN_W_M2, WARM_C)


def limits_of_design(design: Design) -> Limits:
    """Its label, and its circuit's own change of Voc with heat."""
    cool, warm = (key_points(network).voc_v for network in networks_of_design(design))
    return Limits(design.label.fuse_a, design.label.system_v, (warm / cool - 1) / (WARM_C - COOL_C))


def outline_of_design(design: Design) -> Outline:
    """Frame and cells of a design."""
    frame, layup = design.structural.frame, design.layup
    right, up = (
        (frame.outer_width_mm - layup.pane_width_mm) / 2,
        (frame.outer_height_mm - layup.pane_height_mm) / 2,
    )
    cells = []
    for cell in design.layup.cells:
        x, y = cell.centre[0] + right, cell.centre[1] + up
        half_w, half_h = cell.shape.width_mm / 2, cell.shape.length_mm / 2
        cells.append((MM * (x - half_w), MM * (y - half_h), MM * (x + half_w), MM * (y + half_h)))
    return Outline(frame.outer_width_mm, frame.outer_height_mm, tuple(cells))


def of_label(label: LabelFigures) -> Panel:
    """A panel by its label: alike cells whose diode goes through Isc, Voc and the best point exactly."""
    model = _cell_of(label)
    networks = tuple(_network(label, model, heat) for heat in (COOL_C, WARM_C))
    limits = Limits(label.fuse_a, label.system_v, label.voc_per_k)
    return panel_of((networks[0], networks[1]), limits, _outline(label), "label", RATINGS["label"])


def _cell_of(label: LabelFigures) -> CellModel:
    per_k = USUAL_VOC_PER_K if label.voc_per_k is None else label.voc_per_k
    n = label.cells
    plate = Nameplate(label.isc_a, label.voc_v / n, label.imp_a, label.vmp_v / n, USUAL_ISC_PER_K, per_k)
    wide, high = _cell_mm(label)
    return fit_cell(CellKind("by a label", Shape(wide, high), plate, "minus"))


def _network(label: LabelFigures, model: CellModel, cell_c: float) -> Network:
    cell = diode_at(model, FULL_SUN_W_M2, cell_c)
    if label.diodes == 0:
        return Network((String((Substring((cell,) * label.cells, (0.0,) * label.cells),)),))
    parts = [
        Substring((cell,) * count, (0.0,) * count, USUAL_DIODE)
        for count in _shared(label.cells, label.diodes)
    ]
    return Network((String(tuple(parts)),))


def _shared(cells: int, diodes: int) -> Iterator[int]:
    """Cells under each diode, as even as can be."""
    for number in range(diodes):
        yield cells * (number + 1) // diodes - cells * number // diodes


def _cell_mm(label: LabelFigures) -> tuple[float, float]:
    """Width and length of a cell by the panel's size."""
    rows = ceil(label.cells / label.columns)
    edge = min(_EDGE_MM, 0.1 * label.width_mm, 0.1 * label.height_mm)
    between = min(_BETWEEN_MM, 0.02 * label.width_mm / label.columns, 0.02 * label.height_mm / rows)
    wide = (label.width_mm - 2 * edge) / label.columns - between
    high = (label.height_mm - 2 * edge) / rows - between
    return wide, high


def _outline(label: LabelFigures) -> Outline:
    """Cells up the first column, down the next, and so on."""
    rows, (wide, high) = ceil(label.cells / label.columns), _cell_mm(label)
    left = (label.width_mm - label.columns * wide) / (label.columns + 1)
    low = (label.height_mm - rows * high) / (rows + 1)
    cells = []
    for number in range(label.cells):
        column, along = divmod(number, rows)
        row = along if column % 2 == 0 else rows - 1 - along
        x, y = left + column * (wide + left), low + row * (high + low)
        cells.append((MM * x, MM * y, MM * (x + wide), MM * (y + high)))
    return Outline(label.width_mm, label.height_mm, tuple(cells))
