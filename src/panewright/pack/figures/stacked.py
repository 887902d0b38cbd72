"""What lies in a crate, cut through: panels or kits, the loose boards round their stack, foam round those."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.crate.box import Crate
from panewright.crate.carton import Carton
from panewright.crate.pads import pad
from panewright.crate.stack import Panel, Stack
from panewright.drawing.drawing import Item, Layer, Path, box
from panewright.pack.sent import CARD_MM

Cut = Literal["across", "along"]
_FOAM: Layer = "encapsulant"
_LOOSE: Layer = "bracket"
_PANE_MM = 4.0  # as drawn
_RAIL_MM = 28.0  # as drawn, of a frame cut through


@dataclass(frozen=True, slots=True)
class Span:
    """A rectangle. [mm]"""

    left: float
    bottom: float
    right: float
    top: float

    def drawn(self, layer: Layer) -> Path:
        """As a filled shape."""
        return box(self.left, self.bottom, self.right, self.top, layer, filled=True)

    @property
    def turned(self) -> Span:
        """Level and upright exchanged."""
        return Span(self.bottom, self.left, self.top, self.right)

    def moved(self, right: float, up: float) -> Span:
        """Elsewhere."""
        return Span(self.left + right, self.bottom + up, self.right + right, self.top + up)


def stacked(crate: Crate | Carton, cut: Cut) -> Iterator[Item]:
    """Foam, loose boards and panels, in the middle of the room inside. [mm]"""
    stack, inside = crate.stack, crate.inside
    wide = stack.across_mm if cut == "across" else stack.along_mm
    up = crate.foot_mm + crate.ply_mm + (inside.up_mm - stack.up_mm) / 2
    made = _across(crate) if cut == "across" else _along(crate)
    turn = stack.lay == "flat" and cut == "across"
    for span, layer in made:
        yield (span.turned if turn else span).moved(-wide / 2, up).drawn(layer)


def _corners(long: float, deep: float, one: float, thick: float) -> Iterator[Span]:
    """Foam before and behind a stack at both ends of its height: left, right, at the foot, at the head."""
    for left in (-thick, deep):
        yield Span(left, 0.0, left + thick, min(one, long))
        yield Span(left, long - min(one, long), left + thick, long)


def _beside(pads: int, long: float, deep: float, one: float, thick: float) -> Iterator[Span]:
    """Foam before and behind: at both ends, or one pad in the middle."""
    if pads > 1:
        yield from _corners(long, deep, min(one, long / 2), thick)
        return
    for left in (-thick, deep):
        yield Span(left, (long - one) / 2, left + thick, (long + one) / 2)


def _across(crate: Crate | Carton) -> Iterator[tuple[Span, Layer]]:
    """Through the depth of the stack level, up the short side: as it stands on edge."""
    stack = crate.stack
    deep, short = stack.deep_mm, stack.short_mm
    face, edge = crate.cushion("face"), crate.cushion("edge")
    shown = min(pad(stack, face).across_mm, short / 2)
    yield from ((span, _FOAM) for span in _corners(short, deep, shown, face.thickness_mm))
    for low in (-edge.thickness_mm, short):
        yield Span(0.0, low, deep, low + edge.thickness_mm), _FOAM
    yield from _loose(deep, short, stack.loose_mm)
    for number in range(stack.panels):
        left = stack.loose_mm + number * stack.panel.pitch_mm
        yield from _held(stack.panel, left, stack.loose_mm, stack.panel.short_mm)


def _along(crate: Crate | Carton) -> Iterator[tuple[Span, Layer]]:
    """Along the long side level."""
    stack, panel = crate.stack, crate.stack.panel
    end, long, up = crate.cushion("end"), stack.along_mm, stack.up_mm
    standing = stack.lay == "on edge"
    tall = pad(stack, end).along_mm if standing else up
    yield from ((span, _FOAM) for span in _beside(end.pads, up, long, min(tall, up), end.thickness_mm))
    under = crate.cushion("edge" if standing else "face")
    lies = min(pad(stack, under).along_mm, long)
    spans = _beside(under.pads, long, up, lies, under.thickness_mm)
    yield from ((span.turned, _FOAM) for span in spans)
    yield from _loose(long, up, stack.loose_mm)
    if standing:
        yield from _faced(stack)
        return
    for number in range(stack.panels):
        low = stack.loose_mm + number * panel.pitch_mm
        for span, layer in _held(panel, low, stack.loose_mm, panel.long_mm):
            yield span.turned, layer


def _faced(stack: Stack) -> Iterator[tuple[Span, Layer]]:
    """A panel or a kit that stands, seen on its face."""
    panel, near = stack.panel, stack.loose_mm
    whole = Span(near, near, near + panel.long_mm, near + panel.short_mm)
    yield whole, "rail" if panel.goods == "panel" else "bracket"
    if panel.pane:
        inner = min(_RAIL_MM, panel.short_mm / 4)
        yield Span(whole.left + inner, whole.bottom + inner, whole.right - inner, whole.top - inner), "pane"


def _loose(wide: float, high: float, thick: float) -> Iterator[tuple[Span, Layer]]:
    """The loose boards round the stack."""
    for low in (0.0, high - thick):
        yield Span(0.0, low, wide, low + thick), _LOOSE
    for left in (0.0, wide - thick):
        yield Span(left, 0.0, left + thick, high), _LOOSE


def _held(panel: Panel, left: float, low: float, long: float) -> Iterator[tuple[Span, Layer]]:
    """A panel or a kit cut through."""
    if panel.goods == "panel":
        yield from _framed(left, low, panel.deep_mm, long)
        return
    yield Span(left, low, left + panel.deep_mm, low + long), "bracket"
    if panel.pane:
        yield Span(left + CARD_MM, low, left + CARD_MM + _PANE_MM, low + long), "pane"


def _framed(left: float, low: float, deep: float, long: float) -> Iterator[tuple[Span, Layer]]:
    """A panel cut through: a rail at either end, the pane between."""
    rail = min(_RAIL_MM, long / 4)
    for foot in (low, low + long - rail):
        yield Span(left, foot, left + deep, foot + rail), "rail"
    yield Span(left + deep / 3, low + rail, left + deep / 3 + _PANE_MM, low + long - rail), "pane"
