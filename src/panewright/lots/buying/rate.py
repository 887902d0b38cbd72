"""The chance that a cell is lost at a step: known, or counted on a few and so itself uncertain.

A chance that was counted, k of n, has the law Beta(k + 1/2, n - k + 1/2): Jeffreys' prior, which keeps its
intervals honest for few cells [J]. Many cells then follow the beta-binomial law, whose tails are longer than
the binomial's, for a bad batch is bad for all its cells.

[J] H. Jeffreys, An invariant form for the prior probability in estimation problems, Proc. Royal Society A
    186, 1946, p. 453 (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.special import betainc, betaincinv, betaln

from panewright.cell.root import Array

_NODES = 160
_REST = 1e-13  # of the chance is left out at either end


@dataclass(frozen=True, slots=True)
class Rate:
    """How many of all cells a step costs."""

    name: str  #: of the step: 'soldering'
    lost: float  #: a share where it is known; how many cells were lost where it was counted
    tried: float | None = None  #: of how many; None: the share is known

    def __post_init__(self) -> None:
        most = 1.0 if self.tried is None else self.tried
        if not 0 <= self.lost <= most or (self.tried is None and self.lost == 1.0):
            raise ValueError(f"a step loses from none to all of its cells, got {self}")

    @classmethod
    def known(cls, name: str, share: float) -> Rate:
        """A share that is known well, or taken as known."""
        return cls(name, share)

    @classmethod
    def counted(cls, name: str, lost: float, tried: float) -> Rate:
        """A share told by a count."""
        return cls(name, lost, tried)

    @property
    def mean(self) -> float:
        """The share expected. [-]"""
        return self.lost if self.tried is None else (self.lost + 0.5) / (self.tried + 1)

    @property
    def shape(self) -> tuple[float, float]:
        """The two figures of its beta law."""
        if self.tried is None:
            raise ValueError(f"a share that is known has no beta law, got {self}")
        return self.lost + 0.5, self.tried - self.lost + 0.5

    def kept(self, nodes: int = _NODES) -> tuple[Array, Array]:
        """Shares that pass the step, and how likely each is: nodes of Gauss's rule.

        In the angle whose squared sine is the chance, the beta law is smooth at both its ends.
        """
        if self.tried is None:
            return np.array([1 - self.lost]), np.ones(1)
        a, b = self.shape
        low, high = (np.arcsin(np.sqrt(betaincinv(a, b, share))) for share in (_REST, 1 - _REST))
        places, weights = _gauss(nodes)
        angle = low + (places + 1) / 2 * (high - low)
        log = (2 * a - 1) * np.log(np.sin(angle)) + (2 * b - 1) * np.log(np.cos(angle)) - betaln(a, b)
        weights = weights * np.exp(log)
        return np.cos(angle) ** 2, weights / weights.sum()

    def drawn(self, dice: np.random.Generator, count: int) -> Array:
        """So many shares drawn from what is known of it."""
        return np.full(count, self.lost) if self.tried is None else dice.beta(*self.shape, count)


@lru_cache(maxsize=4)
def _gauss(nodes: int) -> tuple[Array, Array]:
    return np.polynomial.legendre.leggauss(nodes)


def chance_at_least(kept: Array, bought: int, good: int) -> Array:
    """Chance that of so many cells at least so many pass, each with the chance `kept`.

    The binomial tail, as the incomplete beta function: exact at any number.
    """
    if good <= 0:
        return np.ones_like(kept)
    if bought < good:
        return np.zeros_like(kept)
    return np.asarray(betainc(good, bought - good + 1, kept))
