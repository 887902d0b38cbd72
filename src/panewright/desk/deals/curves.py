"""The predicted curve of a deal's panel: its figures in words, a picture, its points as a list."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.units.showing import show

if TYPE_CHECKING:
    from panewright.desk.deals.deal import Deal, DealtPanel
    from panewright.drawing.chart import Chart
    from panewright.drawing.listing import Listing

_WIDE, _HIGH, _LETTER = 150.0, 80.0, 4.6  # mm of the picture on a page
_DIGITS = 4


@dataclass(frozen=True, slots=True)
class KeyFigures:
    """Isc, Voc, Imp, Vmp of a panel as every page writes them."""

    isc: str
    voc: str
    imp: str
    vmp: str

    @classmethod
    def of(cls, panel: DealtPanel) -> KeyFigures:
        """Of one panel."""
        amps = (show(each, "A", digits=_DIGITS) for each in (panel.isc_a, panel.imp_a))
        volts = (show(each, "V", digits=_DIGITS) for each in (panel.voc_v, panel.vmp_v))
        (isc, imp), (voc, vmp) = amps, volts
        return cls(isc, voc, imp, vmp)


def chart_of(panel: DealtPanel) -> Chart | None:
    """Current over voltage, the best point named; None for a deal that was kept without curves."""
    from panewright.drawing.chart import Chart, Mark, Series

    if not panel.curve:
        return None
    volts, amps = zip(*panel.curve, strict=True)
    best = Mark(panel.vmp_v, panel.imp_a, f"{show(panel.power_w, 'W', digits=4)}")
    return Chart("", "voltage, V", "current, A", (Series(volts, amps, "predicted"),), (best,))


def picture_of(panel: DealtPanel, number: int) -> str:
    """The same as one svg element for a page; '' where there is no curve."""
    from panewright.paper.screen_chart import chart_svg

    chart, key = chart_of(panel), KeyFigures.of(panel)
    if chart is None:
        return ""
    said = (
        f"Current over voltage of panel {number}, from {key.isc} to {key.voc}; best at {key.vmp}, {key.imp}"
    )
    return chart_svg(chart, _WIDE, _HIGH, letter_mm=_LETTER, said=said)


def points_listed(deal: Deal) -> Listing:
    """Every panel's curve, point by point."""
    from panewright.drawing.listing import Column, Listing

    heads = (
        Column("panel", kind="count"),
        Column("voltage", "V", "number"),
        Column("current", "A", "number"),
        Column("power", "W", "number"),
    )
    rows = tuple(
        (number, volts, amps, float(f"{volts * amps:.5g}"))
        for number, panel in enumerate(deal.panels, 1)
        for volts, amps in panel.curve
    )
    return Listing("curves", heads, rows)
