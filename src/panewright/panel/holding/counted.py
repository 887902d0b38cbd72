"""Counts of cells near the one that was asked for, each with its best lay-out."""

from __future__ import annotations

from panewright.errors import OrderError
from panewright.layup.rank import Counted, Ranked
from panewright.panel.holding.field import FIRST_GAP_MM, Field, plans, rails

_NEAR = 2  # cells more than needed that are looked at in any case


def counted(field: Field, acceptable: tuple[int, ...]) -> tuple[Counted, ...]:
    """The study's count and those a little above it that hold too, each with its best lay-out.

    Counts for which no lay-out meets the order's pins are left out.
    """
    first, wishes = field.in_series, field.order.wishes
    reach = max(_NEAR, first // 8, wishes.columns or 0, wishes.rows or 0)
    near = [count for count in acceptable if first < count <= first + reach]
    near = near or [count for count in acceptable if first not in acceptable[:-1] and count < first]
    found = ((count, _best_plan(field, count)) for count in (first, *near))
    return tuple(Counted(count, best, abs(count - first)) for count, best in found if best)


def _best_plan(field: Field, count: int) -> Ranked | None:
    """The best lay-out of so many cells inside the lightest rail."""
    gap = field.order.parts.gap_mm or FIRST_GAP_MM
    try:
        return plans(field, rails(field)[0], gap, count)[0]
    except OrderError:
        return None
