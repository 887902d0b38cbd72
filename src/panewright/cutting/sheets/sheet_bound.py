"""A cost that no plan of sheets undercuts, out of prices of the panels.

Whatever the panels are said to be worth, no sheet gives more than its dearest cuts are worth. So

    cost  >=  sum of price x number of panels, less what sheets that run out give beyond their cost

at any prices at which no sheet that does not run out gives more than it costs. The linear programme over the
cuts found so far says which prices to ask next (Gilmore and Gomory 1965, recalled). Each answer is a bound,
whether or not prices settle.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from panewright.cutting.sheets.sheet_job import Job
from panewright.cutting.sheets.sheet_worth import SHARE, Plates

_ROUNDS, _PLATES = 40, 600_000  #: of the linear programme, and of plates looked at in all of them
_DUST = 1e-9  #: of the dearest sheet: more than floating point may add to a bound

Given = tuple[int, tuple[int, ...]]
"""A kind of sheet, and how many panels of each kind come off it."""


def least_cost(asked: Job, enough: float) -> int:
    """What all panels cost at least, in steps; asked no further once that is `enough`.

    The bound by area where plates are too many.
    """
    sheets = [Plates(size, asked.kinds, asked.freed.kerf) for size in asked.sizes]
    if any(sheet.many for sheet in sheets):
        return asked.least
    least, found = asked.least, _alone(asked, sheets)
    prices = [kind.width * kind.height / min(_areas(asked)) for kind in asked.kinds]
    rounds = _PLATES // max(1, sum(sheet.number for sheet in sheets))
    for _ in range(min(_ROUNDS, rounds)):
        worth = [round(price / SHARE) * SHARE for price in prices]
        dearest = [sheet.dearest(worth) for sheet in sheets]
        bound = _bound(asked, worth, [most for most, _ in dearest])
        least = max(least, math.ceil((bound - _DUST) * max(*asked.costs, 1)))
        fresh = {(kind, counts) for kind, (_, counts) in enumerate(dearest)} - set(found)
        if least >= enough or not fresh:
            break
        found += sorted(fresh)
        prices = _prices(asked, found)
        if not prices:
            break
    return least


def _areas(asked: Job) -> list[int]:
    return [width * height for width, height in asked.sizes]


def _alone(asked: Job, sheets: Sequence[Plates]) -> list[Given]:
    """Sheets full of one kind of panel each."""
    found = []
    for number, sheet in enumerate(sheets):
        for kind in range(len(asked.kinds)):
            _, counts = sheet.dearest([float(each == kind) for each in range(len(asked.kinds))])
            found += [(number, counts)] if any(counts) else []
    return found


def _bound(asked: Job, worth: Sequence[float], most: Sequence[float]) -> float:
    """By these prices, all scaled alike so that it is highest; as a share of the dearest sheet's cost."""
    dear = max(*asked.costs, 1)
    need = sum(each * kind.quantity for each, kind in zip(worth, asked.kinds, strict=True))
    offers = [
        (cost / dear, value, sheet.have)
        for cost, value, sheet in zip(asked.costs, most, asked.stock, strict=True)
        if value > 0
    ]
    ratios = [(cost / value, have) for cost, value, have in offers]
    limit = min((ratio for ratio, have in ratios if have is None), default=math.inf)
    return max(
        (
            share * need
            - sum(max(0.0, share * value - cost) * have for cost, value, have in offers if have is not None)
            for share in {ratio for ratio, _ in ratios if ratio <= limit}  # it bends nowhere else
        ),
        default=0.0,
    )


def _prices(asked: Job, found: Sequence[Given]) -> list[float]:
    """What the linear programme over these sheets finds each panel to be worth; nothing where it fails."""
    from scipy.optimize import linprog

    dear = max(*asked.costs, 1)
    numbers = np.array([counts for _, counts in found], float).T
    have = [sheet.have for sheet in asked.stock]
    scarce = [kind for kind, number in enumerate(have) if number is not None]
    taken = np.array([[float(kind == each) for each, _ in found] for kind in scarce]).reshape(-1, len(found))
    # a panel that is left out costs as much as the dearest sheet, and so is worth no more
    uncut = np.eye(len(asked.kinds))
    rows = np.vstack([np.hstack([-numbers, -uncut]), np.hstack([taken, np.zeros((len(scarce), len(uncut)))])])
    limits = [*(-float(kind.quantity) for kind in asked.kinds), *(float(have[kind] or 0) for kind in scarce)]
    costs = [*(asked.costs[kind] / dear for kind, _ in found), *[1.0] * len(uncut)]
    solved = linprog(costs, A_ub=rows, b_ub=limits, method="highs")
    return [] if solved.status else [max(0.0, -float(y)) for y in solved.ineqlin.marginals[: len(uncut)]]
