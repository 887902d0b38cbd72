"""The integer programme over the columns there are, by OR-tools' CP-SAT: whole bars.

Costs are whole numbers here. The search is bounded by CP-SAT's own count of work, not by time, and runs on
one thread, so that it ends at the same answer on every machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from panewright.cutting.bars.column import Column, Costed
from panewright.cutting.bars.master import UNCUT, Rows


@dataclass(frozen=True, slots=True)
class Asked:
    """Whole-number costs of the columns, how far the sum may go, and how much work may be spent."""

    costs: tuple[int, ...]
    seconds: tuple[int, ...]  #: of the second sum
    cap: int | None  #: the second sum's limit
    uncut: int  #: cost of a piece left uncut
    least: int  #: no plan costs less
    most: int  #: a plan that costs more is of no use
    work: float


@dataclass(frozen=True, slots=True)
class Whole:
    """Columns taken a whole number of times; `times` is None where nothing of use was found."""

    times: tuple[int, ...] | None
    cost: int
    uncut: int
    done: bool  #: nothing better is made of these columns


def scaled(columns: Sequence[Costed], scale: float, second_scale: float) -> tuple[tuple[int, ...], ...]:
    """Costs and second costs as whole numbers."""
    return (
        tuple(round(each.cost * scale) for each in columns),
        tuple(round(each.second * second_scale) for each in columns),
    )


def whole(rows: Rows, columns: Sequence[Column], asked: Asked) -> Whole:
    """The cheapest whole numbers of columns, if the work allowed finds them."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    most = sum(rows.counts)
    times = [model.new_int_var(0, _most(rows, pattern), "") for _, pattern in columns]
    uncut = [model.new_int_var(0, count, "") for count in rows.counts]
    lent = [model.new_int_var(0, most, "") for _ in rows.counts[1:]]
    for place, count in enumerate(rows.counts):
        given = [
            pattern[place] * time for (_, pattern), time in zip(columns, times, strict=True) if pattern[place]
        ]
        given += [uncut[place]]
        given += [lent[place - 1]] if place else []
        taken = lent[place] if place < len(lent) else 0
        model.add(sum(given) - taken >= count)
    for bar, have in enumerate(rows.have):
        if have is not None:
            model.add(sum(t for (kind, _), t in zip(columns, times, strict=True) if kind == bar) <= have)
    if asked.cap is not None:
        model.add(sum(c * t for c, t in zip(asked.seconds, times, strict=True)) <= asked.cap)
    cost = sum(c * t for c, t in zip(asked.costs, times, strict=True)) + asked.uncut * sum(uncut)
    model.add(cost >= asked.least)
    model.add(cost <= asked.most)
    model.minimize(cost)
    return _solved(model, times, uncut, asked)


def _most(rows: Rows, pattern: Sequence[int]) -> int:
    """A pattern is never wanted more often than its pieces and all shorter ones."""
    first = next((place for place, count in enumerate(pattern) if count), 0)
    return sum(rows.counts[first:])


def _solved(model: Any, times: list[Any], uncut: list[Any], asked: Asked) -> Whole:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = asked.work
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Whole(None, 0, 0, done=status == cp_model.INFEASIBLE)
    return Whole(
        tuple(int(solver.value(each)) for each in times),
        round(solver.objective_value),
        sum(int(solver.value(each)) for each in uncut),
        done=status == cp_model.OPTIMAL,
    )


__all__ = ["UNCUT", "Asked", "Whole", "scaled", "whole"]
