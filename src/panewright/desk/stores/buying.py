"""What to buy for the orders that are accepted, what came in, and what can leave when."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.own_shelf import own_shelf
from panewright.desk.stores.open_orders import cut_pieces, hands_of, job_of, open_orders, work_of
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.drawing.listing import Listing
    from panewright.ledger.open import Ledger
    from panewright.ledger.orders.promises import Promise
    from panewright.ledger.stores.purchases import OnOrder
    from panewright.price.buying.buying import Purchase, Stores, SupplierList
    from panewright.price.buying.delivery import Shipping


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


def to_buy(ledger: Ledger, *, today: date) -> Buying:
    """Everything that a buyer asks, for the orders accepted and not yet delivered."""
    from panewright.ledger.stores.purchases import on_order
    from panewright.price.buying.buying import by_supplier, purchases, uncounted
    from panewright.price.buying.delivery import goods_by, shipping
    from panewright.price.buying.open_orders import bars_of, sources_of

    shelf, notes = own_shelf(), list[str]()
    orders = tuple(open_orders(ledger, notes))
    asked = tuple(each.asked for each in orders)
    sources, stores = sources_of(asked, shelf), _stores(ledger)
    cut = cut_pieces(ledger)
    jobs = [job_of(ledger, each) for each in orders if each.panels]
    bars = bars_of(jobs, _remnants(ledger), cut)
    work, hands = {each.asked.order: work_of(each) for each in orders}, hands_of(orders)
    parts = purchases(asked, stores, sources, bars, goods_by=goods_by(asked, work, hands))
    return Buying(
        day=today,
        parts=parts,
        suppliers=by_supplier(parts, shelf.suppliers),
        shipping=shipping(asked, stores, sources, work, hands, today=today),
        on_order=on_order(ledger, only_open=True),
        notes=(*notes, *uncounted(parts, stores)),
        currency=shelf.currency,
    )


def _stores(ledger: Ledger) -> Stores:
    """Stock over all lots, and goods that are still to come."""
    from panewright.ledger.stores.purchases import on_order
    from panewright.ledger.stores.stock import stock
    from panewright.price.buying.buying import Coming, Stores

    there: dict[tuple[str, str], Decimal] = defaultdict(Decimal)
    for each in stock(ledger):
        there[each.item, each.unit] += each.amount
    coming = tuple(
        Coming(each.goods.item, each.goods.unit, each.to_come, each.goods.expected, each.purchase)
        for each in on_order(ledger, only_open=True)
    )
    return Stores(dict(there), coming)


def _remnants(ledger: Ledger) -> dict[str, tuple[float, ...]]:
    from panewright.ledger.stores.stock import remnants

    found: dict[str, list[float]] = defaultdict(list)
    for each in remnants(ledger):
        if each.width_mm is None:
            found[each.item].append(each.length_mm)
    return {item: tuple(lengths) for item, lengths in found.items()}


def order_from(ledger: Ledger, supplier: str, number: str, who: Who, *, today: date) -> tuple[OnOrder, ...]:
    """Everything that is to buy from one supplier, written down as ordered today."""
    from panewright.ledger.stores.purchases import Goods, order_goods

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
    from panewright.ledger.stores.purchases import receive as came

    return came(ledger, number, line, amount, by=who.by, at=who.at, lot=lot, tap=who.tap)


def take_back(ledger: Ledger, number: str, line: int, who: Who) -> OnOrder:
    """What came in last of a line did not stay: it leaves the stock; a line not ended awaits it again."""
    from panewright.ledger.stores.purchases import last_came, on_order
    from panewright.ledger.stores.taken_back import take_back as back

    back(ledger, last_came(ledger, number, line), by=who.by, at=who.at, tap=who.tap)
    return next(each for each in on_order(ledger, purchase=number) if each.line == line)


def end(ledger: Ledger, number: str, line: int, reason: str, who: Who) -> None:
    """Nothing more will come of a line."""
    from panewright.ledger.stores.purchases import end_line

    end_line(ledger, number, line, reason, by=who.by, at=who.at, tap=who.tap)


def promise(ledger: Ledger, order: str, state: str, day: date | None, who: Who) -> Promise:
    """Where an order stands from now on."""
    from panewright.ledger.orders.promises import promise as keep
    from panewright.ledger.orders.promises import promise_of

    stands = promise_of(ledger, order)
    seen = stands.version if stands else 0
    return keep(ledger, order, state, day, seen=seen, by=who.by, at=who.at, tap=who.tap)


def listing(found: SupplierList, currency: str, today: date) -> Listing:
    """What to order from one supplier, for a spreadsheet or a program."""
    from panewright.price.buying.buying_lists import supplier_listing

    return supplier_listing(found, currency, today)


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
    from panewright.price.buying.buying_lists import order_words, supplier_words

    lines: list[str] = []
    for each in found.suppliers:
        lines.append(f"{each.supplier or 'No supplier named'}: {each.cost:f} {found.currency}")
        lines += [f"  {words}" for words in supplier_words(each, found.currency)]
        lines += [f"  {_line(line, order_words(line, found.day))}" for line in each.lines]
    if not lines:
        lines.append("Nothing is to buy.")
    lines += [_leaves(each) for each in found.shipping]
    return (*lines, *found.notes)


def _line(line: Purchase, when: str) -> str:
    by = f"; {when}" if when else ""
    unit = "" if line.unit == "each" else f" {line.unit}"
    panes = f" ({line.panes})" if line.panes else ""
    return f"{line.buy.normalize():f}{unit} × {line.item}{panes} for {', '.join(line.orders)}{by}"


def _leaves(each: Shipping) -> str:
    when = each.ready.isoformat() if each.ready else "on a day that nobody knows"
    late = f", LATE by {each.late_days} days" if each.late_days else ""
    waits = f", waits for {each.waits_for}" if each.waits_for else ""
    return f"{each.order} can leave {when}{late}{waits}"
