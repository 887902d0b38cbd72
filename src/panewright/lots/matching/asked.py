"""What a lot is matched for: the wiring, what counts, and which cell may sit where."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from itertools import pairwise

from panewright.circuit.network import Network, Turned
from panewright.enclosure.bypass import reverse_cell_v


@dataclass(frozen=True, slots=True)
class MostWatts:
    """All watts of all panels together."""


@dataclass(frozen=True, slots=True)
class MostReaching:
    """As many panels as can be that give at least so much."""

    rating_w: float

    def __post_init__(self) -> None:
        _rating(self.rating_w)


@dataclass(frozen=True, slots=True)
class Step:
    """A panel that gives this much is sold at this price."""

    from_w: float
    price: Decimal

    def __post_init__(self) -> None:
        _rating(self.from_w)
        if not (self.price.is_finite() and self.price > 0):
            raise ValueError(f"a step's price is above zero, got {self.price}")


@dataclass(frozen=True, slots=True)
class MostMoney:
    """Most money with price steps; a panel below the first step is worth nothing."""

    steps: tuple[Step, ...]  #: rising in watts and in price

    def __post_init__(self) -> None:
        rising = all(a.from_w < b.from_w and a.price < b.price for a, b in pairwise(self.steps))
        if not self.steps or not rising:
            raise ValueError(f"price steps rise in watts and in price, got {self.steps}")


@dataclass(frozen=True, slots=True)
class BestRemainder:
    """So many panels that reach a rating, and what is left over worth most: the watts of its cells."""

    panels: int
    rating_w: float

    def __post_init__(self) -> None:
        _rating(self.rating_w)
        if self.panels < 1:
            raise ValueError(f"one panel or more is asked for, got {self.panels}")


Aim = MostWatts | MostReaching | MostMoney | BestRemainder


def _rating(watts: float) -> None:
    if not 0 < watts < float("inf"):
        raise ValueError(f"a rating is above zero, got {watts:g} W")


@dataclass(frozen=True, slots=True)
class Reverse:
    """What drives a shaded cell backward: the others of its substring in the cold, and the diode's drop."""

    cold_voc_v: float  #: of one cell
    drop_v: float = 0.5
    others_a: float = float(
        "inf"
    )  #: what the panel gives: a cell that passes as much backwards blocks nothing
    most_w: float = float("inf")  #: what may go into a dark cell

    def driven_v(self, cells: int) -> float:
        """The voltage to which a substring of so many cells drives one of them backwards. [V]"""
        return reverse_cell_v(cells, self.cold_voc_v, self.drop_v)


@dataclass(frozen=True, slots=True)
class Limits:
    """Which cells may sit together."""

    leaky_ohm: float = 0.0  #: a cell whose shunt is below this is leaky
    most_leaky: int = 0  #: leaky cells that a substring may hold
    reverse: Reverse | None = None  #: None: how cells behave in reverse is not asked


@dataclass(frozen=True, slots=True)
class Asked:
    """The wiring of one panel with any cells in it, what counts, the limits, and what is fixed already."""

    network: Network
    aim: Aim
    limits: Limits = field(default_factory=Limits)
    soldered: tuple[tuple[str, ...], ...] = ()  #: marks of cells that are joined already, from the minus end
    spares: int = 0  #: cells that must be left over
    panels: int | None = None  #: no more than this many; None: as many as there are cells for

    def __post_init__(self) -> None:
        strings = self.network.strings
        lengths = {sum(len(part.cells) for part in string.substrings) for string in strings}
        if len(lengths) > 1:
            raise ValueError(f"strings side by side have as many cells each, got {sorted(lengths)}")
        if any(part.turned or isinstance(part.bypass, Turned) for s in strings for part in s.substrings):
            raise ValueError("a wiring to be filled has no cell and no diode the wrong way round")
        if any(string.tail_ohm == float("inf") for string in strings):
            raise ValueError("a wiring to be filled has no broken string")
        if self.spares < 0 or (self.panels is not None and self.panels < 1):
            raise ValueError(
                f"spares are 0 or more and panels 1 or more, got {self.spares} and {self.panels}"
            )
