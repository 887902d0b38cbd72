"""The layers of a design as its heat balance asks for them: cover, what lies round the cells, their power."""

from __future__ import annotations

from dataclasses import replace

from panewright.climate.balance.layer import AirSpace, Layer, Solid
from panewright.climate.balance.layers import Layers
from panewright.enclosure.back_sheet import Back
from panewright.enclosure.conduction import BEFORE, BEHIND, CELL_TAKES, Slab
from panewright.glass.pane import Sheet
from panewright.glass.warmth import Warmth, warmth
from panewright.order.order import Order
from panewright.panel.electric.electrical import Cells, efficiency
from panewright.panel.electric.light import INDEX, white_of


def layers_of(order: Order, sheet: Sheet, cells: Cells) -> Layers:
    """The panel of one order under one sheet, front to back."""
    build = order.parts.encapsulation
    cover = warmth(sheet, INDEX[build])
    return Layers(
        front=(Solid(sheet.nominal_mm, cover.conducts_w_mk), *_layers(BEFORE[build], cover)),
        back=_layers(_behind(order), cover),
        cover_takes=cover.takes,
        cell_takes=CELL_TAKES * cover.through,
        gives=efficiency(cells) * cover.through,
        front_emits=cover.emits,
    )


def _behind(order: Order) -> tuple[Slab, ...]:
    """What lies behind the cells; the back sheet is the usual one where the order names none."""
    usual, back = BEHIND[order.parts.encapsulation], order.parts.back
    return usual if back is None else (*usual[:-1], Slab(back.thickness_mm, back.conducts_w_mk))


def behind_mm(order: Order) -> float:
    """Thickness of all that lies behind the cells. [mm]"""
    return sum(slab.thickness_mm for slab in _behind(order))


def is_as_usual(order: Order, back: Back) -> bool:
    """Whether heat and light are with this back as with the one that an order is reckoned with."""
    named = replace(order, parts=replace(order.parts, back=back))
    return _behind(named) == _behind(order) and white_of(back) == white_of(order.parts.back)


def _layers(slabs: tuple[Slab, ...], cover: Warmth) -> tuple[Layer, ...]:
    return tuple(_layer(slab, cover) for slab in slabs)


def _layer(slab: Slab, cover: Warmth) -> Layer:
    """Air before the cell sees the cover; air behind it plastics, which emit as much within a tenth."""
    if slab.conducts_w_mk is None:
        return AirSpace(slab.thickness_mm, upper_emits=cover.emits)
    return Solid(slab.thickness_mm, slab.conducts_w_mk)
