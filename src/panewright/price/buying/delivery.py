"""What can leave the shop when: goods as they come, then hands, then cures.

Orders are served by the day promised, then by number. Each takes what it needs of every part from what is
there first, then from what comes soonest, then from what is ordered today. Its work begins when the last
part is there and fills the hours of hands that earlier orders left, day by day. Cures come on top, whole.

This is a promise nobody made yet: suppliers are late, hands are ill. A day that depends on a part whose lead
time nobody states is not told.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from panewright.order.terms import Hands
from panewright.price.buying.buying import NONE, Asked, Item, Source, Stores, in_turn

_MOST_DAYS = 3650  #: work that would take longer is not planned
_LITTLE = Decimal("0.000001")


@dataclass(frozen=True, slots=True)
class Work:
    """What an order takes beside goods."""

    hours: Decimal  #: of hands
    wait_days: int  #: cures after them


@dataclass(frozen=True, slots=True)
class Shipping:
    """When one order can leave."""

    order: str
    promised: date | None
    goods_day: date | None  #: when its last part is there; None where nobody knows
    waits_for: str  #: that part; empty where all is there
    done_day: date | None  #: hands done
    ready: date | None  #: cures done

    @property
    def late_days(self) -> int | None:
        """Days past the promise, 0 where it is kept; None where nobody knows."""
        if self.ready is None or self.promised is None:
            return None
        return max(0, (self.ready - self.promised).days)


@dataclass(slots=True)
class _Supply:
    """So much of an item from a day on; `day` None where nobody knows."""

    amount: Decimal
    day: date | None


def shipping(
    asked: Iterable[Asked],
    stores: Stores,
    sources: Mapping[str, Source],
    work: Mapping[str, Work],
    hands: Hands,
    *,
    today: date,
) -> tuple[Shipping, ...]:
    """Every open order, in the turn in which it is served."""
    supplies = _supplies(stores, today)
    spent: dict[date, Decimal] = defaultdict(Decimal)
    return tuple(
        _served(order, supplies, sources, work.get(order.order, Work(NONE, 0)), (hands, spent, today))
        for order in in_turn(asked)
    )


def _supplies(stores: Stores, today: date) -> dict[Item, list[_Supply]]:
    """What is there today, then what comes, the soonest first; goods whose day is past come today."""
    found: dict[Item, list[_Supply]] = defaultdict(list)
    for item in stores.stock:
        found[item].append(_Supply(stores.hand(item), today))
    for each in sorted(stores.coming, key=lambda one: (one.expected or date.max, one.purchase, one.item)):
        day = max(each.expected, today) if each.expected else None
        found[each.item, each.unit].append(_Supply(each.amount, day))
    return found


def _served(
    order: Asked,
    supplies: dict[Item, list[_Supply]],
    sources: Mapping[str, Source],
    work: Work,
    shop: tuple[Hands, dict[date, Decimal], date],
) -> Shipping:
    hands, spent, today = shop
    days: list[tuple[date | None, str]] = [(today, "")]
    for need in order.needs:
        item = need.name, need.sold_by
        day = _taken(order.net(need), supplies[item], sources.get(need.name, Source()), today)
        days.append((day, need.name))
    goods, waits = max(days, key=lambda pair: (pair[0] or date.max, pair[1]))
    waits = "" if goods == today else waits
    if goods is None:
        return Shipping(order.order, order.promised, None, waits, None, None)
    done = _filled(_days(goods, 1), work.hours, hands, spent)
    ready = done + timedelta(days=work.wait_days) if done else None
    return Shipping(order.order, order.promised, goods, waits, done, ready)


def _taken(amount: Decimal, supplies: list[_Supply], source: Source, today: date) -> date | None:
    """Take an amount from what there is, the soonest first; the day on which the last of it is there."""
    day: date | None = today
    for supply in supplies:
        part = min(amount, supply.amount)
        if part > 0:
            supply.amount -= part
            amount -= part
            day = _later(day, supply.day)
    if amount <= _LITTLE:
        return day
    bought = None if source.lead_days is None else today + timedelta(days=source.lead_days)
    return _later(day, bought)


def _later(one: date | None, other: date | None) -> date | None:
    """The later of two days; not known where either is not."""
    return None if one is None or other is None else max(one, other)


def _days(start: date, step: int) -> Iterator[date]:
    """Ten years of days on from a day, or back with a step of -1."""
    return (start + timedelta(days=step * n) for n in range(_MOST_DAYS))


def _filled(days: Iterable[date], hours: Decimal, hands: Hands, spent: dict[date, Decimal]) -> date | None:
    """Fill free hours of hands day by day; the day on which none is left, None where the days do not do."""
    each_day, left = Decimal(hands.people) * Decimal(str(hands.day_h)), hours
    for day in days:
        if day.weekday() >= hands.days_a_week:
            continue
        part = min(left, each_day - spent[day])
        spent[day] += part
        left -= part
        if left <= 0:
            return day
    return None


def goods_by(asked: Iterable[Asked], work: Mapping[str, Work], hands: Hands) -> dict[str, date]:
    """The last day on which the goods of each promised order must be there.

    Cures come off the promise first, then the hours of hands, the last order first: what is worked for one
    on a day is not free for another. Not told is an order whose work does not fit in ten years.
    """
    spent: dict[date, Decimal] = defaultdict(Decimal)
    ends = [
        (each.promised - timedelta(days=of.wait_days), each.order, of.hours)
        for each in asked
        if each.promised and each.panels and (of := work.get(each.order, Work(NONE, 0)))
    ]
    found = {
        order: _filled(_days(end, -1), hours, hands, spent)
        for end, order, hours in sorted(ends, reverse=True)
    }
    return {order: day for order, day in found.items() if day}


def work_left(hours: Decimal, left: int, panels: int, waits_h: Iterable[float]) -> Work:
    """The share of an order's hours for the panels that are left, and the cures of one panel.

    >>> work_left(Decimal("30.0"), 2, 4, (24.0, 6.0))
    Work(hours=Decimal('15.0'), wait_days=2)
    """
    return Work((hours * left / panels).quantize(Decimal("0.1")), wait_days(sum(waits_h)))


def wait_days(hours: float) -> int:
    """Whole days of a wait.

    >>> wait_days(24.0), wait_days(25.0), wait_days(0.0)
    (1, 2, 0)
    """
    return math.ceil(hours / 24.0 - 1e-9)
