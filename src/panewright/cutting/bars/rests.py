"""Of plans of equal money one that uses up less length, by trial: shorter bars, and one long rest.

Bars that are shorter in all are sought first. Then what they have to spare is taken off one of them, and the
others are filled: so all that is left lies in one rest, or nearly all of it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from panewright.cutting.bars.filled import filled
from panewright.cutting.bars.mixes import Cut, Mix, Mixes
from panewright.cutting.bars.wanted import Answer, Bars, Wanted, counted, total_cost

_MIXES = 8  #: shorter bars are sought so often
_WORK = 20  #: of filling them once by trial
_SHARES = (1.0, 0.999, 0.99, 0.95, 0.85, 0.7, 0.5)  #: of what is to spare, in one rest


def shortened(wanted: Wanted, start: Answer) -> Answer:
    """A plan that costs less by the first sum, and no more by the second than its cap; or the one given."""
    mix = _mix(wanted, start.bars)
    shorter = _shorter(wanted, start, mix)
    found = [*([shorter] if shorter else []), *_rested(wanted, _mix(wanted, shorter) if shorter else mix)]
    best = min(found, key=lambda bars: total_cost(wanted, bars), default=start.bars)
    cost = total_cost(wanted, best)
    return replace(start, bars=best, cost=cost) if cost < start.cost - 1e-9 else start


def _mix(wanted: Wanted, bars: Bars) -> Mix:
    taken: Counter[int] = Counter()
    for (kind, _), times in bars:
        taken[kind] += times
    return tuple(taken[kind] for kind in range(len(wanted.stocks)))


def _shorter(wanted: Wanted, start: Answer, mix: Mix) -> Bars | None:
    """Shorter bars that cost no more and are filled at once."""
    if len(wanted.stocks) < 2 or start.uncut:
        return None
    most = sum(wanted.counts)
    lengths = tuple(round(stock.cost * wanted.scale) for stock in wanted.stocks)
    have = tuple(most if stock.have is None else min(stock.have, most) for stock in wanted.stocks)
    rooms = tuple(stock.room for stock in wanted.stocks)
    mixes = Mixes(lengths, rooms, have)
    size = sum(size * count for size, count in zip(wanted.sizes, wanted.counts, strict=True))
    mixes.cuts.append(Cut((), tuple(map(float, rooms)), float(size)))
    if wanted.cap is not None and wanted.second:
        dear = tuple(-stock.cost for stock in wanted.second)
        mixes.cuts.append(Cut((), dear, -wanted.cap))
    for _ in range(_MIXES):
        found = mixes.cheapest(mixes.cost(mix))
        if found is None:
            return None
        bars = _filled(wanted, found)
        if bars:
            return bars
        mixes.passed.append(found)
    return None


def _rested(wanted: Wanted, mix: Mix) -> Iterator[Bars]:
    """The longest bar with as much as can be left on it."""
    rooms = [stock.room * number for stock, number in zip(wanted.stocks, mix, strict=True)]
    spare = sum(rooms) - sum(size * n for size, n in zip(wanted.sizes, wanted.counts, strict=True))
    longest = max((kind for kind, n in enumerate(mix) if n), key=lambda kind: wanted.stocks[kind].room)
    for share in _SHARES:
        off = min(int(spare * share), wanted.stocks[longest].room)
        found = _filled(wanted, mix, longest, off) if off > wanted.stocks[longest].keep else None
        if found:
            yield found
            return


def _filled(wanted: Wanted, mix: Mix, kind: int = 0, off: int = 0) -> Bars | None:
    """The bars of a mix filled, one of a kind less by so much."""
    kinds = [k for k, number in enumerate(mix) for _ in range(number)]
    rooms = [wanted.stocks[k].room for k in kinds]
    if off:
        rooms[kinds.index(kind)] -= off
    found = filled(wanted.sizes, wanted.counts, rooms, _WORK)
    return counted(kinds, found) if found else None
