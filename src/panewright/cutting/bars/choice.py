"""One cutting task in whole numbers, and the steps from quick rules to the programme."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from panewright.cutting.bars.column import Column
from panewright.cutting.bars.fit import fewest_bars, first_fit, fullest_first
from panewright.cutting.bars.stock import Bar
from panewright.cutting.bars.wanted import Answer, Stock, Wanted, column_cost, rounded_up
from panewright.cutting.piece import Piece, Saw, size

_UNIT_MM = 0.001  # lengths are whole numbers of this
_TINY = 1e-9
_LISTED = 4  #: sizes of which the programme holds every pattern from one kind of bar at once
_FEW = 25  #: sizes with which the programme is quick


@dataclass(frozen=True, slots=True)
class Task:
    """Sizes without names, largest first, and bars, both in mm; pieces that take the same are one size."""

    sizes_mm: tuple[float, ...]
    counts: tuple[int, ...]
    bars: tuple[Bar, ...]
    saw: Saw
    keep_mm: float | None
    worth: float

    @property
    def sizes(self) -> tuple[float, ...]:
        """What a place for each size takes. [mm]"""
        return self.sizes_mm

    @property
    def rooms(self) -> tuple[float, ...]:
        """What each kind of bar has room for. [mm]"""
        return tuple(bar.room_mm(self.saw) for bar in self.bars)

    @property
    def priced(self) -> bool:
        """Whether bars have prices; else their length is their price."""
        return any(bar.price is not None for bar in self.bars)

    @property
    def prices(self) -> tuple[Fraction, ...]:
        """Of each kind of bar, exactly; a remnant without a price is free."""
        if self.priced:
            return tuple(Fraction(bar.price or 0) for bar in self.bars)
        return tuple(Fraction(str(bar.length_mm)) for bar in self.bars)

    @property
    def unit(self) -> float:
        """The dearest bar's price: in the programme it costs 1."""
        return _dearest(self.prices)


def _dearest(prices: Sequence[Fraction]) -> float:
    return float(max(prices)) or 1.0


def task(
    pieces: Sequence[Piece], bars: tuple[Bar, ...], saw: Saw, keep_mm: float | None, worth: float
) -> Task:
    """Pieces counted by what they take."""
    totals: Counter[float] = Counter()
    for piece in pieces:
        totals[size(piece, saw)] += piece.quantity
    sizes = tuple(sorted(totals, reverse=True))
    counts = tuple(totals[each] for each in sizes)
    return Task(sizes, counts, bars, saw, keep_mm, worth if keep_mm is not None else 0.0)


def by_rule(asked: Task) -> Answer:
    """The best of the quick rules, with a bound that needs no programme."""
    wanted = _by_money(asked)
    return _best_of(wanted, [plan for plan in _quick(wanted) if plan])


def least_cost(asked: Task) -> Answer:
    """By a rule where that is provably best, else by mixes of bars; never worse than the rules.

    With one kind of bar that mixes leave in doubt, and where there are too few, the programme decides.
    """
    wanted = _by_money(asked)
    plans = [plan for plan in _quick(wanted) if plan]
    quick = _best_of(wanted, plans)
    if quick.proven:
        return quick
    return _by_programme(asked, wanted, quick, [column for plan in plans for column in plan])


def _by_programme(asked: Task, wanted: Wanted, quick: Answer, known: list[Column]) -> Answer:
    """Where no rule proves itself; what solves is loaded only here."""
    from panewright.cutting.bars.mixed import MOST_SIZES, mixed
    from panewright.cutting.bars.programme import solve

    few = len(wanted.stocks) == 1 and len(wanted.sizes) <= _LISTED
    many = len(wanted.sizes) > MOST_SIZES
    if asked.worth or few:
        return solve(wanted, quick, known)
    answer = mixed(wanted, quick, known)
    if answer.proven or (answer.bars and (many or len(wanted.stocks) > 1)):
        return answer
    return solve(wanted, answer if answer.bars else quick, known)


def least_length(asked: Task, cheapest: Answer) -> Answer:
    """Of plans that cost no more, the one that uses up least length."""
    if asked.keep_mm is None and (not asked.priced or len(asked.bars) == 1):
        return cheapest
    from panewright.cutting.bars.programme import solve  # loaded where there is something to choose
    from panewright.cutting.bars.rests import shortened

    money = _by_money(asked)
    by_length = _by_length(asked, money, cheapest.cost)
    costs = [column_cost(by_length.sizes, by_length.stocks, column) * n for column, n in cheapest.bars]
    start = Answer(cheapest.bars, sum(costs), -math.inf, proven=False)
    better = shortened(by_length, start)
    return solve(by_length, better) if len(asked.sizes) <= _FEW else better


def _units(length_mm: float) -> int:
    return round(length_mm / _UNIT_MM)


def _lengths(asked: Task) -> Iterator[tuple[int, int, int]]:
    """Room, rest of an uncut bar, and the least rest that is kept, of each kind of bar."""
    for bar in asked.bars:
        spare = bar.room_mm(asked.saw) - asked.saw.kerf_mm + asked.saw.far_mm
        keep = math.inf if asked.keep_mm is None else max(asked.keep_mm, _UNIT_MM)
        yield _units(bar.room_mm(asked.saw)), _units(spare), 0 if keep == math.inf else _units(keep)


def _by_money(asked: Task) -> Wanted:
    """Bars at their prices; a kept rest is worth its share of them."""
    prices = asked.prices
    unit = Fraction(_dearest(prices))
    stocks = []
    for bar, price, (room, spare, keep) in zip(asked.bars, prices, _lengths(asked), strict=True):
        cost = float(price / unit)
        rate = asked.worth * cost / _units(bar.length_mm)
        stocks.append(Stock(room, cost, bar.have, spare, keep, rate))
    step = 0.0 if asked.worth else float(_greatest_step(prices) / unit)
    scale = 1 / step if step else 1e6
    return Wanted(tuple(map(_units, asked.sizes_mm)), asked.counts, tuple(stocks), step, scale)


def _greatest_step(prices: Sequence[Fraction]) -> Fraction:
    """Every sum of prices is a whole number of this."""
    below = math.lcm(*(price.denominator for price in prices))
    return Fraction(math.gcd(*(int(price * below) for price in prices)), below)


def _by_length(asked: Task, money: Wanted, most: float) -> Wanted:
    """Bars at their lengths, kept rests taken off, under the money found."""
    longest = max(_units(bar.length_mm) for bar in asked.bars)
    stocks = tuple(
        Stock(room, _units(bar.length_mm) / longest, bar.have, spare, keep, 1 / longest if keep else 0.0)
        for bar, (room, spare, keep) in zip(asked.bars, _lengths(asked), strict=True)
    )
    cap = most + max(_TINY, 1e-9 * abs(most))
    return Wanted(money.sizes, money.counts, stocks, 0.0, float(longest), money.stocks, money.scale, cap)


def _best_of(wanted: Wanted, plans: Sequence[Sequence[Column]]) -> Answer:
    """The cheapest of some quick plans, and the bound that needs no programme."""
    answers = [_counted(wanted, plan) for plan in plans]
    best = min(answers, key=lambda answer: answer.cost, default=Answer((), math.inf, 0.0, proven=False))
    bound = _simple_bound(wanted)
    return Answer(best.bars, best.cost, min(bound, best.cost), best.cost <= bound + _TINY)


def _quick(wanted: Wanted) -> Iterator[tuple[Column, ...] | None]:
    """First fit with the racks in some orders; with one kind of bar without end, also the fullest first."""
    stocks = wanted.stocks
    kinds = range(len(stocks))
    orders = [sorted(kinds, key=lambda k: (stocks[k].cost / stocks[k].room, stocks[k].room))]
    orders += [sorted(kinds, key=lambda k: stocks[k].room)]
    orders += [[k] for k in kinds] if len(stocks) > 1 else []
    for order in orders:
        racks = [(stocks[k].room, stocks[k].have) for k in order]
        plan = first_fit(wanted.sizes, wanted.counts, racks)
        yield plan and tuple((order[kind], pattern) for kind, pattern in plan)
    if len(stocks) == 1 and stocks[0].have is None and sum(wanted.counts) <= 1000:
        yield fullest_first(wanted.sizes, wanted.counts, stocks[0].room)


def _counted(wanted: Wanted, plan: Sequence[Column]) -> Answer:
    bars = tuple(Counter(plan).items())
    cost = sum(column_cost(wanted.sizes, wanted.stocks, column) * times for column, times in bars)
    return Answer(bars, cost, -math.inf, proven=False)


def _simple_bound(wanted: Wanted) -> float:
    """With one kind of bar the fewest bars; with several one bar, and all the length at the cheapest rate."""
    if any(stock.rate for stock in wanted.stocks):
        return -math.inf
    if len(wanted.stocks) == 1:
        stock = wanted.stocks[0]
        return fewest_bars(wanted.sizes, wanted.counts, stock.room) * stock.cost
    total = sum(size * count for size, count in zip(wanted.sizes, wanted.counts, strict=True))
    rate = min(stock.cost / stock.room for stock in wanted.stocks)
    return max(rounded_up(total * rate, wanted.step), min(stock.cost for stock in wanted.stocks))
