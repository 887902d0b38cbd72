"""The linear programme over panels in parts, as OR-tools holds it; it gives the pieces their prices.

    most     sum of what the columns are worth, or a common share of the numbers of panels that are wanted
    so that  no piece is taken more than once, kinds of columns as often as they may or must

Pieces much alike have prices that lie on a smooth surface. In a large lot the rows of single pieces are
therefore summed with weights, the hats of `surfaces`; any prices they give are prices still.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from panewright.cell.root import Array

_DUST = 1e-7  # of a weight: less says nothing
FEW = 170  #: pieces up to which each has a row of its own


def surfaces(feature: Array, worth: Array, hats: int, knots: int) -> Array:
    """Weights of pieces in summed rows: hats over the rank of one figure, times ramps over another."""
    rank = np.argsort(np.argsort(feature, kind="stable"), kind="stable") / max(1, feature.size - 1)
    middle = np.linspace(0, 1, hats)
    hat = np.maximum(0.0, 1 - np.abs(rank - middle[:, None]) * (hats - 1))
    ramps = [hat * np.maximum(0.0, worth - knot) for knot in np.quantile(worth, np.linspace(0, 0.9, knots))]
    table = np.concatenate([hat, *ramps])
    table = table[table.max(axis=1) > 1e-6]
    return np.asarray(table / table.max(axis=1)[:, None])


@dataclass(frozen=True, slots=True)
class Wanted:
    """Kinds of columns: how many may be taken at most, or must, or of which a common share is sought."""

    most: float | None = None
    least: float | None = None
    share: tuple[float, ...] | None = None

    @property
    def kinds(self) -> int:
        """How many kinds of columns there are."""
        return 1 if self.share is None else len(self.share)


@dataclass(frozen=True, slots=True)
class Prices:
    """What the programme reaches, and what it finds pieces and kinds of columns worth."""

    value: float
    pieces: Array
    kinds: Array  #: what a column of a kind pays


class Master:
    """Columns under rows; grows a column at a time, each solution going on from the last."""

    def __init__(self, weights: Array, wanted: Wanted) -> None:
        self.weights, self.wanted = weights, wanted
        self._known: list[tuple[int, float, Array]] = []
        self._begin("GLOP")

    def _begin(self, solver: str) -> None:
        """An empty programme; columns that are known go in afresh."""
        from ortools.linear_solver import pywraplp

        self._solver: Any = pywraplp.Solver.CreateSolver(solver)
        self._optimal, self._most = pywraplp.Solver.OPTIMAL, self._solver.infinity()
        weights, wanted, most = self.weights, self.wanted, self._most
        self._pieces = [self._solver.Constraint(-most, float(total)) for total in weights.sum(axis=1)]
        low = -most if wanted.most is not None else float(wanted.least or 0.0)
        high = most if wanted.most is None else float(wanted.most)
        self._kinds = [self._solver.Constraint(low, high) for _ in range(wanted.kinds)]
        self._solver.Objective().SetMaximization()
        self._extra(wanted)
        for column in self._known:
            self._put_column(*column)

    def _extra(self, wanted: Wanted) -> None:
        """The common share; or a way out where too few columns are known."""
        if wanted.share is not None:
            self._put(1.0, [(row, -n) for row, n in zip(self._kinds, wanted.share, strict=True)])
        elif wanted.least is not None:
            self._put(-1e6, [(row, 1.0) for row in self._kinds])

    def _put(self, worth: float, entries: Sequence[tuple[Any, float]]) -> None:
        variable = self._solver.NumVar(0.0, self._most, "")
        self._solver.Objective().SetCoefficient(variable, worth)
        for row, value in entries:
            row.SetCoefficient(variable, value)

    def add(self, kind: int, worth: float, taken: Array) -> None:
        """One column more."""
        self._known.append((kind, worth, self.weights @ taken))
        self._put_column(*self._known[-1])

    def _put_column(self, kind: int, worth: float, sums: Array) -> None:
        rows = [(self._pieces[k], float(sums[k])) for k in np.flatnonzero(sums > _DUST)]
        self._put(float(worth), [*rows, (self._kinds[kind], 1.0)])

    def solved(self) -> Prices | None:
        """The prices; None where the solver gives up."""
        for other in ("GLOP", "CLP", ""):
            if self._solver.Solve() == self._optimal:
                break
            if not other:
                return None
            self._begin(other)
        duals = np.array([max(0.0, row.dual_value()) for row in self._pieces])
        return Prices(
            float(self._solver.Objective().Value()),
            duals @ self.weights,
            np.array([-row.dual_value() for row in self._kinds]),
        )
