"""What to buy for the orders that are accepted, what came in, and what can leave when."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.errors import OrderError, Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.shop.who import Who
    from panewright.drawing.listing import Listing
    from panewright.ledger.open import Ledger
    from panewright.ledger.promises import Promise
    from panewright.ledger.purchases import OnOrder
    from panewright.order.terms import Hands
    from panewright.price.buying import Asked, Purchase, Stores, SupplierList
    from panewright.price.cuts_together import Job, Known
    from panewright.price.delivery import Shipping, Work

_LAST_STEP = "measure-sun"  #: a panel of which this is ticked takes nothing any more


@dataclass(frozen=True, slots=True)
class Buying:
    """What the accepted orders take together, as things stand."""

    day: date
    parts: tuple[Purchase, ...]  #: every part, also those of which enough is there
    suppliers: tuple[SupplierList, ...]  #: what is to buy
    shipping: tuple[Shipping, ...]
    on_order: tuple[OnOrder, ...]  #: of which more will come
    notes: tuple[str, ...]
    currency: str


@dataclass(frozen=True, slots=True)
class _Open:
    """An accepted order, designed, with what of it is still to be built."""

    promise: Promise
    made: Made
    panels: int
    asked: Asked


def to_buy(ledger: Ledger, *, today: date) -> Buying:
    """Everything that a buyer asks, for the orders accepted and not yet delivered."""
    from panewright.ledger.purchases import on_order
    from panewright.price.buying import by_supplier, purchases, uncounted
    from panewright.price.delivery import shipping
    from panewright.price.open_orders import bars_of, sources_of
    from panewright.shelf.load import load_shelf

    shelf, notes = load_shelf(), list[str]()
    orders = tuple(_open_orders(ledger, notes))
    asked = tuple(each.asked for each in orders)
    sources, stores = sources_of(asked, shelf), _stores(ledger)
    cut = _cut(ledger)
    jobs = [_job(ledger, each) for each in orders if each.panels]
    bars = bars_of(jobs, _remnants(ledger), cut)
    parts = purchases(asked, stores, sources, bars)
    work = {each.asked.order: _work(each) for each in orders}
    return Buying(
        day=today,
        parts=parts,
        suppliers=by_supplier(parts, shelf.suppliers),
        shipping=shipping(asked, stores, sources, work, _hands(orders), today=today),
        on_order=on_order(ledger, only_open=True),
        notes=(*notes, *uncounted(parts, stores)),
        currency=shelf.currency,
    )


def _open_orders(ledger: Ledger, notes: list[str]) -> Iterator[_Open]:
    """Accepted orders; one whose text cannot be read any more is told and left out."""
    from panewright import desk
    from panewright.desk.actuals import actuals
    from panewright.ledger.orders import find_order
    from panewright.ledger.promises import promises
    from panewright.pack.packing import packing
    from panewright.price.open_orders import asked_of, lying_cut
    from panewright.shelf.load import load_shelf

    own = actuals(ledger)
    for promise in promises(ledger):
        try:
            made = desk.design(find_order(ledger, promise.order).text.encode(), promise.order, own)
        except OrderError as mistake:
            notes.append(
                f"Order {promise.order} cannot be read and is not counted: {mistake.problems[0].reason}"
            )
            continue
        left = _left(ledger, promise.order, made)
        taken = _taken(ledger, promise.order)
        asked = asked_of(
            *(made.design, load_shelf()),
            panels=left,
            promised=promise.promised,
            taken=taken,
            actuals=made.actuals,
            packed=packing(made.design, load_shelf()),
        )
        counted = lying_cut(_numbered(asked, promise.order), _cut(ledger), _done(ledger, promise.order, made))
        yield _Open(promise, made, left, counted)


def _cut(ledger: Ledger) -> dict[Known, int]:
    """Pieces that were ticked as cut in a cutting plan."""
    from panewright.desk.stores.cutting import known
    from panewright.ledger.cuts import pieces_cut

    return known(pieces_cut(ledger))


def _job(ledger: Ledger, order: _Open) -> Job:
    """All panels of an order, with how many of them are finished or sawn."""
    from panewright.desk.stores.cutting import asked
    from panewright.price.cuts_together import Begun, Job
    from panewright.price.open_orders import sawn

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
    from panewright.ledger.serials import serials
    from panewright.ledger.steps import ticks

    begun = (each.serial for each in serials(ledger, order=order))
    return frozenset(
        serial
        for serial in begun
        if any(tick.step == _LAST_STEP and tick.done for tick in ticks(ledger, serial))
    )


def _taken(ledger: Ledger, order: str) -> dict[tuple[str, str], Decimal]:
    """What went into panels of an order that are not finished."""
    from panewright.ledger.serials import serials
    from panewright.ledger.stock import movements

    found: dict[tuple[str, str], Decimal] = defaultdict(Decimal)
    finished = _finished(ledger, order)
    for serial in (each.serial for each in serials(ledger, order=order)):
        if serial in finished:
            continue
        for moved in movements(ledger, serial=serial, most=10_000):
            if moved.movement.reason == "used":
                found[moved.movement.item, moved.movement.unit] -= moved.movement.amount
    return dict(found)


def _stores(ledger: Ledger) -> Stores:
    """Stock over all lots, and goods that are still to come."""
    from panewright.ledger.purchases import on_order
    from panewright.ledger.stock import stock
    from panewright.price.buying import Coming, Stores

    there: dict[tuple[str, str], Decimal] = defaultdict(Decimal)
    for each in stock(ledger):
        there[each.item, each.unit] += each.amount
    coming = tuple(
        Coming(each.goods.item, each.goods.unit, each.to_come, each.goods.expected, each.purchase)
        for each in on_order(ledger, only_open=True)
    )
    return Stores(dict(there), coming)


def _remnants(ledger: Ledger) -> dict[str, tuple[float, ...]]:
    from panewright.ledger.stock import remnants

    found: dict[str, list[float]] = defaultdict(list)
    for each in remnants(ledger):
        if each.width_mm is None:
            found[each.item].append(each.length_mm)
    return {item: tuple(lengths) for item, lengths in found.items()}


def _work(order: _Open) -> Work:
    """Hours of hands for the panels that are left, and the cures of one panel."""
    from panewright import desk
    from panewright.price.delivery import work_left

    quote, kit = order.made.quote, order.made.design.order.kit.is_kit
    waits = () if kit else tuple(each.wait_h for each in desk.steps(order.made))
    return work_left(quote.hours, order.panels, quote.panels, waits)


def _hands(orders: tuple[_Open, ...]) -> Hands:
    """Hands of the order promised first; of a small shop where there is none."""
    from panewright.order.terms import Hands

    return orders[0].made.design.order.hands if orders else Hands()


def order_from(ledger: Ledger, supplier: str, number: str, who: Who, *, today: date) -> tuple[OnOrder, ...]:
    """Everything that is to buy from one supplier, written down as ordered today."""
    from panewright.ledger.purchases import Goods, order_goods

    found = to_buy(ledger, today=today)
    wanted = next((each for each in found.suppliers if each.supplier == supplier), None)
    if wanted is None:
        names = ", ".join(each.supplier or "(no supplier)" for each in found.suppliers) or "nobody"
        cure = f"There is something to buy from {names}."
        raise RecordError([Problem("Nothing is to buy there.", cure, key="supplier", value=supplier[:60])])
    goods = [
        Goods(each.item, each.unit, each.buy, each.source.price, found.currency, _expected(each, today))
        for each in wanted.lines
    ]
    name = supplier or "no supplier"
    return order_goods(ledger, number, name, goods, day=today, by=who.by, at=who.at, tap=who.tap)


def _expected(line: Purchase, today: date) -> date | None:
    days = line.source.lead_days
    return None if days is None else today + timedelta(days=days)


def receive(ledger: Ledger, number: str, line: int, amount: Decimal, who: Who, lot: str = "") -> OnOrder:
    """Goods came in, whole or in part; the stock knows it in the same breath."""
    from panewright.ledger.purchases import receive as came

    return came(ledger, number, line, amount, by=who.by, at=who.at, lot=lot, tap=who.tap)


def take_back(ledger: Ledger, number: str, line: int, who: Who) -> OnOrder:
    """What came in last of a line did not stay: it leaves the stock and is on order again."""
    from panewright.ledger.purchases import last_came, on_order
    from panewright.ledger.taken_back import take_back as back

    back(ledger, last_came(ledger, number, line), by=who.by, at=who.at, tap=who.tap)
    return next(each for each in on_order(ledger, purchase=number) if each.line == line)


def end(ledger: Ledger, number: str, line: int, reason: str, who: Who) -> None:
    """Nothing more will come of a line."""
    from panewright.ledger.purchases import end_line

    end_line(ledger, number, line, reason, by=who.by, at=who.at, tap=who.tap)


def promise(ledger: Ledger, order: str, state: str, day: date | None, who: Who) -> Promise:
    """Where an order stands from now on."""
    from panewright.ledger.promises import promise as keep
    from panewright.ledger.promises import promise_of

    stands = promise_of(ledger, order)
    seen = stands.version if stands else 0
    return keep(ledger, order, state, day, seen=seen, by=who.by, at=who.at, tap=who.tap)


def listing(found: SupplierList, currency: str) -> Listing:
    """What to order from one supplier, for a spreadsheet or a program."""
    from panewright.price.buying_lists import supplier_listing

    return supplier_listing(found, currency)


def written(found: Buying) -> Mapping[str, bytes]:
    """The buying papers: a page a supplier, the same in one workbook, and one plain list."""
    from panewright.pack.pages.buying import buying_leaves
    from panewright.paper.leaf import render

    leaves = buying_leaves(
        found.suppliers, found.parts, found.shipping, day=found.day, currency=found.currency
    )
    return {leaf.name: render(leaf) for leaf in leaves}


def told(found: Buying) -> tuple[str, ...]:
    """The same in lines for a screen."""
    from panewright.price.buying_lists import supplier_words

    lines: list[str] = []
    for each in found.suppliers:
        lines.append(f"{each.supplier or 'No supplier named'}: {each.cost:f} {found.currency}")
        lines += [f"  {words}" for words in supplier_words(each, found.currency)]
        lines += [f"  {_line(line)}" for line in each.lines]
    if not lines:
        lines.append("Nothing is to buy.")
    lines += [_leaves(each) for each in found.shipping]
    return (*lines, *found.notes)


def _line(line: Purchase) -> str:
    by = f", by {line.order_by.isoformat()}" if line.order_by else ""
    unit = "" if line.unit == "each" else f" {line.unit}"
    return f"{line.buy.normalize():f}{unit} × {line.item} for {', '.join(line.orders)}{by}"


def _leaves(each: Shipping) -> str:
    when = each.ready.isoformat() if each.ready else "on a day that nobody knows"
    late = f", LATE by {each.late_days} days" if each.late_days else ""
    waits = f", waits for {each.waits_for}" if each.waits_for else ""
    return f"{each.order} can leave {when}{late}{waits}"
