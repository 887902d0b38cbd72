"""A panel as a circuit: cells in series under bypass diodes, strings side by side.

A joint's resistance lies on the plus side of its cell. A bypass diode reaches over the cells of its
substring with their joints. The leads carry the whole current.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.cell.diode import Diode
from panewright.enclosure.bypass import Bypass


@dataclass(frozen=True, slots=True)
class Substring:
    """Cells in series under one bypass diode, or under none."""

    cells: tuple[Diode, ...]
    joints_ohm: tuple[float, ...]  #: one for each cell
    bypass: Bypass | None = None

    def __post_init__(self) -> None:
        if not self.cells or len(self.cells) != len(self.joints_ohm):
            raise ValueError(f"{len(self.cells)} cells need as many joints, got {len(self.joints_ohm)}")


@dataclass(frozen=True, slots=True)
class Network:
    """Strings in parallel, each a row of substrings in series, between two leads."""

    strings: tuple[tuple[Substring, ...], ...]
    lead_ohm: float = 0.0  #: both leads together
