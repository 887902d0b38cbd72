"""What is taken as usual of a kind's cells before anything is read: how lots differ, and cells in a lot.

Common practice, no source. Level and spread of one figure together are what `curve.few` assumes of a single
cell: series resistance by a factor of 1.5, shunt by a factor of 3, ideality by 0.1.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array

#: how many cells the usual spread is worth against what a lot's own cells say
WORTH = 10.0
#: of the logarithm of a breakdown voltage, of a cell about its kind and about its lot
BREAKDOWN_SPREAD = 0.3


@dataclass(frozen=True, slots=True)
class Usual:
    """Standard deviations of a cell's six figures, in the order of `figures`: mostly of logarithms."""

    level: tuple[float, ...] = (0.05, 0.015, 0.08, 0.35, 0.8, 0.7)  #: of a lot's mean about the kind
    spread: tuple[float, ...] = (0.02, 0.006, 0.04, 0.2, 0.75, 0.7)  #: of a cell about its lot
    worth: float = WORTH

    def __post_init__(self) -> None:
        if len(self.level) != 6 or len(self.spread) != 6:
            raise ValueError(f"a cell has six figures, got {len(self.level)} and {len(self.spread)}")
        if not (min(self.level) >= 0 and min(self.spread) > 0 and self.worth > 0):
            raise ValueError(f"spreads and their worth are above zero, levels not below, got {self}")

    @property
    def level_covariance(self) -> Array:
        """Of a lot's mean about the kind."""
        return np.diag(np.square(np.maximum(self.level, 1e-9)))

    @property
    def spread_covariance(self) -> Array:
        """Of a cell about its lot."""
        return np.diag(np.square(self.spread))
