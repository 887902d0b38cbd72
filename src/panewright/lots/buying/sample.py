"""What a measured sample tells of the lot it was taken from, and what it leaves open.

A few cells tell the lot's middle, its spread and what light and voltage have in common, each with doubt. They
are taken as drawn from a normal law of light and voltage, about which nothing else is known: Jeffreys' prior
[GC], as for a loss that was counted. So the covariance follows an inverse Wishart law, the middle a normal
law about the sample's. Both are drawn once for an order, for they are common to all its cells; so a cell of
the lot follows a Student law, whose tails are longer the fewer cells were measured. Series and shunt go with
a cell drawn out of the sample.

Likeliest figures of cells lie nearer together than the cells do: what readings leave open of each is added
to their scatter, as the law of total variance has it.

The lot is finite: of those that come some are the measured ones themselves, as chance has it. Where the
whole lot is bought all of them are, and only the rest is in doubt. What all readings share moves all alike.

[GC] S. Geisser, J. Cornfield, Posterior distributions for multivariate normal parameters, Journal of the
     Royal Statistical Society B 25, 1963, p. 368 (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array

LEAST = 5  #: fewer cells leave the spread all but unknown
_TRACE = 1e-12  # of a variance: cells that read all alike still have a law


@dataclass(frozen=True, slots=True)
class Sample:
    """Cells that were measured out of a lot."""

    cells: Diodes  #: at STC, arrays (n,)
    lot: int  #: cells of the whole lot, the measured ones with them
    common_share: float = 0.0  #: standard deviation by which all currents read may be off together
    doubt: tuple[float, float] = (0.0, 0.0)  #: variance that readings leave open of each cell's figures

    def __post_init__(self) -> None:
        if not LEAST <= self.count <= self.lot:
            raise ValueError(f"a sample has {LEAST} cells or more and no more than its lot, got {self.count}")

    @property
    def count(self) -> int:
        """How many cells were measured."""
        return int(self.cells.light_a.size)

    @property
    def figures(self) -> Array:
        """Logarithm of the light current, and shift of the voltage at equal light: (cells, 2). [-, V]"""
        return _figures(self.cells)

    def believed(self, dice: np.random.Generator) -> Believed:
        """A lot as it may be, drawn from what the sample leaves open."""
        from scipy.stats import invwishart

        count, figures = self.count, self.figures
        apart = figures - figures.mean(axis=0)
        scatter = apart.T @ apart + (count - 1) * np.diag(np.add(self.doubt, _TRACE))
        covariance = invwishart.rvs(df=count - 1, scale=scatter, random_state=dice)
        middle = dice.multivariate_normal(figures.mean(axis=0), covariance / count)
        return Believed(self, middle, covariance, 1 + self.common_share * float(dice.standard_normal()))


@dataclass(frozen=True, slots=True)
class Believed:
    """One lot that the sample may be of."""

    sample: Sample
    middle: Array
    covariance: Array
    level: float  #: of all currents, the measured cells' too

    def drawn(self, count: int, dice: np.random.Generator) -> Diodes:
        """So many cells of it, mixed, measured ones among them as chance has it: arrays (count,)."""
        sample, lot = self.sample, self.sample.lot
        known = int(dice.hypergeometric(sample.count, lot - sample.count, min(count, lot)))
        mine = dice.permutation(sample.count)[:known]
        like = dice.integers(sample.count, size=count - known)
        figures = dice.multivariate_normal(self.middle, self.covariance, count - known)
        unseen = _moved(sample.cells.at(like), figures - sample.figures[like])
        order = dice.permutation(count)
        both = (np.concatenate(pair)[order] for pair in _columns(sample.cells.at(mine), unseen))
        cells = Diodes(*both)
        return replace(cells, light_a=cells.light_a * self.level)


def _columns(one: Diodes, other: Diodes) -> list[tuple[Array, Array]]:
    return [(getattr(one, name), getattr(other, name)) for name in Diodes.__slots__]


def _figures(cells: Diodes) -> Array:
    """Light in logarithms; volts at the junction in one light for all, which tell its law apart. [-, V]"""
    usual = float(np.median(cells.light_a))
    volt = cells.ideality_v * np.log(usual / cells.saturation_a)
    return np.column_stack([np.log(cells.light_a), volt])


def _moved(cells: Diodes, by: Array) -> Diodes:
    """Cells whose light and voltage are moved by so much."""
    return replace(
        cells,
        light_a=cells.light_a * np.exp(by[:, 0]),
        saturation_a=cells.saturation_a * np.exp(-by[:, 1] / cells.ideality_v),
    )
