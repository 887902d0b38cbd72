"""Sizes that the order allows: what fits the car, the door or the roof."""

from __future__ import annotations

from panewright.check import Check
from panewright.structure.frame_plan import FramePlan

END_TRIM_MM = 5.0  #: sawn off at each end of a bar as sold; common practice


def size_checks(
    frame: FramePlan, most_long_mm: float | None, most_short_mm: float | None
) -> tuple[Check, ...]:
    """The finished panel against the order's limits; none where the order sets none."""
    sides = sorted((frame.outer_width_mm, frame.outer_height_mm), reverse=True)
    limits = zip(("long", "short"), sides, (most_long_mm, most_short_mm), strict=True)
    return tuple(
        Check(
            f"{name} side of the panel",
            side,
            limit,
            "mm",
            "limit of the order",
            "Take fewer cells, half cells, another number of columns, or a narrower rail.",
            "frame",
        )
        for name, side, limit in limits
        if limit is not None
    )


def bar_check(frame: FramePlan, ends_mm: float = 2 * END_TRIM_MM) -> Check:
    """The longest rail comes out of one bar, both of its ends trimmed square."""
    return Check(
        "longest rail out of one bar",
        max(piece.length_mm for piece in frame.pieces) + ends_mm,
        frame.rail.bar_mm,
        "mm",
        "the bar as sold",
        "Take a rail sold in longer bars, or another number of columns.",
        "frame",
    )
