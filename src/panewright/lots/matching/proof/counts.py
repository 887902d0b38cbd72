"""How many panels of each step there can be at most: whole numbers under the cuts that prices prove.

A cut says: so many panels of each step cost at least so much each, and all pieces together are worth no more.

    sum over steps of  count x cost  <=  sum of prices
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

_FINE = 1e7
_WIDE = 10**12
_BEARABLE = 2**60  # of a sum that the solver takes


@dataclass(frozen=True, slots=True)
class Cut:
    """Least cost of a panel of each step, and what all pieces are worth together."""

    costs: tuple[float, ...]
    total: float


@dataclass(frozen=True, slots=True)
class Counts:
    """Panels of each step, and what they earn."""

    panels: tuple[int, ...]
    earns: int


def whole(cut: Cut) -> tuple[list[int], int]:
    """A cut in whole numbers that shuts out no more than it does: costs, and what all is worth."""
    scale = _FINE / max(abs(cut.total), 1e-9)
    return [min(floor(max(cost, 0.0) * scale), _WIDE) for cost in cut.costs], ceil(cut.total * scale)


def most_earning(
    earns: Sequence[int],
    cuts: Sequence[Cut],
    panels: int,
    *,
    ratings_w: Sequence[float] = (),
    below: int | None = None,
) -> Counts:
    """Numbers of panels that earn most and break no cut; of equal ones those that need least watts.

    `below`: less than this. Where the solver leaves it open, all panels are said to be of the dearest step,
    which no deal exceeds.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    numbers = [model.new_int_var(0, panels, "") for _ in earns]
    model.add(sum(numbers) <= panels)
    for cut in cuts:
        costs, most = whole(cut)
        model.add(sum(c * n for c, n in zip(costs, numbers, strict=True)) <= most)
    money = sum(e * n for e, n in zip(earns, numbers, strict=True))
    if below is not None:
        model.add(money <= below - 1)
    dear, whole_w = _weighed(earns, panels, ratings_w)
    model.maximize(dear * money - sum(w * n for w, n in zip(whole_w, numbers, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:  # nothing is less than `below`
        return Counts((0,) * len(earns), 0)
    if status != cp_model.OPTIMAL:
        return dearest(earns, panels, below)
    found = tuple(int(solver.value(each)) for each in numbers)
    return Counts(found, sum(e * n for e, n in zip(earns, found, strict=True)))


def _weighed(earns: Sequence[int], panels: int, ratings_w: Sequence[float]) -> tuple[int, list[int]]:
    """What a hundredth of money weighs beside hundredths of a watt; of sums too large watts are not asked."""
    whole_w = [round(100 * watts) for watts in ratings_w] or [0] * len(earns)
    dear = 1 + panels * max([0, *whole_w])
    if dear * panels * max([0, *earns]) > _BEARABLE:
        return 1, [0] * len(earns)
    return dear, whole_w


def dearest(earns: Sequence[int], panels: int, below: int | None = None) -> Counts:
    """So many panels of the dearest step, which earn less than `below`: what no deal exceeds.

    >>> dearest((70, 90), 3)
    Counts(panels=(0, 3), earns=270)
    """
    top = max(range(len(earns)), key=lambda k: earns[k], default=0)
    most = max(earns, default=0) * panels
    counts = tuple(panels if k == top else 0 for k in range(len(earns)))
    return Counts(counts, most if below is None else min(most, below - 1))
