"""Which deals of a lot still wait for their cells: the last one of each open order, and panels being laid."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import exists, func, select

from panewright.ledger.open import Ledger
from panewright.ledger.orders.orders import closed
from panewright.ledger.tables.built import BuiltRow as Builts
from panewright.ledger.tables.deals import DealPanelRow as Panels
from panewright.ledger.tables.deals import DealRow as Deals
from panewright.ledger.tables.lots import LotRow as Lots
from panewright.ledger.tables.orders import OrderRow as Orders


@dataclass(frozen=True, slots=True)
class Waiting:
    """A deal whose cells are not all laid yet; panels from 1."""

    deal: int
    order: str
    last: bool  #: the last of an order that is open: panels that nobody began wait too
    begun: tuple[int, ...]  #: panels whose serial is not told as built
    done: tuple[int, ...]  #: panels whose serial is


def waiting(ledger: Ledger, lot: str) -> tuple[Waiting, ...]:
    """Deals of a lot that wait for cells, the first first."""
    last = select(func.max(Deals.id)).join(Lots, Deals.lot_id == Lots.id).where(Lots.mark == lot)
    last = last.join(Orders, Deals.order_id == Orders.id).where(~closed()).group_by(Deals.order_id)
    wanted = select(Deals.id, Orders.number).join(Orders, Deals.order_id == Orders.id)
    wanted = wanted.join(Lots, Deals.lot_id == Lots.id).where(Lots.mark == lot).order_by(Deals.id)
    built = exists().where(Builts.serial_id == Panels.serial_id)
    given = select(Panels.deal_id, Panels.panel, Panels.serial_id, built).join(Deals).join(Lots)
    with ledger.reading() as db:
        rows, lasts = db.execute(wanted).all(), set(db.scalars(last))
        told = db.execute(given.where(Lots.mark == lot).order_by(Panels.id)).all()
    where = _where([(row[0], row[1], row[2], row[3]) for row in told])
    found = (Waiting(deal, order, deal in lasts, *where.get(deal, ((), ()))) for deal, order in rows)
    return tuple(each for each in found if each.last or each.begun)


_Places = dict[int, tuple[tuple[int, ...], tuple[int, ...]]]


def _where(told: list[tuple[int, int, int, bool]]) -> _Places:
    """By deal, panels begun and done; of each panel, and of each serial, what was told last holds."""
    of_panel = {(deal, panel): (serial, done) for deal, panel, serial, done in told}
    of_serial = {serial: (deal, panel) for deal, panel, serial, _ in told}
    found: _Places = {}
    for (deal, panel), (serial, done) in sorted(of_panel.items()):
        if of_serial[serial] == (deal, panel):
            begun, built = found.get(deal, ((), ()))
            found[deal] = (begun, (*built, panel)) if done else ((*begun, panel), built)
    return found
