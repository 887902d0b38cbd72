"""The accepted orders out of the records: what of each is still to be built, cut and worked."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf
from panewright.errors import OrderError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.ledger.open import Ledger
    from panewright.ledger.orders.promises import Promise
    from panewright.order.terms import Hands
    from panewright.price.buying.buying import Asked
    from panewright.price.buying.cuts_together import Job, Known
    from panewright.price.buying.delivery import Work

_LAST_STEP = "measure-sun"  #: a panel of which this is ticked takes nothing any more


@dataclass(frozen=True, slots=True)
class Open:
    """An accepted order, designed, with what of it is still to be built."""

    promise: Promise
    made: Made
    panels: int
    asked: Asked


def open_orders(ledger: Ledger, notes: list[str]) -> Iterator[Open]:
    """Accepted orders; one whose text cannot be read any more is told and left out."""
    from panewright import desk
    from panewright.desk.actuals import actuals
    from panewright.desk.designed import designed
    from panewright.ledger.orders.orders import find_order
    from panewright.ledger.orders.promises import promises
    from panewright.pack.packing import packing
    from panewright.price.buying.open_orders import asked_of, lying_cut

    own = actuals(ledger)
    for promise in promises(ledger):
        try:
            made = desk.priced(designed(find_order(ledger, promise.order).text, promise.order), own)
        except OrderError as mistake:
            notes.append(
                f"Order {promise.order} cannot be read and is not counted: {mistake.problems[0].reason}"
            )
            continue
        left = _left(ledger, promise.order, made)
        taken = _taken(ledger, promise.order)
        asked = asked_of(
            *(made.design, own_shelf()),
            panels=left,
            promised=promise.promised,
            taken=taken,
            actuals=made.actuals,
            packed=packing(made.design, own_shelf()),
        )
        counted = lying_cut(
            _numbered(asked, promise.order), cut_pieces(ledger), _done(ledger, promise.order, made)
        )
        yield Open(promise, made, left, counted)


def cut_pieces(ledger: Ledger) -> dict[Known, int]:
    """Pieces that were ticked as cut in a cutting plan."""
    from panewright.desk.stores.cutting import known
    from panewright.ledger.stores.cuts import pieces_cut

    return known(pieces_cut(ledger))


def job_of(ledger: Ledger, order: Open) -> Job:
    """All panels of an order, with how many of them are finished or sawn."""
    from panewright.desk.stores.cutting import asked
    from panewright.price.buying.cuts_together import Begun, Job
    from panewright.price.buying.open_orders import sawn

    (ticked,) = asked(ledger, (order.promise.order,))
    panels = order.made.design.order.job.panels
    begun = Begun(rails=sawn(panels, order.panels, ticked.begun.rails))
    return Job(order.promise.order, order.made.design, panels, begun)


def _numbered(asked: Asked, number: str) -> Asked:
    """Under the number that the records know it by."""
    return replace(asked, order=number)


def _left(ledger: Ledger, order: str, made: Made) -> int:
    """Panels of which the last step is not ticked."""
    return made.design.order.job.panels - _done(ledger, order, made)


def _done(ledger: Ledger, order: str, made: Made) -> int:
    """Panels of which it is."""
    return len(_finished(ledger, order) & set(made.design.label.serials))


def _finished(ledger: Ledger, order: str) -> frozenset[str]:
    from panewright.ledger.serials.serials import serials
    from panewright.ledger.serials.steps import ticks

    begun = (each.serial for each in serials(ledger, order=order))
    return frozenset(
        serial
        for serial in begun
        if any(tick.step == _LAST_STEP and tick.done for tick in ticks(ledger, serial))
    )


def _taken(ledger: Ledger, order: str) -> dict[tuple[str, str], Decimal]:
    """What went into panels of an order that are not finished."""
    from panewright.ledger.serials.serials import serials
    from panewright.ledger.stores.stock import movements

    found: dict[tuple[str, str], Decimal] = defaultdict(Decimal)
    finished = _finished(ledger, order)
    for serial in (each.serial for each in serials(ledger, order=order)):
        if serial in finished:
            continue
        for moved in movements(ledger, serial=serial, most=10_000):
            if moved.movement.reason == "used":
                found[moved.movement.item, moved.movement.unit] -= moved.movement.amount
    return dict(found)


def work_of(order: Open) -> Work:
    """Hours of hands for the panels that are left, and the cures of one panel."""
    from panewright import desk
    from panewright.price.buying.delivery import work_left

    quote, kit = order.made.quote, order.made.design.order.kit.is_kit
    waits = () if kit else tuple(each.wait_h for each in desk.steps(order.made))
    return work_left(quote.hours, order.panels, quote.panels, waits)


def hands_of(orders: tuple[Open, ...]) -> Hands:
    """Hands of the order promised first; of a small shop where there is none."""
    from panewright.order.terms import Hands

    return orders[0].made.design.order.hands if orders else Hands()
