"""The linear programme over patterns, as OR-tools holds it: bars may be taken in parts.

    minimise  sum of the columns' costs
    so that   every piece is cut at least as often as wanted
              no more bars of a kind are taken than there are
              a second sum of costs stays within its limit, where one is set

A place for a long piece may serve the next shorter one; a piece may stay uncut at a price that no plan
pays where it can help it. One thread, and no limit of time: the same pieces give the same plan on a fast
and on a slow machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from panewright.cutting.bars.column import Column, Costed
from panewright.cutting.bars.table import SHARE

UNCUT = 1000  #: price of a piece that is left uncut; a bar costs at most 1


@dataclass(frozen=True, slots=True)
class Rows:
    """What the columns must meet: how often each piece, how many bars of each kind, the second sum."""

    counts: tuple[int, ...]
    have: tuple[int | None, ...]
    cap: float | None = None


@dataclass(frozen=True, slots=True)
class Prices:
    """What the linear programme finds a thing to be worth, and its own sum."""

    cost: float
    pieces: tuple[float, ...]  #: whole numbers of a small share, so that their sums are exact
    bars: tuple[float, ...]  #: 0 or less: what one bar more of a scarce kind would save
    cap: float


class Master:
    """Columns under rows; grows a column at a time, each solution going on from the last."""

    def __init__(self, rows: Rows, uncut: Sequence[float] = ()) -> None:
        self.rows = self._now = rows
        self._uncut = uncut or [UNCUT] * len(rows.counts)  #: price of each piece that is left uncut
        self.columns: list[Costed] = []
        self._known: set[Column] = set()
        self._begin()

    def _begin(self) -> None:
        """An empty programme; columns that are known go in afresh."""
        from ortools.linear_solver import pywraplp

        self._solver: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._most = self._solver.infinity()
        self._moved = False
        self._optimal = pywraplp.Solver.OPTIMAL
        rows, most = self.rows, self._most
        self._pieces = [self._solver.Constraint(float(count), most) for count in rows.counts]
        self._bars = [self._solver.Constraint(-most, most if n is None else float(n)) for n in rows.have]
        self._cap = self._solver.Constraint(-most, most if rows.cap is None else rows.cap)
        self._solver.Objective().SetMinimization()
        self._taken: list[Any] = []
        for place, row in enumerate(self._pieces):
            self._put(self._uncut[place], ((row, 1.0),))
            if place:
                self._put(0.0, ((self._pieces[place - 1], -1.0), (row, 1.0)))
        for costed in self.columns:
            self._put_column(costed)

    def want(self, rows: Rows) -> None:
        """Other numbers of pieces and bars, another limit."""
        self._now = rows
        self._moved = True
        for row, count in zip(self._pieces, rows.counts, strict=True):
            row.SetLb(float(count))
        for row, have in zip(self._bars, rows.have, strict=True):
            row.SetUb(self._most if have is None else float(have))
        self._cap.SetUb(self._most if rows.cap is None else rows.cap)

    def values(self) -> list[float]:
        """How often the last solution takes each column."""
        return [float(each.solution_value()) for each in self._taken]

    def _put(self, cost: float, entries: Sequence[tuple[Any, float]]) -> Any:
        variable = self._solver.NumVar(0.0, self._most, "")
        self._solver.Objective().SetCoefficient(variable, cost)
        for row, value in entries:
            row.SetCoefficient(variable, value)
        return variable

    def add(self, costed: Costed) -> bool:
        """One column more; whether it is new."""
        if costed.column in self._known:
            return False
        self._known.add(costed.column)
        self.columns.append(costed)
        self._put_column(costed)
        return True

    def _put_column(self, costed: Costed) -> None:
        bar, pattern = costed.column
        places = [(self._pieces[place], float(count)) for place, count in enumerate(pattern) if count]
        entries = [*places, (self._bars[bar], 1.0), (self._cap, costed.second)]
        self._taken.append(self._put(costed.cost, entries))

    def keep_dearest(self, number: int) -> None:
        """Only so many columns, those nearest to the last solution; the programme begins anew."""
        if len(self.columns) <= number:
            return
        less = [float(each.reduced_cost()) for each in self._taken]
        kept = sorted(sorted(range(len(less)), key=lambda place: (less[place], place))[:number])
        self.columns = [self.columns[place] for place in kept]
        self._known = {each.column for each in self.columns}
        self._begin()
        self.want(self._now)

    def relaxed(self) -> Prices | None:
        """The prices of the pieces; None where the solver gives up.

        Where rows have moved the last solution still has the right prices, where columns came in the right
        numbers: it goes on from what is right, by the dual or by the primal simplex.
        """
        self._solver.SetSolverSpecificParametersAsString(f"use_dual_simplex: {str(self._moved).lower()}")
        self._moved = False
        if self._solver.Solve() != self._optimal:
            self._begin()
            self.want(self._now)
            if self._solver.Solve() != self._optimal:
                return None
        return Prices(
            float(self._solver.Objective().Value()),
            tuple(max(0, round(row.dual_value() / SHARE)) * SHARE for row in self._pieces),
            tuple(min(0.0, row.dual_value()) for row in self._bars),
            min(0.0, self._cap.dual_value()),
        )
