"""The least cost of bars as an integer programme over cutting patterns, solved by OR-tools.

Patterns are made as the linear programme asks for them [GG]. Its prices give a bound that holds even
before it has settled [F]; where the plan meets it nothing better exists. Else every pattern that a better
plan could be made of is listed, by its price, and the integer programme decides among all of them: its
answer is then the best there is, whether or not it meets the bound.

[GG] see `panewright.cutting.bars.patterns`.
[F] A. A. Farley, A note on bounding a class of linear programming problems, including cutting stock
problems, Operations Research 38 (1990) 922 (recalled).
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from panewright.cutting.bars.column import Column, Pattern
from panewright.cutting.bars.dive import dived
from panewright.cutting.bars.master import UNCUT, Master, Prices, Rows
from panewright.cutting.bars.patterns import worthy_patterns
from panewright.cutting.bars.pricing import asked_of, lower, offers, scarcity, shrunk
from panewright.cutting.bars.wanted import TINY, Answer, Stock, Wanted, column_cost, held, put, rounded_up
from panewright.cutting.bars.whole import Asked, Whole, scaled, whole

LISTED = 3000  #: patterns that are listed for a proof
_ROUNDS = 300  #: of the linear programme
_ROOMY = 0.1  #: of a step: so far below a whole number of steps it need not settle
_BOLD = (0.7, 0.5, 0.9)  #: how the rest is cut, one after the other
_WORK, _LITTLE = 3.0, 0.3  #: of the integer programme, in CP-SAT's own measure; little for what is not proven


def solve(wanted: Wanted, best: Answer, known: Iterable[Column] = ()) -> Answer:
    """The least cost; `best` is some plan that works, or none where its cost is infinite.

    `known`: columns of other plans, to begin with; the more unlike they are, the sooner prices settle.
    """
    master = Master(Rows(wanted.counts, tuple(stock.have for stock in wanted.stocks), wanted.cap))
    for column in dict.fromkeys([*(column for column, _ in best.bars), *known]):
        put(master, wanted, column)
    prices, bound = _generated(master, wanted, best)
    best = held(best, wanted, bound)
    for bold in _BOLD:
        best = best if best.proven else held(dived(master, wanted, best, bold), wanted, best.bound)
    listed = not best.proven and _list_all(master, wanted, best, prices)
    return best if best.proven else _better(best, wanted, master, complete=listed)


def _generated(master: Master, wanted: Wanted, best: Answer) -> tuple[Prices, float]:
    """Columns until none would pay, or until the bound, rounded up, says that nothing is to be had."""
    bound, priced = best.bound, -math.inf
    prices = Prices(math.inf, (), (), 0.0)
    for turn in range(_ROUNDS):
        found_prices = master.relaxed()
        if found_prices is None:
            break
        prices = found_prices
        if _settled(prices.cost, priced, bound, wanted.step):
            break
        found = offers(wanted, prices, wanted.counts, thorough=turn % 5 == 4)
        if not any(offer.columns for offer in found):
            found = offers(wanted, prices, wanted.counts)
        fresh = [put(master, wanted, column) for offer in found for column in offer.columns]
        priced = max(priced, lower(wanted, prices, found))
        bound = max(bound, priced)
        if not any(fresh) or rounded_up(bound, wanted.step) >= best.cost - TINY:
            break
    return prices, bound


def _settled(cost: float, priced: float, bound: float, step: float) -> bool:
    """Whether the bound, rounded up, leaves room enough above the cost, or as much as it can become."""
    if not step or not math.isfinite(bound):
        return False
    room = rounded_up(bound, step) - cost
    return room >= _ROOMY * step or (room > 0 and cost - priced <= room)


def _better(best: Answer, wanted: Wanted, master: Master, complete: bool) -> Answer:
    """The best plan of the columns there are; of `complete` ones it is the best of all."""
    found = whole(master.rows, [each.column for each in master.columns], _whole_asked(best, wanted, master))
    better = held(_taken(best, master, found), wanted, best.bound)
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
    return Asked(costs, seconds, limit, uncut, min(least, most), most, _LITTLE if wanted.second else _WORK)


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
    listed = _cheap_enough(wanted, prices, best.cost - (wanted.step or 10 * TINY))
    if listed is None and wanted.step:  # enough for a plan that meets the bound, not for a proof
        listed, complete = _cheap_enough(wanted, prices, best.bound), False
    else:
        complete = listed is not None
    for column in listed or ():
        put(master, wanted, column)
    return complete


def _cheap_enough(wanted: Wanted, prices: Prices, aim: float) -> list[Column] | None:
    """Every full pattern that a plan of cost `aim` may hold: it overpays no more than aim and bound differ.

    Prices are first scaled down until no pattern is worth more than its bar.
    """
    share = shrunk(wanted, prices, offers(wanted, prices, wanted.counts))
    worth = [share * each for each in prices.pieces]
    bound = scarcity(wanted.stocks, prices) + sum(w * n for w, n in zip(worth, wanted.counts, strict=True))
    columns: list[Column] = []
    for kind, stock in enumerate(wanted.stocks):
        least = asked_of(wanted, prices, kind)[0] - max(aim - bound, 0.0) - TINY
        patterns = worthy_patterns(wanted.sizes, wanted.counts, stock.room, worth, least, LISTED)
        if patterns is None or len(columns) + len(patterns) > LISTED:
            return None
        columns += [(kind, pattern) for pattern in patterns if any(pattern)]
    return columns


__all__ = ["LISTED", "Answer", "Column", "Pattern", "Stock", "Wanted", "column_cost", "rounded_up", "solve"]
