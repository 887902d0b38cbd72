"""The least cost of bars as an integer programme over cutting patterns, solved by OR-tools.

Patterns are made as the linear programme asks for them [GG]. Its prices give a bound that holds even
before it has settled [F]; where the plan meets it nothing better exists. Else every pattern that a better
plan could be made of is listed, by its price, and the integer programme decides among all of them: its
answer is then the best there is, whether or not it meets the bound.

[GG] see `panewright.cutting.patterns`.
[F] A. A. Farley, A note on bounding a class of linear programming problems, including cutting stock
problems, Operations Research 38 (1990) 922 (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.cutting.dive import dived
from panewright.cutting.master import UNCUT, Column, Costed, Master, Prices, Rows
from panewright.cutting.patterns import Dearest, Pattern, dearest_pattern, worthy_patterns
from panewright.cutting.whole import Asked, Whole, scaled, whole

LISTED = 3000  #: patterns that are listed for a proof
_ROUNDS = 1500  #: of the linear programme
_EARLY = 300  #: rounds after which it need not settle, if the bound can rise no further
_WORK = 3.0  #: of the integer programme, in CP-SAT's own measure; a second or so each
_TINY = 1e-6


@dataclass(frozen=True, slots=True)
class Stock:
    """A kind of bar to the programme: lengths in whole units, cost as a share of the dearest."""

    room: int
    cost: float
    have: int | None = None
    spare: int = 0  #: what is left of a bar of which nothing is cut
    keep: int = 0  #: what is left is worth something by what it is longer than this
    rate: float = 0.0  #: that worth, for a unit of length


@dataclass(frozen=True, slots=True)
class Wanted:
    """Sizes with their cut, largest first, how many of each, and the bars to choose from.

    `step`: every plan costs a whole number of steps, or 0 where that is not so. `second`, bars with other
    costs, must stay within `cap`.
    """

    sizes: tuple[int, ...]
    counts: tuple[int, ...]
    stocks: tuple[Stock, ...]
    step: float = 0.0
    scale: float = 1e6  #: every cost times this is a whole number, or near enough to one
    second: tuple[Stock, ...] = ()
    second_scale: float = 1e6
    cap: float | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """Bars by pattern, what they cost, a cost that no plan undercuts, and whether this one is the least."""

    bars: tuple[tuple[Column, int], ...]
    cost: float
    bound: float
    proven: bool
    uncut: int = 0


def column_cost(sizes: Sequence[int], stocks: Sequence[Stock], column: Column) -> float:
    """A bar's cost, less the worth of what is left of it."""
    stock = stocks[column[0]]
    left = stock.spare - sum(size * count for size, count in zip(sizes, column[1], strict=True))
    return stock.cost - stock.rate * max(left - stock.keep, 0)


def rounded_up(bound: float, step: float) -> float:
    """The least whole number of steps that is no less."""
    return math.ceil(bound / step - _TINY) * step if step else bound


def solve(wanted: Wanted, best: Answer) -> Answer:
    """The least cost; `best` is some plan that works, or none where its cost is infinite."""
    master = Master(Rows(wanted.counts, tuple(stock.have for stock in wanted.stocks), wanted.cap))
    for column, _ in best.bars:
        _put(master, wanted, column)
    prices, bound = _generated(master, wanted, best)
    best = _held(best, wanted, bound)
    best = best if best.proven else _dived(master, wanted, best)
    listed = not best.proven and _list_all(master, wanted, best, prices)
    return best if best.proven else _better(best, wanted, master, complete=listed)


def _dived(master: Master, wanted: Wanted, best: Answer) -> Answer:
    """A plan out of the linear programme, where there is one kind of bar without end."""
    stock = wanted.stocks[0]
    if len(wanted.stocks) > 1 or stock.have is not None or stock.rate or wanted.second or not wanted.step:
        return best
    bars = dived(master, wanted.sizes, wanted.counts, stock.room)
    cost = sum(times for _, times in bars) * stock.cost
    if not bars or cost >= best.cost - _TINY:
        return best
    return _held(Answer(bars, cost, best.bound, proven=False), wanted, best.bound)


def _put(master: Master, wanted: Wanted, column: Column) -> bool:
    second = column_cost(wanted.sizes, wanted.second, column) if wanted.second else 0.0
    return master.add(Costed(column, column_cost(wanted.sizes, wanted.stocks, column), second))


def _generated(master: Master, wanted: Wanted, best: Answer) -> tuple[Prices, float]:
    """Columns until none would pay, or until the bound, rounded up, says that nothing is to be had."""
    bound = best.bound
    prices = Prices(math.inf, (), (), 0.0)
    for turn in range(1, _ROUNDS + 1):
        found_prices = master.relaxed()
        if found_prices is None:
            break
        prices = found_prices
        asked = turn % 10 == 0
        found = list(_paying(wanted, prices, thorough=asked))
        fresh = [_put(master, wanted, column) for column, pays, _ in found if pays]
        if not any(fresh) and not asked:
            found = list(_paying(wanted, prices, thorough=True))
            fresh = [_put(master, wanted, column) for column, pays, _ in found if pays]
        bound = max(bound, _lower(wanted, prices, [most for _, _, most in found]))
        least = rounded_up(bound, wanted.step)
        most = rounded_up(prices.cost, wanted.step) if turn > _EARLY else -math.inf
        if not any(fresh) or least >= best.cost - _TINY or least >= most > 0:
            break
    return prices, bound


def _paying(wanted: Wanted, prices: Prices, thorough: bool) -> Iterator[tuple[Column, bool, float]]:
    """For each bar its dearest patterns, whether they pay, and by how much none pays more."""
    for index, stock in enumerate(wanted.stocks):
        cost, rate = _asked(wanted, prices, index)
        most = _dearest(wanted, stock.room, prices.pieces, thorough)
        excess = most.bound - cost
        yield (index, most.pattern), most.worth > cost + _TINY, excess
        if rate:
            worth = [w - rate * size for w, size in zip(prices.pieces, wanted.sizes, strict=True)]
            kept = _dearest(wanted, stock.spare - stock.keep, worth, thorough)
            asked = cost - rate * (stock.spare - stock.keep)
            yield (index, kept.pattern), kept.worth > asked + _TINY, kept.bound - asked


def _asked(wanted: Wanted, prices: Prices, index: int) -> tuple[float, float]:
    """What the pieces of one bar must be worth, and what a unit of its rest is worth."""
    stock = wanted.stocks[index]
    cost, rate = stock.cost - prices.bars[index], stock.rate
    if wanted.second:
        cost -= prices.cap * wanted.second[index].cost
        rate -= prices.cap * wanted.second[index].rate
    return cost, rate


def _dearest(wanted: Wanted, room: int, worth: Sequence[float], thorough: bool) -> Dearest:
    if room <= 0:
        return Dearest(0.0, (0,) * len(wanted.sizes), 0.0)
    return dearest_pattern(wanted.sizes, wanted.counts, room, worth, thorough)


def _lower(wanted: Wanted, prices: Prices, excess: Sequence[float]) -> float:
    """No plan costs less, by these prices: scaled down until no bar pays [F], or less what each could."""
    pieces = sum(worth * count for worth, count in zip(prices.pieces, wanted.counts, strict=True))
    scarce = sum(
        price * (stock.have or 0) for price, stock in zip(prices.bars, wanted.stocks, strict=True)
    ) + prices.cap * (wanted.cap or 0.0)
    most = max(excess)
    if most <= 0:
        return pieces + scarce
    less = pieces + scarce - most * sum(wanted.counts)
    if any(stock.rate for stock in (*wanted.stocks, *wanted.second)):
        return less
    asked = [_asked(wanted, prices, index)[0] for index in range(len(wanted.stocks))]
    share = min(cost / (cost + over) if over > 0 else 1.0 for cost, over in zip(asked, excess, strict=True))
    return max(less, share * pieces + scarce)


def _held(best: Answer, wanted: Wanted, bound: float) -> Answer:
    """A plan held against the bound."""
    least = rounded_up(bound, wanted.step)
    return Answer(best.bars, best.cost, min(least, best.cost), best.cost <= least + _TINY, best.uncut)


def _better(best: Answer, wanted: Wanted, master: Master, complete: bool) -> Answer:
    """The best plan of the columns there are; of `complete` ones it is the best of all."""
    found = whole(master.rows, [each.column for each in master.columns], _whole_asked(best, wanted, master))
    better = _held(_taken(best, master, found), wanted, best.bound)
    if complete and found.done:
        return Answer(better.bars, better.cost, better.cost, proven=True, uncut=better.uncut)
    return better


def _whole_asked(best: Answer, wanted: Wanted, master: Master) -> Asked:
    """Costs as whole numbers; a plan must be cheaper than the best so far, by one at least."""
    costs, seconds = scaled(master.columns, wanted.scale, wanted.second_scale)
    uncut, cap = round(UNCUT * wanted.scale), wanted.cap
    worst = uncut * sum(wanted.counts)
    most = worst if math.isinf(best.cost) else round(best.cost * wanted.scale) - 1
    least = math.ceil(best.bound * wanted.scale - 1e-4) if math.isfinite(best.bound) else -worst
    limit = None if cap is None else round(cap * wanted.second_scale)
    return Asked(costs, seconds, limit, uncut, min(least, most), most, _WORK)


def _taken(best: Answer, master: Master, found: Whole) -> Answer:
    if found.times is None:
        return best
    pairs = zip(master.columns, found.times, strict=True)
    bars = tuple((each.column, times) for each, times in pairs if times)
    cost = sum(each.cost * times for each, times in zip(master.columns, found.times, strict=True))
    return Answer(bars, cost + UNCUT * found.uncut, best.bound, proven=False, uncut=found.uncut)


def _list_all(master: Master, wanted: Wanted, best: Answer, prices: Prices) -> bool:
    """Add every pattern by which a cheaper plan could be made; False where they are too many."""
    if (
        any(stock.rate for stock in wanted.stocks)
        or wanted.second
        or not (prices.pieces and math.isfinite(best.cost))
    ):
        return False
    listed = _cheap_enough(wanted, prices, best.cost - (wanted.step or 10 * _TINY))
    if listed is None and wanted.step:  # enough for a plan that meets the bound, not for a proof
        listed, complete = _cheap_enough(wanted, prices, best.bound), False
    else:
        complete = listed is not None
    for column in listed or ():
        _put(master, wanted, column)
    return complete


def _cheap_enough(wanted: Wanted, prices: Prices, aim: float) -> list[Column] | None:
    """Every full pattern that a plan of cost `aim` may hold: it overpays no more than aim and bound differ.

    Prices are first scaled down until no pattern is worth more than its bar.
    """
    found = [(column[0], over) for column, _, over in _paying(wanted, prices, thorough=True)]
    asked = {index: _asked(wanted, prices, index)[0] for index, _ in found}
    share = min(asked[index] / (asked[index] + over) if over > 1e-9 else 1.0 for index, over in found)
    worth = [share * each for each in prices.pieces]
    scarce = sum(p * (s.have or 0) for p, s in zip(prices.bars, wanted.stocks, strict=True))
    gap = aim - scarce - sum(w * count for w, count in zip(worth, wanted.counts, strict=True))
    columns: list[Column] = []
    for index, stock in enumerate(wanted.stocks):
        least = asked[index] - max(gap, 0.0) - _TINY
        patterns = worthy_patterns(wanted.sizes, wanted.counts, stock.room, worth, least, LISTED)
        if patterns is None or len(columns) + len(patterns) > LISTED:
            return None
        columns += [(index, pattern) for pattern in patterns if any(pattern)]
    return columns


__all__ = ["LISTED", "Answer", "Column", "Pattern", "Stock", "Wanted", "column_cost", "rounded_up", "solve"]
