"""How many bars of each kind: mixes that no price of the pieces forbids, the cheapest first.

Whatever the pieces are said to be worth, no bar gives more than its dearest pattern is worth. So for every
such price

    sum of (dearest pattern of the kind) x (bars of the kind)  >=  sum of worth x number of pieces

must hold of the mix of any plan. A small integer programme finds the cheapest mix that no price found so far
forbids: its cost is a bound in whole bars, and higher than that of the linear programme, which buys parts of
them. (The idea of cuts out of duals: Benders 1962, recalled.)
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from panewright.cutting.bars.column import Column
from panewright.cutting.bars.listed_mixes import Rules, cheapest_listed

Mix = tuple[int, ...]  #: how many bars of each kind

_FINE = 2.0**20  #: values are whole numbers of one part in so many
_DUST = 1e-6


@dataclass(frozen=True, slots=True)
class Cut:
    """What each piece is worth, a bar of each kind at most, and all pieces together."""

    worth: tuple[float, ...]
    values: tuple[float, ...]
    need: float

    def spare(self, mix: Mix) -> float:
        """By how much bars in these numbers are worth more than all pieces."""
        return sum(value * number for value, number in zip(self.values, mix, strict=True)) - self.need

    def allows(self, mix: Mix, column: Column) -> bool:
        """Whether a plan from this mix may hold a bar so cut: it wastes no more than there is to spare."""
        kind, pattern = column
        held = sum(worth * number for worth, number in zip(self.worth, pattern, strict=True))
        return self.values[kind] - held <= self.spare(mix) + _DUST * max(1.0, self.need)

    @property
    def in_whole(self) -> tuple[tuple[int, ...], int]:
        """What a bar of each kind and all pieces are worth in whole numbers, which forbid no more."""
        scale = _FINE / max(1.0, *map(abs, self.values))
        need = math.floor(scale * (self.need - _DUST * max(1.0, abs(self.need))))
        return tuple(math.ceil(value * scale) for value in self.values), need

    def forbids(self, mix: Mix) -> bool:
        """Whether they are worth too little, beyond the dust of floating point."""
        return self.spare(mix) < -_DUST * max(1.0, self.need)


@dataclass(slots=True)
class Mixes:
    """Costs in whole steps, rooms, how many there are at most; cuts, and mixes that were passed over."""

    costs: tuple[int, ...]
    rooms: tuple[int, ...]
    most: Mix
    cuts: list[Cut] = field(default_factory=list)
    passed: list[Mix] = field(default_factory=list)  #: none with more bars of no kind is asked for again

    def cost(self, mix: Mix) -> int:
        """Of the bars of a mix, in steps."""
        return sum(cost * number for cost, number in zip(self.costs, mix, strict=True))

    def cheapest(self, under: int, least: int = 0) -> Mix | None:
        """The cheapest mix that costs less than `under`, the roomiest of these; None where there is none.

        `least`: what is known that no mix undercuts.
        """
        rules = self.rules(under, least)
        return cheapest_listed(rules) if rules.few else self.by_programme(rules)

    def rules(self, under: int, least: int) -> Rules:
        """What a mix must keep."""
        sums = [cut.in_whole for cut in self.cuts]
        return Rules(self.costs, self.rooms, self.most, sums, self.passed, under, least)

    def by_programme(self, rules: Rules) -> Mix | None:
        """The cheapest mix by these rules, the roomiest of these, where they are too many for a list."""
        from ortools.sat.python import cp_model

        model = cp_model.CpModel()
        numbers = [model.new_int_var(0, most, "") for most in self.most]
        cost = sum(c * n for c, n in zip(self.costs, numbers, strict=True))
        model.add(cost < rules.under)
        model.add(cost >= rules.least)
        for values, need in rules.sums:
            model.add(sum(v * n for v, n in zip(values, numbers, strict=True)) >= need)
        for mix in rules.passed:
            more = [model.new_bool_var("") for _ in mix]
            for literal, number, tried in zip(more, numbers, mix, strict=True):
                model.add(number > tried).only_enforce_if(literal)
            model.add_bool_or(more)
        model.minimize(cost)
        solver = _solver()
        if solver.solve(model) != cp_model.OPTIMAL:
            return None
        model.add(cost == round(solver.objective_value))
        unit = math.gcd(*self.rooms)
        model.maximize(sum(room // unit * n for room, n in zip(self.rooms, numbers, strict=True)))
        if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None
        return tuple(int(solver.value(number)) for number in numbers)


def _solver() -> Any:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    return solver
