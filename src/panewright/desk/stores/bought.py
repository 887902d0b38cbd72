"""What to buy, for a page: words only, and where they lie the papers; reckoned by a worker."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.records.place import Place
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.stores.purchases import OnOrder
    from panewright.price.buying.buying import Purchase
    from panewright.price.buying.delivery import Shipping


@dataclass(frozen=True, slots=True)
class Wanted:
    """One part to buy."""

    item: str
    amount: str
    cost: str
    orders: str
    by: str  #: the last day to order it, in words
    late: bool  #: it is past
    why: str  #: asked, there, on order


@dataclass(frozen=True, slots=True)
class FromOne:
    """All that is to buy from one supplier."""

    supplier: str  #: '' where none is named
    name: str
    cost: str
    lines: tuple[Wanted, ...]
    words: tuple[str, ...] = ()  #: where it is, whom to ask, its least sum


@dataclass(frozen=True, slots=True)
class Leaves:
    """When one order can leave."""

    order: str
    promised: str
    goods: str
    waits_for: str
    ready: str
    late: str


@dataclass(frozen=True, slots=True)
class Bought:
    """Everything for the page."""

    suppliers: tuple[FromOne, ...]
    cost: str
    leaves: tuple[Leaves, ...]
    notes: tuple[str, ...]
    enough: int  #: parts of which enough is there or on its way


@dataclass(frozen=True, slots=True)
class Coming:
    """One line of goods on order."""

    purchase: str
    line: int
    supplier: str
    day: str
    what: str
    left: str
    amount: str  #: still to come, as it is proposed
    expected: str


@dataclass(frozen=True, slots=True)
class Stands:
    """Where an order stands."""

    number: str
    name: str
    state: str
    promised: str


def reckoned(place: Place, today: date) -> Bought:
    """What to buy as things stand, in a process of its own."""
    from panewright.desk.progress import at
    from panewright.desk.records.place import opened
    from panewright.desk.stores.buying import to_buy
    from panewright.price.buying.buying_lists import supplier_words
    from panewright.price.money import amount

    at(5)
    with opened(place) as ledger:
        found = to_buy(ledger, today=today)
    at(95)
    suppliers = tuple(
        FromOne(
            each.supplier,
            each.supplier or "No supplier named",
            amount(each.cost, found.currency),
            tuple(_wanted(line, found.currency, today) for line in each.lines),
            supplier_words(each, found.currency),
        )
        for each in found.suppliers
    )
    cost = sum((each.cost for each in found.suppliers), Decimal(0))
    return Bought(
        suppliers,
        amount(cost, found.currency),
        tuple(_leaves(each) for each in found.shipping),
        found.notes,
        sum(each.missing <= 0 for each in found.parts),
    )


def _wanted(line: Purchase, currency: str, today: date) -> Wanted:
    from panewright.pack.customary import counted
    from panewright.price.buying.buying_lists import order_words
    from panewright.price.money import amount

    parts = [f"{_plain(line.gross)} taken"]
    parts += [f"{_plain(line.in_stock)} there"] if line.in_stock else []
    parts += [f"{_plain(line.on_order)} on order"] if line.on_order else []
    return Wanted(
        line.item,
        ", ".join(words for words in (counted(line.buy, line.unit, "metric"), line.panes) if words),
        "" if line.cost is None else amount(line.cost, currency),
        ", ".join(line.orders),
        order_words(line, today),
        line.too_late(today),
        ", ".join(parts),
    )


def _plain(value: Decimal) -> str:
    return f"{value.normalize():f}"


def _leaves(each: Shipping) -> Leaves:
    late = f"{each.late_days} {'day' if each.late_days == 1 else 'days'} late" if each.late_days else ""
    return Leaves(
        each.order,
        each.promised.isoformat() if each.promised else "no day",
        each.goods_day.isoformat() if each.goods_day else "nobody knows",
        each.waits_for,
        each.ready.isoformat() if each.ready else "nobody knows",
        late,
    )


def papers(place: Place, today: date) -> Mapping[str, bytes]:
    """The buying papers by name."""
    from panewright.desk.records.place import opened
    from panewright.desk.stores.buying import to_buy, written

    with opened(place) as ledger:
        found = to_buy(ledger, today=today)
    return dict(written(found))


def order_all(place: Place, supplier: str, number: str, who: Who, today: date) -> int:
    """Write down as ordered all that is to buy from one; how many lines."""
    from panewright.desk.records.place import opened
    from panewright.desk.stores.buying import order_from

    with opened(place) as ledger:
        return len(order_from(ledger, supplier, number, who, today=today))


def coming(ledger: Ledger) -> tuple[Coming, ...]:
    """Goods of which more will come."""
    from panewright.ledger.stores.purchases import on_order

    return tuple(_coming(each) for each in on_order(ledger, only_open=True))


def _coming(each: OnOrder) -> Coming:
    goods = each.goods
    from panewright.pack.customary import counted

    return Coming(
        each.purchase,
        each.line,
        each.supplier,
        each.day.isoformat(),
        f"{counted(goods.amount, goods.unit, 'metric')} × {goods.item}",
        f"{counted(each.to_come, goods.unit, 'metric')} still to come",
        _plain(each.to_come),
        goods.expected.isoformat() if goods.expected else "",
    )


def stands(ledger: Ledger, orders: Mapping[str, str]) -> tuple[Stands, ...]:
    """Where the orders stand, by their numbers and names."""
    from panewright.ledger.orders.promises import promise_of

    found = []
    for number, name in orders.items():
        promise = promise_of(ledger, number)
        day = promise.promised.isoformat() if promise and promise.promised else ""
        found.append(Stands(number, name, promise.state if promise else "", day))
    return tuple(found)


def day_of(typed: str) -> date | None:
    """A day as typed; None where none is."""
    if not typed.strip():
        return None
    try:
        return date.fromisoformat(typed.strip())
    except ValueError as wrong:
        cure = "Write year, month and day, such as 2026-11-02."
        raise RecordError([Problem("This is no day.", cure, key="day", value=typed[:40])]) from wrong
