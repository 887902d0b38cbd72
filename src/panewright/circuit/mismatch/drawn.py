"""What panels lose whose cells are drawn at random from a lot, one panel after another.

Every cell of the panel varies about its own figures. The loss of a trial is

    1 - (power of the panel) / (power of all its cells, each at its own maximum with its own joint),

so the joints' watts are not counted as mismatch, but those of leads and bus, of bypass diodes, and the
mismatch of the panel as designed are. The same figure for the panel without spread is told beside; what lies
above it is the spread's.

The same seed gives the same panels.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.mismatch.own_power import own_power_w
from panewright.circuit.mismatch.spread import Spread, drawn
from panewright.circuit.network import Network
from panewright.circuit.trials import Trials, most_power

_CELLS_AT_ONCE = 400_000  # drawn and solved together, to spare memory


@dataclass(frozen=True, slots=True)
class LossSample:
    """Losses of simulated panels, as shares of what their cells could give one by one."""

    shares: Array  #: one for each panel, in the order drawn
    even: float  #: loss of the same panel without spread

    @property
    def mean(self) -> float:
        """Mean of all panels. [-]"""
        return float(self.shares.mean())

    @property
    def by_spread(self) -> float:
        """What the spread alone costs on average. [-]"""
        return self.mean - self.even

    @property
    def standard_error(self) -> float:
        """How far the mean may be off by chance, one standard deviation; infinite for one panel. [-]"""
        count = self.shares.size
        return float(self.shares.std(ddof=1)) / sqrt(count) if count > 1 else float("inf")

    def quantile(self, share: float) -> float:
        """The loss that this share of all panels stays under. [-]"""
        return float(np.quantile(self.shares, share))


def simulated_loss(network: Network, spread: Spread, trials: int, seed: int) -> LossSample:
    """Losses of so many panels of this make with cells of such a lot."""
    if trials < 1:
        raise ValueError(f"a simulation draws a panel or more, got {trials}")
    cells, joints = _cells_of(network)
    dice = np.random.default_rng(seed)
    lots = (drawn(cells, spread, size, dice) for size in _sizes(trials, cells.light_a.size))
    losses = np.concatenate([_losses(network, lot, joints) for lot in lots])
    even = drawn(cells, Spread(), 1, dice)
    return LossSample(losses, float(_losses(network, even, joints)[0]))


def _cells_of(network: Network) -> tuple[Diodes, Array]:
    """All cells of a panel in their order, and their joints. [ohm]"""
    parts = [part for string in network.strings for part in string.substrings]
    cells = [cell for part in parts for cell in part.cells]
    return Diodes.of(cells), np.array([ohm for part in parts for ohm in part.joints_ohm])


def _sizes(trials: int, cells: int) -> Iterator[int]:
    """How many panels are drawn at a time."""
    most = max(1, _CELLS_AT_ONCE // cells)
    for first in range(0, trials, most):
        yield min(most, trials - first)


def _losses(network: Network, lot: Diodes, joints: Array) -> Array:
    own = own_power_w(replace(lot, series_ohm=lot.series_ohm + joints)).sum(axis=-1)
    return np.asarray(1 - most_power(Trials(network, lot)).power_w / own)
