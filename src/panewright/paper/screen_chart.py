"""A chart as a picture for a page, with the numbers that a finger on it asks for.

The picture carries no style and no ids of its own; the page's script reads `data-points`.
"""

from __future__ import annotations

import json
from html import escape

from panewright.drawing.bounds import Bounds
from panewright.drawing.chart import Chart, draw_chart, plot_frame
from panewright.paper.svg import Flat, flat, number, shape


def chart_svg(chart: Chart, width_mm: float, height_mm: float, *, letter_mm: float, said: str) -> str:
    """The chart as one svg element; `said` is what it shows, for those who do not see it."""
    drawing = draw_chart(chart, width_mm, height_mm, letter_mm)
    view = Bounds(-1.0, -1.0, width_mm + 1.0, height_mm + 1.0)
    box = f"{number(view.left)} {number(-view.top)} {number(view.width_mm)} {number(view.height_mm)}"
    points = escape(json.dumps(_points(chart, width_mm, height_mm, letter_mm), separators=(",", ":")))
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawn plot" viewBox="{box}" role="img" tabindex="0" '
        f'aria-label="{escape(said)}" data-points="{points}">'
    )
    body = "".join(_element(item) for item in flat(drawing, "metric"))
    return f"{head}{body}</svg>"


def _element(item: Flat) -> str:
    filled = " filled" if getattr(item, "filled", False) else ""
    return shape(item, f' class="{item.layer}{filled}"')


def _points(chart: Chart, width_mm: float, height_mm: float, letter_mm: float) -> dict[str, object]:
    """Axis, frame and curves; figures short, as they are only read off."""
    x_from, x_to, left, right, top, bottom = plot_frame(chart, width_mm, height_mm, letter_mm)
    name, _, unit = chart.x_label.partition(", ")
    _, _, y_unit = chart.y_label.partition(", ")
    return {
        "name": name,
        "unit": unit,
        "frame": [round(each, 3) for each in (x_from, x_to, left, right, -top, -bottom)],
        "series": [
            {
                "name": series.label,
                "unit": y_unit,
                "x": [float(f"{x:.5g}") for x in series.x],
                "y": [float(f"{y:.4g}") for y in series.y],
            }
            for series in chart.series
        ],
    }
