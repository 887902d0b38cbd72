"""What a pane's edges put on their rails, side by side, for the frame in space.

Two answers bound what a pane does. Split at 45 degrees from its corners its load is a trapezium on the long
sides, a triangle on the short ones (common practice). The plate's own reaction, on edges that do not sag, is
heaped beside the corners as the pane bends far, gives the short sides more, and lifts at the corners
themselves: a plate held along its sides wants to rise there. Rails that sag lie between; a proof takes the
worse of both.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from panewright.climate.site import Family
from panewright.glass.pane import Pane
from panewright.glass.plate.holding import Sides
from panewright.glass.plate.reaction import EdgeReaction, edge_reaction
from panewright.glass.verdict.held import plate_of
from panewright.units import MM

_EVERY = 11  # of the places in a plate's own table
Table = tuple[tuple[float, float], ...]  #: (mm from the pane's corner, N/mm that press), straight between
Edges = tuple["EdgeLoad", ...]  #: what a pane may do to its rails under 1 Pa; the worst of them counts


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

    def __hash__(self) -> int:
        """Of its middle and its corner: places are mostly alike."""
        return hash((self.long[len(self.long) // 2], self.short[len(self.short) // 2], self.corner_n))

    def times(self, factor: float) -> EdgeLoad:
        """The same load, so many times as large."""
        long, short = (tuple((at, line * factor) for at, line in table) for table in (self.long, self.short))
        return EdgeLoad(long, short, self.corner_n * factor)


def edges_of(
    pane: Pane, family: Family, pressure_pa: float, *, duration_s: float, sides: Sides = "four sides"
) -> Edges:
    """What a pane may do to its rails for each Pa of this pressure, which says how far it is bent.

    Held on two sides it lies on them as a strip does on its ends.
    """
    if sides == "two long sides":
        line = MM**2 * pane.short_mm / 2
        return (EdgeLoad(((0.0, line), (pane.long_mm, line)), ((0.0, 0.0), (pane.short_mm, 0.0))),)
    split = split_at_45(pane, 1.0)
    if pressure_pa <= 0:
        return (split,)
    plate = plate_of(pane, family, duration_s)
    return split, plate_reaction(edge_reaction(plate, pressure_pa)).times(1 / pressure_pa)


def edge_peak_n_mm(edges: Edges) -> float:
    """The most that any place of a side bears, however short the stretch, as told to the frame. [N/mm]"""
    return max(line for edge in edges for table in (edge.long, edge.short) for _, line in table)


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
