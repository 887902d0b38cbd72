"""A curve's file as a chart: every run thin, the curve to go on with thick, its power maximum named."""

from __future__ import annotations

from panewright.desk.curves.stood import CurveStood
from panewright.drawing.chart import Chart, Mark, Series, draw_chart
from panewright.paper.svg import FACE, svg

_WIDE_MM, _HIGH_MM = 170.0, 100.0


def chart(stood: CurveStood) -> Chart:
    """Current over voltage."""
    swept, curve = stood.swept, stood.swept.curve.curve
    thin = [
        Series(run.cleaned.curve.voltage_v, run.cleaned.curve.current_a)
        for run in swept.runs
        if len(run.cleaned.curve.voltage_v) > 1 and len(swept.runs) > 1
    ]
    whole = Series(curve.voltage_v, curve.current_a, layer="measured")
    read = swept.points
    marks: tuple[Mark, ...] = ()
    if read.vmp_v and read.imp_a and read.power_w:
        marks = (Mark(read.vmp_v.value, read.imp_a.value, f"{read.power_w.value:.4g} W"),)
    title = f"Serial {stood.serial}" if stood.serial else ""
    low = min(0.0, *curve.current_a, *(value for run in thin for value in run.y))
    return Chart(title, "voltage, V", "current, A", (*thin, whole), marks, y_from=low)


def chart_bytes(stood: CurveStood) -> bytes:
    """The chart as an SVG file."""
    return svg(draw_chart(chart(stood), _WIDE_MM, _HIGH_MM), face=f"{FACE}, sans-serif").encode()
