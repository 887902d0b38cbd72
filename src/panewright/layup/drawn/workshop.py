"""The lay-up for the workshop's machines: both views side by side, full size, with every cell's limits."""

from __future__ import annotations

from dataclasses import replace

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Drawing, Text
from panewright.drawing.move import merged, moved
from panewright.layup.drawn.figure import View, bench_view, front_view
from panewright.layup.drawn.rim import Rim
from panewright.layup.layup import Layup

TITLES = ("FRONT: sunny side up", "BENCH: sunny side down, the mirror image")


def workshop_drawing(
    layup: Layup, text_mm: float = 10.0, rim: Rim | None = None, system: str = "metric"
) -> Drawing:
    """Front at the left, its pane's lower left corner at the origin; the bench's view at its right. [mm]"""
    view = View(rim=rim, patches=False, system=system)
    front = front_view(layup, text_mm, replace(view, limits=True))  # once is enough for a machine
    bench = bench_view(layup, text_mm, view)
    apart = bounds(front, system).right - bounds(bench, system).left + 12.0 * text_mm
    level = max(bounds(each, system).top for each in (front, bench)) + 2.0 * text_mm
    titled = (
        replace(each, side="").with_items((Text((0.0, level), words, 2.0 * text_mm, "text", bold=True),))
        for each, words in zip((front, bench), TITLES, strict=True)
    )
    first, second = titled
    return merged("Lay-up, both sides", (first, moved(second, apart, 0.0)))
