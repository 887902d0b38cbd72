"""An uncertainty budget: every input moved through the real computation, one at a time.

JCGM 100:2008 (GUM): the combined standard uncertainty by 5.1.2, with correlated inputs by 5.2.2;
sensitivities found by moving an input by its own standard uncertainty either way, 5.1.3 note 2; the expanded
uncertainty is k times the combined one, 6.2 (all recalled). k = 2 holds about 95 % where no single term that
is far from a bell rules, and the law is nearly straight over the moves: `bend_share` says how nearly.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite, sqrt

import numpy as np

from panewright.cell.root import Array

COVERAGE = 2.0  #: k

Values = Mapping[str, float]
Law = Callable[[Values], Values]  #: moves of the inputs by name -> figures by name


@dataclass(frozen=True, slots=True)
class Input:
    """One thing that is not known exactly: by how much it may be off."""

    name: str
    sigma: float  #: one standard uncertainty, in its own unit
    unit: str
    source: str = "common practice, no source"

    def __post_init__(self) -> None:
        if not (self.name and isfinite(self.sigma) and self.sigma >= 0):
            raise ValueError(f"an input has a name and an uncertainty of 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class Term:
    """One line of a budget."""

    input: Input
    sensitivity: float  #: of the figure, per unit of the input
    moves: float  #: how far the input's uncertainty moves the figure, with its sign
    share: float  #: of the whole variance; below zero where a correlation takes away


@dataclass(frozen=True, slots=True)
class Budget:
    """A figure and how sure it is."""

    figure: str
    value: float
    terms: tuple[Term, ...]  #: the greatest share first
    sigma: float  #: combined standard uncertainty
    bend_share: float  #: what the law bends over the moves, of the combined uncertainty

    @property
    def expanded(self) -> float:
        """With k = 2."""
        return COVERAGE * self.sigma


@dataclass(frozen=True, slots=True)
class Budgets:
    """Budgets of all figures of one law, and how their errors go together."""

    budgets: tuple[Budget, ...]
    correlations: tuple[tuple[float, ...], ...]

    def of(self, figure: str) -> Budget:
        """One figure's."""
        return self.budgets[self._place(figure)]

    def correlation(self, one: str, other: str) -> float:
        """Between the errors of two figures."""
        return self.correlations[self._place(one)][self._place(other)]

    def _place(self, figure: str) -> int:
        names = [budget.figure for budget in self.budgets]
        return names.index(figure)


def budgets(
    law: Law, inputs: Sequence[Input], together: Mapping[tuple[str, str], float] | None = None
) -> Budgets:
    """Budgets of all that a law gives; `together` holds correlations of inputs that are not independent.

    The law is called with what each input is off; an input not named is off by nothing.
    """
    between = _correlations(inputs, together or {})
    still = dict(law({}))
    moved = [(law({one.name: one.sigma}), law({one.name: -one.sigma})) for one in inputs]
    names = tuple(still)
    half = np.array([[(up[name] - down[name]) / 2 for up, down in moved] for name in names])
    bend = np.array([[(up[name] + down[name]) / 2 - still[name] for up, down in moved] for name in names])
    half = half.reshape(len(names), len(inputs))
    variance = half @ between @ half.T
    sigma = np.sqrt(np.diag(variance))
    made = [
        _budget((name, still[name]), inputs, (half[k], half[k] * (between @ half[k])), bend[k])
        for k, name in enumerate(names)
    ]
    scale = np.where(sigma > 0, sigma, 1.0)
    return Budgets(tuple(made), tuple(tuple(row) for row in (variance / np.outer(scale, scale)).tolist()))


def _budget(
    figure: tuple[str, float], inputs: Sequence[Input], moves: tuple[Array, Array], bend: Array
) -> Budget:
    own, part = moves
    variance = float(part.sum())
    terms = [
        Term(
            one,
            float(own[k] / one.sigma) if one.sigma > 0 else 0.0,
            float(own[k]),
            float(part[k] / variance) if variance > 0 else 0.0,
        )
        for k, one in enumerate(inputs)
    ]
    sigma = sqrt(max(variance, 0.0))
    off = float(np.abs(bend).sum()) / sigma if sigma > 0 else 0.0
    name, value = figure
    return Budget(name, float(value), tuple(sorted(terms, key=lambda term: -term.share)), sigma, off)


def _correlations(inputs: Sequence[Input], together: Mapping[tuple[str, str], float]) -> Array:
    """The matrix of them; `ValueError` where it cannot be one."""
    names = [one.name for one in inputs]
    if len(set(names)) < len(names):
        raise ValueError(f"every input has a name of its own, got {names}")
    matrix = np.eye(len(names))
    for (one, other), share in together.items():
        matrix[names.index(one), names.index(other)] = share
        matrix[names.index(other), names.index(one)] = share
    if names and float(np.linalg.eigvalsh(matrix)[0]) < -1e-9:
        raise ValueError(f"no errors go together like that: {dict(together)}")
    return matrix
