"""Cells of a lot that another deal waits for, and what is not dealt at all."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger


@dataclass(frozen=True, slots=True)
class Held:
    """Cells that stand in a deal and are not laid yet."""

    deal: int
    order: str
    cells: tuple[str, ...]

    @property
    def words(self) -> str:
        """Which, and how many."""
        return f"Deal {self.deal} for order {self.order}: {len(self.cells)} cells"


@dataclass(frozen=True, slots=True)
class Barred:
    """What of a lot is not dealt."""

    gone: tuple[str, ...] = ()  #: cells that lie in panels already, or broke
    held: tuple[Held, ...] = ()

    @property
    def marks(self) -> frozenset[str]:
        """All of them."""
        return frozenset(self.gone).union(*(each.cells for each in self.held))

    @property
    def said(self) -> Iterator[str]:
        """What a maker should know of it."""
        if self.gone:
            yield f"Cells that lie in panels already, or broke: {len(self.gone)}. They are not dealt again."
        for each in self.held:
            yield f"{each.words} stand there and are not laid yet. They are left out."


def held(ledger: Ledger, lot: str, order: str = "", but: Collection[int] = ()) -> tuple[Held, ...]:
    """Cells that deals wait for, but those of some deals.

    Matching an order anew frees the cells of its own last deal, save those of a panel that is being laid.
    """
    from panewright.desk.deals.kept import find, taken
    from panewright.ledger.cells.held import waiting

    gone, found = set(taken(ledger, lot)), []
    for each in waiting(ledger, lot):
        if each.deal in but or not (each.begun or each.order != order):
            continue
        panels = find(ledger, each.deal).deal.panels
        open_to = (
            set(range(1, len(panels) + 1)) - set(each.done) if each.last and each.order != order else set()
        )
        wait = sorted(open_to | set(each.begun))
        cells = [mark for number in wait for mark in panels[number - 1].cells if mark not in gone]
        if cells:
            found.append(Held(each.deal, each.order, tuple(cells)))
    return tuple(found)
