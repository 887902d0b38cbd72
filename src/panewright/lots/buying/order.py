"""One order played through: bought, broken, sorted or not, made into panels, bought again where short.

The chances of the steps are drawn first, once for the order: what is not known of them is common to all
cells. Where the cells are measured, the strongest by the meter go into panels by Imp and the rest are spares;
else they go in as they come out of the box. Panels are built one after another: where a step of the shop
breaks a cell the next in turn takes its place, so that spares end in the last panels. Where none are
left more is bought.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.buying.metered import Read, read
from panewright.lots.buying.needed import needed
from panewright.lots.buying.offer import Offer, believed, drawn_cells
from panewright.lots.buying.rate import Rate

Flags = NDArray[np.bool_]
Places = NDArray[np.intp]

_AGAIN = 20  # deliveries, at most: an order that is still short then was not delivered


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
    made: int  #: panels, the first ones; fewer than wanted where no delivery completed the order
    good: int  #: good cells of the first delivery
    cost: Decimal  #: all deliveries
    deliveries: int


@dataclass(frozen=True, slots=True)
class _Box:
    """Cells that were sound on arrival and strong enough, as they came."""

    cells: Diodes
    says: Read | None  #: where they are measured
    whole: Flags  #: whether each lives through the shop's steps
    delivery: Array  #: the one that each came with


def played(
    offer: Offer, want: Want, ordered: tuple[int, Sequence[Rate]], dice: np.random.Generator
) -> Played:
    """One order of so many packs, and what it took to complete it; more is ordered by these rates."""
    packs, rates = ordered
    offer = believed(offer, dice)
    lost = [float(rate.drawn(dice, 1)[0]) for rate in (offer.defects, *want.steps)]
    box = _box(offer, want, (packs * offer.pack, lost), dice)
    first = left = int(box.whole.sum())
    cost, deliveries = offer.cost(packs), 1
    while left < want.cells and deliveries < _AGAIN:
        more = needed(want.cells - left, rates, want.sure, offer.pack).packs
        box = _together(box, _box(offer, want, (more * offer.pack, lost), dice))
        left = int(box.whole.sum())
        cost, deliveries = cost + offer.cost(more), deliveries + 1
    made = min(left, want.cells) // want.cells_each
    return Played(_placed(box, offer, want), made, first, cost, deliveries)


def _box(offer: Offer, want: Want, bought: tuple[int, list[float]], dice: np.random.Generator) -> _Box:
    """What comes of so many cells: those dead on arrival or read too weak are set aside at once."""
    count, (defects, *steps) = bought
    cells = drawn_cells(offer, count, dice)
    sound = dice.random(count) >= defects
    whole: Flags = np.all(dice.random((len(steps), count)) >= np.array(steps)[:, None], axis=0)
    says = read(cells, dice) if offer.measured else None
    if says is not None and want.least_w > 0:
        sound &= says.power_w >= want.least_w
    keep = np.flatnonzero(sound)
    kept = says and Read(says.power_w[keep], says.imp_a[keep])
    return _Box(cells.at(keep), kept, whole[keep], np.zeros(keep.size))


def _placed(box: _Box, offer: Offer, want: Want) -> Diodes:
    """As many cells as the panels have places, each in its own; what is missing stands as the kind's."""
    turn = _turn(box)
    turn[: want.cells] = _seats(box, turn[: want.cells])
    taken = turn[box.whole[turn]][: want.cells]
    cells, short = box.cells.at(taken), want.cells - taken.size
    if short:
        cells = _beside(cells, Diodes.of((offer.kind.stc,) * short))
    shape = (want.panels, want.cells_each)
    return Diodes(*(getattr(cells, name).reshape(shape) for name in Diodes.__slots__))


def _turn(box: _Box) -> Places:
    """The turn in which cells are taken: a delivery after the other, the strongest by the meter first."""
    if box.says is None:
        return np.arange(box.whole.size)
    return np.lexsort((-box.says.power_w, box.delivery))


def _seats(box: _Box, chosen: Places) -> Places:
    """The chosen ones as they go into the panels: by their Imp as read, or as they come."""
    if box.says is None:
        return chosen
    return np.asarray(chosen[np.argsort(-box.says.imp_a[chosen], kind="stable")])


def _together(before: _Box, later: _Box) -> _Box:
    says = None
    if before.says is not None and later.says is not None:
        says = Read(
            np.concatenate([before.says.power_w, later.says.power_w]),
            np.concatenate([before.says.imp_a, later.says.imp_a]),
        )
    number = before.delivery.max(initial=0.0) + 1
    return _Box(
        _beside(before.cells, later.cells),
        says,
        np.concatenate([before.whole, later.whole]),
        np.concatenate([before.delivery, later.delivery + number]),
    )


def _beside(*lots: Diodes) -> Diodes:
    columns: list[Array] = [np.concatenate([getattr(lot, name) for lot in lots]) for name in Diodes.__slots__]
    return Diodes(*columns)
