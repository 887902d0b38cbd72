"""A plan out of the linear programme: what it likes best is cut, and it is asked again for the rest.

Columns that it takes once or more are cut, and those that it nearly takes. Where what is cut and the price of
the rest can no more be cheaper than the best plan, new columns are asked for; if they are of no help, it is
given up. It is quick, so that it may be tried some times, bold and careful.
"""

from __future__ import annotations

import math

from panewright.cutting.bars.master import Master
from panewright.cutting.bars.part_cut import PartCut, begun
from panewright.cutting.bars.pricing import offers
from panewright.cutting.bars.wanted import TINY, Answer, Wanted, put

_TURNS = 3  #: new columns are asked for so often before a step
_NEAR = 0.02  #: of a step in cost: the rest must be cheaper by this, else new columns are asked for


def dived(master: Master, wanted: Wanted, best: Answer, bold: float) -> Answer:
    """A plan cheaper than the best, or that; columns taken `bold` times or more are cut without asking again.

    The master is left as it was found but for new columns.
    """
    cutting = cut_down(master, wanted, best, bold)
    short = any(cutting.left) or (cutting.cap is not None and cutting.cap < -TINY)
    if short or cutting.cost >= best.cost - TINY:
        return best
    return Answer(tuple(cutting.cut.items()), cutting.cost, best.bound, proven=False)


def _cheap(master: Master, cutting: PartCut, best: Answer) -> bool:
    """Whether the rest may still make a cheaper plan; asks for columns until it does."""
    wanted = cutting.wanted
    step = wanted.step or 10 * TINY
    aim = best.cost - step - cutting.cost if math.isfinite(best.cost) else math.inf
    prices = master.relaxed()
    for _ in range(_TURNS):
        if prices is None or prices.cost <= aim - _NEAR * step:
            break
        found = offers(wanted, prices, cutting.left, thorough=False)
        fresh = [put(master, wanted, column) for offer in found for column in offer.columns]
        if not any(fresh):
            break
        prices = master.relaxed()
    return prices is not None and prices.cost <= aim + TINY


def _taken(master: Master, cutting: PartCut, bold: float) -> bool:
    """Columns that the linear programme takes, the surest first; at least one, or False."""
    values = master.values()
    some = False
    for place in sorted(range(len(values)), key=lambda i: (-values[i], i)):
        times = math.floor(values[place] + TINY)
        if not times and values[place] > TINY and (not some or values[place] >= bold):
            times = 1
        if not times:
            break
        for _ in range(times):
            if not cutting.take(master.columns[place].column, again=some):
                break
            some = True
    return some


def cut_down(master: Master, wanted: Wanted, best: Answer, bold: float) -> PartCut:
    """Bars cut so, as far as what is left may still be cheap enough."""
    rows = master.rows
    cutting = begun(wanted, rows)
    while any(cutting.left):
        master.want(cutting.rows)
        if not _cheap(master, cutting, best) or not _taken(master, cutting, bold):
            break
    master.want(rows)
    return cutting
