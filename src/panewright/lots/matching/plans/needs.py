"""What is asked of each panel, so that all together earn so much: steps that lie near what panels give.

Cells can be moved from strong panels to weak ones, hardly the other way: the strongest few of a sorted lot
are about as strong as so many panels can be. So the first few panels are asked no more, together, than the
first few give. Of all such ways that which moves least is tried first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.proof.counts import Cut, whole

_SLACK = 1.0005  # exchanges hardly find more watts than sorting has
_WAYS = 4  # to earn the same
_WORK = 2.0  # in the solver's own measure
_FINE = 100  # parts of a watt


def needs(steps: Steps, cuts: Sequence[Cut], gives_w: Array, earned: int) -> Iterator[Array]:
    """Watts asked of panels in falling order, for every way to earn so much; none is named twice.

    `gives_w`: about the most that the strongest panels can give together, for one, two and more of them.
    """
    from ortools.sat.python import cp_model

    panels, ratings = gives_w.size, [round(_FINE * watts) for watts in steps.ratings_w]
    model = cp_model.CpModel()
    takes = [[model.new_bool_var("") for _ in ratings] for _ in range(panels)]
    asked = [sum(r * y for r, y in zip(ratings, row, strict=True)) for row in takes]
    numbers = [sum(row[t] for row in takes) for t in range(len(ratings))]
    for row in takes:
        model.add_at_most_one(row)
    for one, other in pairwise(asked):
        model.add(one >= other)
    for cut in cuts:
        costs, most = whole(cut)
        model.add(sum(c * n for c, n in zip(costs, numbers, strict=True)) <= most)
    model.add(sum(e * n for e, n in zip(steps.earns, numbers, strict=True)) == earned)
    gives = np.floor(_FINE * _SLACK * gives_w).astype(np.int64).tolist()
    for k, most in enumerate(gives):
        model.add(sum(asked[: k + 1]) <= most)
    model.maximize(sum((panels - k) * each for k, each in enumerate(asked)))
    for _ in range(_WAYS):
        solver = cp_model.CpSolver()
        solver.parameters.num_workers, solver.parameters.random_seed = 1, 0
        solver.parameters.max_deterministic_time = _WORK
        if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return
        chosen = [[solver.value(y) for y in row] for row in takes]
        yield np.array([float(np.dot(row, steps.ratings_w)) for row in chosen if any(row)])
        pairs = (pair for row, ons in zip(takes, chosen, strict=True) for pair in zip(row, ons, strict=True))
        model.add_bool_or([y.negated() if on else y for y, on in pairs])
