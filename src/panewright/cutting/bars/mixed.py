"""The least cost with bars of several kinds: the cheapest mix of bars that gives all pieces.

Mixes are tried in the order of their cost (`mixes`). Of each it is asked whether it could
give all pieces if bars were taken in parts; if not, the prices of the pieces say why, and forbid this mix and
others. Else it is filled: by trial, by the linear programme, or out of all patterns that a plan from so few
bars could hold, where these are few. What takes long waits until others that cost the same were tried
quickly: often one of them is filled at once. The first mix that can be filled is the best of all, if none
before it was left in doubt.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from panewright.cutting.bars.column import Column
from panewright.cutting.bars.dive import cut_down
from panewright.cutting.bars.filled import LONGEST, filled, one_try
from panewright.cutting.bars.master import Master, Prices, Rows
from panewright.cutting.bars.mixes import Cut, Mix, Mixes
from panewright.cutting.bars.part_cut import cut_in_whole
from panewright.cutting.bars.patterns import worthy_patterns
from panewright.cutting.bars.pricing import asked_of, offers
from panewright.cutting.bars.shifted import shifted
from panewright.cutting.bars.wanted import TINY, Answer, Bars, Wanted, counted, put, total_cost
from panewright.cutting.bars.whole import Asked, whole

LISTED = 3000  #: patterns that are listed for a proof
_MIXES = 300
_DOUBTS = 4  #: mixes left in doubt before the rest is not tried
_ROUNDS = 60  #: of the linear programme, for one mix
_TURNS = 3000  #: of shifting
_QUICK, _LONG = 8, 200  #: work of filling by trial, before and after the linear programme
MOST_SIZES = 1000  #: of which the linear programme is asked; more are filled by trial alone
_ALONE = 1500  #: work of that
_BOLD, _BOLDER = (0.7,), (0.5, 0.9)  #: how the programme's bars are taken, at first and of a mix that waited
_BACK = (
    0,
    1,
    3,
)  #: bars of each pattern that the linear programme takes and that are left to trial, by turns
_SOME = 600  #: columns of which the integer programme makes something, though others are missing
_MANY, _FEW = 3000, 1200  #: where columns are more than many, only a few are kept
_WORK = 1.0  #: of the integer programme, in CP-SAT's own measure
_NONE_LEFT = 2e-5  #: share of a bar that may seem uncut


@dataclass(slots=True)
class Search:
    """Pieces, bars that cost nothing, and what is known of mixes and patterns."""

    wanted: Wanted
    master: Master
    mixes: Mixes

    def rooms(self, kinds: Sequence[int]) -> list[int]:
        """Of each bar, by its kind."""
        return [self.wanted.stocks[kind].room for kind in kinds]


def mixed(wanted: Wanted, best: Answer, known: Iterable[Column] = ()) -> Answer:
    """The best plan, and a cost that no plan undercuts; rests must be worth nothing.

    `best` is some plan that works, or none where its cost is infinite; `known` are columns to begin with.
    """
    search = _begun(wanted, known)
    bars, least = _first_filled(search, _steps(best.cost, wanted))
    if bars:
        best = replace(best, bars=bars, cost=total_cost(wanted, bars), uncut=0)
    bound = least / wanted.scale
    return replace(best, bound=min(max(bound, best.bound), best.cost), proven=best.cost <= bound + TINY)


def _first_filled(search: Search, under: int) -> tuple[Bars, int]:
    """Bars of the first mix that is filled, or none, and a cost that no plan undercuts, in steps."""
    waiting: list[Mix] = []
    doubted: list[int] = []
    least = 0
    for _ in range(_MIXES):
        mix = search.mixes.cheapest(under, least)
        cost = under if mix is None else search.mixes.cost(mix)
        if waiting and (cost > least or len(waiting) + len(doubted) > _DOUBTS):
            bars, unfilled = _waited(search, waiting)
            if bars:
                return bars, min([*doubted, least])
            waiting, doubted = [], doubted + [least] * unfilled
        least = cost
        if mix is None or len(doubted) > _DOUBTS:
            break
        given = _given(search, mix)
        if given:
            return given, min([*doubted, least])
        search.mixes.passed.append(mix)
        waiting += [mix] if given is not None else []
    return (), min([*doubted, least])


def _waited(search: Search, waiting: Sequence[Mix]) -> tuple[Bars, int]:
    """Bars of the first of these mixes that longer work fills, or none, and how many stay in doubt."""
    doubts = 0
    for mix in waiting:
        bars = _given_longer(search, mix)
        if bars:
            return bars, doubts
        doubts += bars is not None
    return (), doubts


def _steps(cost: float, wanted: Wanted) -> int:
    return round(cost * wanted.scale) if math.isfinite(cost) else 2**40


def _begun(wanted: Wanted, known: Iterable[Column]) -> Search:
    """What the pieces' lengths say of every mix, and halves of the longest bar."""
    free = replace(wanted, stocks=tuple(replace(stock, cost=0.0) for stock in wanted.stocks), step=0.0)
    most = sum(wanted.counts)
    have = tuple(most if stock.have is None else min(stock.have, most) for stock in wanted.stocks)
    longest = max(stock.room for stock in wanted.stocks)
    master = Master(Rows(wanted.counts, have), uncut=[size / longest for size in wanted.sizes])
    for column in dict.fromkeys(known):
        put(master, free, column)
    costs = tuple(_steps(stock.cost, wanted) for stock in wanted.stocks)
    mixes = Mixes(costs, tuple(stock.room for stock in wanted.stocks), have)
    search = Search(free, master, mixes)
    longest = max(mixes.rooms)
    for worth in (
        [size / longest for size in wanted.sizes],
        [float(2 * size > longest) + 0.5 * (2 * size == longest) for size in wanted.sizes],
    ):
        _said(search, Prices(0.0, tuple(worth), (0.0,) * len(have), 0.0))
    return search


def _said(search: Search, prices: Prices, mix: Mix = (), thorough: bool = True) -> tuple[Cut, list[Column]]:
    """What prices say of every mix, and columns that would pay in this one."""
    wanted = search.wanted
    unused = tuple(kind for kind, number in enumerate(mix) if not number)
    found = offers(wanted, prices, wanted.counts, thorough=thorough, unused=unused)
    values = [0.0] * len(wanted.stocks)
    for offer in found:
        values[offer.kind] = offer.excess + asked_of(wanted, prices, offer.kind)[0]
    need = sum(worth * count for worth, count in zip(prices.pieces, wanted.counts, strict=True))
    cut = Cut(prices.pieces, tuple(values), need)
    if all(map(math.isfinite, values)):
        search.mixes.cuts.append(cut)
    return cut, [column for offer in found for column in offer.columns]


def _given(search: Search, mix: Mix) -> Bars | None:
    """Bars of a mix with all pieces; none where it is in doubt, None where it surely cannot give them.

    What takes long is left out.
    """
    if len(search.wanted.sizes) > MOST_SIZES:
        return _tried(search, mix, _ALONE)
    tried = _tried(search, mix, _QUICK)
    if tried:
        return tried
    search.master.want(Rows(search.wanted.counts, mix))
    if not _in_parts(search, mix):
        return None
    way = _bulk if _large(search, mix) else _long
    return way(search, mix) or _dived(search, mix, _BOLD)


def _given_longer(search: Search, mix: Mix) -> Bars | None:
    """The same of a mix in doubt, by what takes long."""
    if len(search.wanted.sizes) > MOST_SIZES:
        return ()
    return _dived(search, mix, _BOLDER) or _listed(search, mix)


def _in_parts(search: Search, mix: Mix) -> bool:
    """Whether the mix could give all pieces if bars were taken in parts, as far as some rounds tell."""
    master, wanted = search.master, search.wanted
    prices = master.relaxed()
    for turn in range(_ROUNDS):
        if prices is None or prices.cost <= TINY:
            break
        cut, columns = _said(search, prices, mix, thorough=turn % 5 == 4)
        if cut.forbids(mix):
            return False
        fresh = [put(master, wanted, column) for column in columns]
        if not any(fresh):
            break
        prices = master.relaxed()
        if prices is not None and len(master.columns) > _MANY:
            master.keep_dearest(_FEW)
    return True


def _tried(search: Search, mix: Mix, work: int) -> Bars:
    """The mix filled bar by bar."""
    kinds = [kind for kind, number in enumerate(mix) for _ in range(number)]
    found = filled(search.wanted.sizes, search.wanted.counts, search.rooms(kinds), work)
    return counted(kinds, found) if found else ()


def _long(search: Search, mix: Mix) -> Bars:
    return _tried(search, mix, _LONG) or _shifted(search, mix, {})


def _large(search: Search, mix: Mix) -> bool:
    """Whether filling the mix by trial takes too long."""
    rooms = [room for room, number in zip(search.mixes.rooms, mix, strict=True) for _ in range(number)]
    return one_try(search.wanted.sizes, search.wanted.counts, rooms) > LONGEST


def _bulk(search: Search, mix: Mix) -> Bars:
    """Whole bars as the linear programme takes them, and the few bars that are left by trial."""
    rows = Rows(search.wanted.counts, mix)
    search.master.want(rows)
    if search.master.relaxed() is None:
        return ()
    for back in _BACK:
        part = cut_in_whole(search.master, search.wanted, rows, back)
        kinds = [kind for kind, number in enumerate(part.have) for _ in range(number or 0)]
        found = filled(search.wanted.sizes, part.left, search.rooms(kinds), _LONG) if kinds else []
        if found is not None and (kinds or not any(part.left)):
            return tuple((Counter(dict(counted(kinds, found))) + part.cut).items())
    return ()


def _dived(search: Search, mix: Mix, bolds: Sequence[float]) -> Bars:
    """The mix filled out of the linear programme; where that comes to an end, the rest by shifting."""
    master, aim = search.master, Answer((), _NONE_LEFT, 0.0, proven=False)
    master.rows = Rows(search.wanted.counts, mix)
    for bold in bolds:
        part = cut_down(master, search.wanted, aim, bold)
        if not any(part.left):
            return tuple(part.cut.items())
        found = _shifted(search, mix, part.cut)
        if found:
            return found
    return ()


def _shifted(search: Search, mix: Mix, cut: Mapping[Column, int]) -> Bars:
    """The mix filled by shifting, from bars that are cut already."""
    kinds = [kind for kind, number in enumerate(mix) for _ in range(number)]
    patterns = {
        kind: [p for (k, p), times in cut.items() if k == kind for _ in range(times)] for kind in kinds
    }
    none = (0,) * len(search.wanted.sizes)
    begun = [patterns[kind].pop() if patterns[kind] else none for kind in kinds]
    found = shifted(search.wanted.sizes, search.wanted.counts, search.rooms(kinds), _TURNS, begun)
    return counted(kinds, found) if found else ()


def _listed(search: Search, mix: Mix) -> Bars | None:
    """The mix filled by the integer programme: from all patterns that it could hold, if these are few."""
    columns = _holdable(search, mix)
    if columns is None and len(search.master.columns) > _SOME:
        return ()
    rows = Rows(search.wanted.counts, mix)
    some = columns or [each.column for each in search.master.columns]
    found = whole(rows, some, Asked((0,) * len(some), (), None, 1, 0, 0, _WORK))
    if found.times is None:
        return None if found.done and columns is not None else ()
    return tuple((column, times) for column, times in zip(some, found.times, strict=True) if times)


def _holdable(search: Search, mix: Mix) -> list[Column] | None:
    """All patterns that waste no more worth than the mix has to spare; None where they are many."""
    cuts = sorted((c for c in search.mixes.cuts if c.need > 0), key=lambda c: c.spare(mix) / max(c.values))
    first, wanted = cuts[0], search.wanted
    columns: list[Column] = []
    for kind in (kind for kind, number in enumerate(mix) if number):
        least, room = first.values[kind] - first.spare(mix) - TINY, wanted.stocks[kind].room
        found = worthy_patterns(wanted.sizes, wanted.counts, room, first.worth, least, LISTED)
        if found is None or len(columns) + len(found) > LISTED:
            return None
        columns += [(kind, pattern) for pattern in found]
    return [column for column in columns if all(cut.allows(mix, column) for cut in cuts)]
