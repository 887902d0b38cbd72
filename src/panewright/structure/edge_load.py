"""What a pane's edges put on their rails, side by side, for the frame in space.

Where nothing better is known the pane's load is split at 45 degrees from its corners: a trapezium on the long
sides, a triangle on the short ones (common practice). A plate's own reaction is another such table, with a
force at each corner that lifts it: a plate held along its sides wants to rise in its corners.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from panewright.glass.pane import Pane
from panewright.glass.plate.reaction import EdgeReaction
from panewright.units import MM

_EVERY = 6  # of the places in a plate's own table
Table = tuple[tuple[float, float], ...]  #: (mm from the pane's corner, N/mm that press), straight between


@dataclass(frozen=True, slots=True)
class EdgeLoad:
    """Load of a pane on its four sides, alike on opposite ones and from both ends."""

    long: Table
    short: Table
    corner_n: float = 0.0  #: at each corner, pressing; less than nothing where it lifts

    def __post_init__(self) -> None:
        for table in (self.long, self.short):
            places = [place for place, _ in table]
            if len(places) < 2 or any(one >= other for one, other in pairwise(places)):
                raise ValueError(f"a side's load is two places or more, in order, got {table}")


def split_at_45(pane: Pane, pressure_pa: float) -> EdgeLoad:
    """Trapezium and triangle.

    >>> from panewright.glass.pane import Sheet
    >>> glass = Sheet("tempered 4", "glass", "tempered", "plain", 4, 3.78, 2500, 9e-6, 0.9)
    >>> split_at_45(Pane(1600, 1000, glass), 1000).short
    ((0.0, 0.0), (500.0, 0.5), (1000, 0.0))
    """
    long, short = pane.long_mm, pane.short_mm
    top = pressure_pa * MM**2 * short / 2
    triangle = ((0.0, 0.0), (short / 2, top), (short, 0.0))
    if long - short < 1e-6:
        return EdgeLoad(triangle, triangle)
    return EdgeLoad(((0.0, 0.0), (short / 2, top), (long - short / 2, top), (long, 0.0)), triangle)


def plate_reaction(push: EdgeReaction) -> EdgeLoad:
    """A plate's own reaction as a load of fewer places; the whole of each side is kept.

    Corners of the pane pull their rails up by what holds them down.
    """
    return EdgeLoad(
        _both_halves(push.long_at_mm, push.long_n_per_mm, push.long_n),
        _both_halves(push.short_at_mm, push.short_n_per_mm, push.short_n),
        -push.corner_n,
    )


def _both_halves(at_mm: tuple[float, ...], line_n_mm: tuple[float, ...], whole_n: float) -> Table:
    """From corner to corner, out of a table from the middle to the corner."""
    kept = sorted({*range(0, len(at_mm), _EVERY), len(at_mm) - 1})
    at, line = np.array(at_mm)[kept], np.array(line_n_mm)[kept]
    line *= whole_n / (2 * np.trapezoid(line, at))
    places = np.concatenate([at[-1] - at[::-1], at[-1] + at[1:]])
    return tuple(zip(places.tolist(), np.concatenate([line[::-1], line[1:]]).tolist(), strict=True))
