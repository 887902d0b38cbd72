"""A panel as a circuit: cells in series under bypass diodes, strings side by side.

A joint's resistance lies on the plus side of its cell. A bypass diode reaches over the cells of its
substring with their joints. A string may end in a blocking diode, which lets current out and none back.
The leads carry the whole current.

What a maker does wrong has its own word here: a cell or a bypass diode soldered in the wrong way round is
`turned`, a diode that has become a wire is a `Bridge`, and a string that is broken has an infinite tail.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.cell.diode import Diode
from panewright.enclosure.bypass import Bypass


@dataclass(frozen=True, slots=True)
class Turned:
    """A bypass diode the wrong way round: it conducts while its cells work."""

    diode: Bypass


@dataclass(frozen=True, slots=True)
class Bridge:
    """A resistance beside the cells of a substring, such as a bypass diode that has failed short."""

    ohm: float

    def __post_init__(self) -> None:
        if not self.ohm > 0:
            raise ValueError(f"a bridge has a resistance above zero, got {self.ohm:g} ohm")


@dataclass(frozen=True, slots=True)
class Substring:
    """Cells in series, with what lies beside all of them."""

    cells: tuple[Diode, ...]
    joints_ohm: tuple[float, ...]  #: one for each cell
    bypass: Bypass | Turned | Bridge | None = None
    turned: tuple[int, ...] = ()  #: places, from 0, of cells soldered in the wrong way round

    def __hash__(self) -> int:
        """Of its ends: cells are mostly all alike."""
        return hash((self.cells[0], len(self.cells), self.joints_ohm[0], self.joints_ohm[-1], self.bypass))

    def __post_init__(self) -> None:
        if not self.cells or len(self.cells) != len(self.joints_ohm):
            raise ValueError(f"{len(self.cells)} cells need as many joints, got {len(self.joints_ohm)}")
        if not all(ohm >= 0 for ohm in self.joints_ohm):
            raise ValueError(f"a joint's resistance is zero or more, got {min(self.joints_ohm):g} ohm")
        if not set(self.turned) <= set(range(len(self.cells))):
            raise ValueError(f"turned cells {self.turned} are not all among the {len(self.cells)} cells")


@dataclass(frozen=True, slots=True)
class String:
    """Substrings in series."""

    substrings: tuple[Substring, ...]
    tail_ohm: float = 0.0  #: bus and ribbon outside the bypass diodes; infinite where the string is broken
    blocking: Bypass | None = None  #: in series: no current comes back through this string

    def __post_init__(self) -> None:
        if not self.substrings or not self.tail_ohm >= 0:
            raise ValueError(f"a string has a substring or more and a tail of 0 ohm or more, got {self}")


@dataclass(frozen=True, slots=True)
class Network:
    """Strings in parallel between two leads."""

    strings: tuple[String, ...]
    lead_ohm: float = 0.0  #: both leads together

    def __post_init__(self) -> None:
        if not self.strings or not 0 <= self.lead_ohm < float("inf"):
            raise ValueError(f"a network has a string or more and leads of 0 ohm or more, got {self}")
