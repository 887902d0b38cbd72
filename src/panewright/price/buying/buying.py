"""What to buy for all open orders together: what they take, less what lies there and what is on its way.

    asked      what the panels still to build take, less what went into them already
    gross      asked with what is lost at the bench, for all orders in one pool
    missing    gross - in stock - on order, never below zero
    buy        missing, raised to the least that is sold, then to whole packs

One pool: breakage and waste of all orders share one allowance, and a pack opened for one serves the next.
Boxes of kits are each enough by themselves, so their allowance is in what they ask, box by box.
Heated glass is asked size by size: no pane stands in for one of another size.
Cells follow the binomial law over all of them, bars one cut plan, all else its share lost. Stock below zero
counts as none. Nothing here knows a clock: the day is an argument.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal

from panewright.price.bill import STEPS, Need
from panewright.price.breakage import cells_to_buy
from panewright.price.buying.panes import is_sized, on_the_shelf, said, whole_panes
from panewright.price.money import cents, up_to
from panewright.shelf.supplier import Supplier

Item = tuple[str, str]  #: name and the unit it is counted in
NONE = Decimal(0)
_DIGITS = 9  #: a panel's share of a crate has more than an amount needs


@dataclass(frozen=True, slots=True)
class Asked:
    """An open order: what one of its panels takes, and how many are still to be built."""

    order: str
    promised: date | None
    panels: int
    needs: tuple[Need, ...]
    taken: Mapping[Item, Decimal]  #: what went into panels of it that are not finished
    bare: Mapping[Item, Decimal] = field(default_factory=dict)  #: of a kit, what the drawings of one ask

    def net(self, need: Need) -> Decimal:
        """What the order still takes of a need, nothing lost."""
        names = {
            need.name,
            on_the_shelf(need),
        }  # glass that went into it is of its size, whatever was written
        taken = sum((self.taken.get((name, need.sold_by), NONE) for name in names), NONE)
        return max(round(need.one * self.panels + need.once, _DIGITS).normalize() + 0 - taken, NONE)


@dataclass(frozen=True, slots=True)
class Source:
    """Who sells a part, how soon, and in what amounts."""

    supplier: str = ""
    lead_days: int | None = None
    pack: Decimal = NONE
    least: Decimal = NONE
    price: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Coming:
    """Goods on order that have not come in."""

    item: str
    unit: str
    amount: Decimal
    expected: date | None
    purchase: str = ""


@dataclass(frozen=True, slots=True)
class Stores:
    """What is there and what is on its way."""

    stock: Mapping[Item, Decimal]
    coming: tuple[Coming, ...] = ()

    def hand(self, item: Item) -> Decimal:
        """What lies there; none where the records are below zero."""
        return max(self.stock.get(item, NONE), NONE)

    def on_order(self, item: Item) -> Decimal:
        """What is on its way."""
        return sum((each.amount for each in self.coming if (each.item, each.unit) == item), NONE)


@dataclass(frozen=True, slots=True)
class Purchase:
    """One part that open orders take: what of it is missing and what to buy."""

    item: str
    unit: str
    group: str
    asked: Decimal  #: nothing lost
    gross: Decimal  #: with what is lost
    in_stock: Decimal
    on_order: Decimal
    missing: Decimal
    buy: Decimal
    source: Source
    cost: Decimal | None
    orders: tuple[str, ...]  #: that lack it, the first promised first
    order_by: date | None  #: the last day, so that work and cures still fit; None where nobody knows
    sold_as: str = ""  #: its name on the shelf, where its own tells its size too
    panes: str = ""  #: of glass: how many to buy, or which are asked, in words

    def too_late(self, today: date) -> bool:
        """Whether the last day to order it is past."""
        return self.order_by is not None and self.order_by < today

    @property
    def arrives_days(self) -> int | None:
        """From ordering to the shop's door."""
        return self.source.lead_days


def purchases(
    asked: Iterable[Asked],
    stores: Stores,
    sources: Mapping[str, Source],
    bars: Mapping[str, int] | None = None,
    *,
    goods_by: Mapping[str, date] | None = None,
) -> tuple[Purchase, ...]:
    """Every part that the orders take, in the order of the parts list; `bars` are cut for all of them.

    `goods_by` are the days on which each order's goods must be there; those promised where none are told.
    """
    open_orders = in_turn(asked)
    by = {each.order: each.promised for each in open_orders} if goods_by is None else goods_by
    pooled: dict[Item, list[tuple[Asked, Need]]] = {}
    for order in open_orders:
        for need in order.needs:
            pooled.setdefault((need.name, need.sold_by), []).append((order, need))
    made = (
        _purchase(item, takers, stores, sources.get(item[0], Source()), (bars or {}).get(item[0]))
        for item, takers in pooled.items()
    )
    return tuple(_dated(each, by) for each in made if each.gross > 0)


def in_turn(asked: Iterable[Asked]) -> tuple[Asked, ...]:
    """Orders as they are served: by the day promised, those without one last, then by number."""
    return tuple(sorted(asked, key=lambda each: (each.promised or date.max, each.order)))


def _purchase(
    item: Item, takers: list[tuple[Asked, Need]], stores: Stores, source: Source, bars: int | None
) -> Purchase:
    gross = gross_of(takers) if bars is None else _bars(takers, item, bars)
    hand, coming = stores.hand(item), stores.on_order(item)
    missing = max(gross - hand - coming, NONE)
    buy = sold(missing, source)
    lacking = _lacking(takers, hand + coming) if missing else ()
    return Purchase(
        item=item[0],
        unit=item[1],
        group=takers[0][1].group,
        asked=sum((order.net(need) for order, need in takers), NONE),
        gross=gross,
        in_stock=hand,
        on_order=coming,
        missing=missing,
        buy=buy,
        source=source,
        cost=None if source.price is None else cents(buy * source.price),
        orders=tuple(dict.fromkeys(each.order for each in lacking)),
        order_by=None,
        sold_as=on_the_shelf(takers[0][1]) if is_sized(takers[0][1]) else "",
        panes=said([(order.net(need), need) for order, need in takers], gross, buy),
    )


def _dated(line: Purchase, goods_by: Mapping[str, date | None]) -> Purchase:
    """With the last day to order it: its lead time before the goods of the first order must be there."""
    days = [day for order in line.orders if (day := goods_by.get(order))]
    lead = line.source.lead_days
    return replace(line, order_by=min(days) - timedelta(days=lead)) if days and lead is not None else line


def gross_of(takers: list[tuple[Asked, Need]]) -> Decimal:
    """What all of them take together with what is lost, in the smallest amount that is sold."""
    nets = [(order.net(need), need) for order, need in takers]
    net = sum((amount for amount, _ in nets), NONE)
    if nets[0][1].use == "cell":
        return _cells(nets)
    if all(is_sized(need) for _, need in nets):
        return whole_panes(nets)
    lost = sum((amount * need.waste for amount, need in nets), NONE)
    first = nets[0][1]
    return up_to(net + lost, first.lot or STEPS.get(first.sold_by, Decimal(1)))


def _cells(nets: list[tuple[Decimal, Need]]) -> Decimal:
    """Whole cells: those that may break by one law over all, those counted with their spares as they are."""
    chance = max(need.waste for _, need in nets)
    may_break = sum((amount for amount, need in nets if need.waste > 0), NONE)
    spared = sum((amount for amount, need in nets if need.waste <= 0), NONE)
    bought = cells_to_buy(int(up_to(may_break, Decimal(1))), float(chance))
    return up_to(spared, Decimal(1)) + bought


def _bars(takers: list[tuple[Asked, Need]], item: Item, bars: int) -> Decimal:
    """Bars of the common cut plan, less those that went into panels already."""
    taken = sum((order.taken.get(item, NONE) for order, _ in takers), NONE)
    return max(Decimal(bars) - taken, NONE)


def sold(missing: Decimal, source: Source) -> Decimal:
    """The amount to buy: the least that is sold, in whole packs; nothing where nothing is missing.

    >>> sold(Decimal("31"), Source(pack=Decimal(25))), sold(Decimal(3), Source(least=Decimal(50)))
    (Decimal('50'), Decimal('50'))
    """
    if missing <= 0:
        return NONE
    wanted = max(missing, source.least)
    return up_to(wanted, source.pack) if source.pack > 0 else wanted


def _lacking(takers: list[tuple[Asked, Need]], there: Decimal) -> tuple[Asked, ...]:
    """The orders that what is there and coming does not reach; where only spares are short, the last."""
    short = []
    for order, need in takers:
        net = order.net(need)
        if net > there:
            short.append(order)
        there = max(there - net, NONE)
    return tuple(short or [takers[-1][0]])


@dataclass(frozen=True, slots=True)
class SupplierList:
    """What to order from one supplier."""

    supplier: str  #: empty where the shelf names none
    lines: tuple[Purchase, ...]
    record: Supplier | None = None  #: where, whom to ask, the least sum; None where the shelf has none

    @property
    def short(self) -> Decimal:
        """What is missing to the least sum that it delivers for; 0 where it is reached."""
        least = self.record.least if self.record else NONE
        return max(least - self.cost, NONE)

    @property
    def cost(self) -> Decimal:
        """Of the lines with a price."""
        return sum((line.cost for line in self.lines if line.cost is not None), NONE)


def by_supplier(found: Iterable[Purchase], known: Iterable[Supplier] = ()) -> tuple[SupplierList, ...]:
    """What is to buy, supplier by supplier; those without a name last. `known` are the shop's records."""
    records = {each.name: each for each in known}
    lists: dict[str, list[Purchase]] = {}
    for each in found:
        if each.buy > 0:
            lists.setdefault(each.source.supplier, []).append(each)
    names = sorted(lists, key=lambda name: (not name, name))
    return tuple(SupplierList(name, tuple(lists[name]), records.get(name)) for name in names)


def uncounted(found: Iterable[Purchase], stores: Stores) -> Iterator[str]:
    """Sentences on what is not seen here: in another unit than the shelf sells, or glass without a size."""
    wanted = {each.item: each.unit for each in found}
    sizeless = {each.sold_as for each in found if each.sold_as} - wanted.keys()
    for (item, unit), amount in sorted(stores.stock.items()):
        if amount > 0 and item in wanted and unit != wanted[item]:
            yield f"{amount:f} {unit} of {item} are in stock but not counted: it is sold by {wanted[item]}."
        if amount > 0 and item in sizeless:
            yield f"{amount:f} {unit} of {item} are in stock but not counted: no size is written to it."
    for each in stores.coming:
        if each.item in sizeless:
            yield f"{each.amount:f} {each.unit} of {each.item} are on order but not counted: no size is told."
