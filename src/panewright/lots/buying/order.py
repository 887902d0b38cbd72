"""One order played through: bought, broken, sorted or not, made into panels, bought again where short.

The chances of the steps are drawn first, once for the order: what is not known of them is common to all
cells. Where the cells are measured the weakest of what is over are left out, and the rest goes into panels by
Imp; else they go in as they come out of the box, spares last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.peak import peak
from panewright.cell.root import Array
from panewright.circuit.mismatch.own_power import own_power_w
from panewright.circuit.network import Network
from panewright.lots.buying.needed import needed
from panewright.lots.buying.offer import Offer, drawn_cells
from panewright.lots.buying.rate import Rate

_AGAIN = 20  # deliveries, at most: an offer that is still short then will never do


@dataclass(frozen=True, slots=True)
class Want:
    """What is to be made."""

    network: Network  #: of one panel; its joints, diodes and leads stay, its cells are the offer's
    panels: int
    steps: tuple[Rate, ...] = ()  #: of the shop: cutting, soldering, laying up
    rating_w: float | None = None  #: a panel under it does not count as sold
    least_w: float = 0.0  #: a measured cell under it is set aside
    sure: float = 0.95

    def __post_init__(self) -> None:
        if self.panels < 1:
            raise ValueError(f"an order has a panel or more, got {self.panels}")

    @property
    def cells_each(self) -> int:
        """Cells of one panel."""
        return sum(len(part.cells) for string in self.network.strings for part in string.substrings)

    @property
    def cells(self) -> int:
        """Cells of all panels."""
        return self.panels * self.cells_each


@dataclass(frozen=True, slots=True)
class Played:
    """How one order went."""

    cells: Diodes  #: (panels, cells of a panel), in their places
    good: int  #: good cells of the first delivery
    cost: Decimal  #: all deliveries
    deliveries: int


def played(
    offer: Offer, want: Want, ordered: tuple[int, Sequence[Rate]], dice: np.random.Generator
) -> Played:
    """One order of so many packs, and what it took to complete it; more is ordered by these rates."""
    packs, rates = ordered
    lost = [float(rate.drawn(dice, 1)[0]) for rate in (offer.defects, *want.steps)]
    cells = _good(offer, want, (packs * offer.pack, lost), dice)
    first = cells.light_a.size
    cost, deliveries = offer.cost(packs), 1
    while cells.light_a.size < want.cells:
        if deliveries == _AGAIN:
            raise ValueError(f"{offer.name}: after {_AGAIN} deliveries the order is still short")
        more = needed(want.cells - cells.light_a.size, rates, want.sure, offer.pack).packs
        cells = _together(cells, _good(offer, want, (more * offer.pack, lost), dice))
        cost, deliveries = cost + offer.cost(more), deliveries + 1
    return Played(_placed(cells, offer, want), first, cost, deliveries)


def _good(offer: Offer, want: Want, bought: tuple[int, list[float]], dice: np.random.Generator) -> Diodes:
    """What is left of so many cells: sound on arrival, strong enough where measured, whole after it all."""
    count, lost = bought
    cells = drawn_cells(offer, count, dice)
    passed = (dice.random((len(lost), count)) >= np.array(lost)[:, None]).all(axis=0)
    if offer.measured and want.least_w > 0:
        passed &= own_power_w(cells) >= want.least_w
    return cells.at(np.flatnonzero(passed))


def _placed(cells: Diodes, offer: Offer, want: Want) -> Diodes:
    """As many cells as the panels have places, each in its own."""
    if offer.measured:
        strong = np.argsort(-own_power_w(cells), kind="stable")[: want.cells]
        cells = cells.at(strong)
        cells = cells.at(np.argsort(-peak(cells).imp_a, kind="stable"))
    shape = (want.panels, want.cells_each)
    return Diodes(*(getattr(cells, name)[: want.cells].reshape(shape) for name in Diodes.__slots__))


def _together(*lots: Diodes) -> Diodes:
    columns: list[Array] = [np.concatenate([getattr(lot, name) for lot in lots]) for name in Diodes.__slots__]
    return Diodes(*columns)
