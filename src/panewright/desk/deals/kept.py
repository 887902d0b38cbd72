"""Deals between a page and the records: kept, found with what was changed since, changed, cells laid."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from panewright.desk.deals.deal import Deal, DealtPanel, Swap, as_text, from_text
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.cells.deals import DealHead
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials.laid import Laid


@dataclass(frozen=True, slots=True)
class KeptDeal:
    """A deal as it stands."""

    number: int
    lot: str  #: its mark
    order: str
    by: str
    at: Any
    deal: Deal
    serials: dict[int, str]  #: of its panels, where they were told
    laid: dict[str, tuple[Laid, ...]]  #: by serial: cells that lie in it now

    @property
    def seen(self) -> int:
        """How many exchanges are in it."""
        return len(self.deal.swaps)

    @property
    def text(self) -> str:
        """As another process takes it."""
        return as_text(self.deal)

    def laid_in(self, panel: int) -> dict[int, Laid]:
        """Cells that lie in a panel, by their places."""
        return {each.place: each for each in self.laid.get(self.serials.get(panel, ""), ())}


def keep(ledger: Ledger, lot: str, order: str, text: str, hand: Who) -> int:
    """A deal kept; its number."""
    from panewright.desk.deals.told import sentence
    from panewright.ledger.cells.deals import keep_deal

    deal = from_text(text)
    said = f"{deal.wish.words}: {sentence(deal)}"
    return keep_deal(ledger, lot, order, text, said=said, by=hand.by, at=hand.at, tap=hand.tap)


def taken(ledger: Ledger, lot: str) -> tuple[str, ...]:
    """Cells of a lot that are dealt no more."""
    from panewright.ledger.serials.laid import taken as told

    return told(ledger, lot)


def of_lot(ledger: Ledger, lot: str) -> tuple[DealHead, ...]:
    """The deals of a lot, the latest first."""
    from panewright.ledger.cells.deals import deals

    return deals(ledger, lot=lot)


def find(ledger: Ledger, number: int) -> KeptDeal:
    """A deal with what was changed since; `RecordError` where there is none."""
    from panewright.ledger.cells.deals import exchanges, find_deal, given
    from panewright.ledger.serials.laid import laid

    head, text = find_deal(ledger, number)
    deal = from_text(text, f"deal {number}")
    for each in exchanges(ledger, number):
        deal = _exchanged(deal, each.exchanged)
    serials = given(ledger, number)
    lie = {serial: laid(ledger, serial) for serial in set(serials.values())}
    return KeptDeal(number, head.lot, head.order, head.by, head.at, deal, serials, lie)


def _exchanged(deal: Deal, each: Any) -> Deal:
    """A deal with one exchange that was kept."""
    before = deal.panels[each.panel - 1]
    cells = (*before.cells[: each.place - 1], each.mark_in, *before.cells[each.place :])
    figures = json.loads(each.figures)
    curve = tuple((volts, amps) for volts, amps in figures.pop("curve", ()))
    fresh = DealtPanel(cells, **figures, curve=curve)
    return deal.with_panel(fresh, Swap(each.panel, each.place, each.mark_out, each.mark_in, each.reason))


def keep_swap(ledger: Ledger, kept: KeptDeal, after: Deal, hand: Who) -> Swap:
    """The last exchange of a deal kept; `StaleError` where another hand was faster."""
    from panewright.ledger.cells.deals import Exchanged, exchange

    swap = after.swaps[-1]
    figures = asdict(after.panels[swap.panel - 1])
    del figures["cells"]
    what = Exchanged(swap.panel, swap.place, swap.out, swap.into, swap.why, json.dumps(figures))
    exchange(ledger, kept.number, what, seen=kept.seen, by=hand.by, at=hand.at, tap=hand.tap)
    return swap


def give(ledger: Ledger, kept: KeptDeal, panel: int, serial: str, hand: Who) -> None:
    """A panel of the deal is that serial; not one that another panel is, nor one with cells in it."""
    from panewright.ledger.cells.deals import give as told

    other = next((n for n, each in kept.serials.items() if each == serial and n != panel), None)
    if other is not None:
        cure = "Choose another serial, or give that panel another first."
        raise RecordError([Problem(f"That serial is panel {other}.", cure, key="serial", value=serial)])
    if kept.laid_in(panel):
        cure = "Lift them first, each with a tap."
        raise RecordError([Problem("Cells of this panel lie in its serial.", cure, key="serial")])
    told(ledger, kept.number, panel, serial, by=hand.by, at=hand.at, tap=hand.tap)


def lay(ledger: Ledger, kept: KeptDeal, panel: int, told: tuple[int, str, str], hand: Who) -> str:
    """A cell laid at its place, lifted, or broken there; its mark."""
    from panewright.ledger.serials.laid import Laying
    from panewright.ledger.serials.laid import lay as told_so

    place, what, why = told
    serial, cells = kept.serials.get(panel, ""), kept.deal.panels[panel - 1].cells
    if not serial:
        raise RecordError([Problem("Nobody said which serial this is.", "Choose it first.", key="serial")])
    if not 1 <= place <= len(cells):
        raise RecordError([Problem("There is no such place.", f"Tap a cell, 1 to {len(cells)}.", key="cell")])
    there = kept.laid_in(panel).get(place)
    mark = there.cell if there and what != "laid" else cells[place - 1]
    laying = Laying(place, kept.lot, mark, what, " ".join(why.split())[:200], kept.number)
    told_so(ledger, serial, laying, by=hand.by, at=hand.at, tap=hand.tap)
    return mark
