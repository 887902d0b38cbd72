"""How far a panel's watts may be off, and the chance that it gives what is asked of it.

A cell's own errors fall on that cell alone: in a panel they cancel in part, so that their share of its watts
shrinks with the square root of the number of cells. What all readings have in common (the light's
calibration, the meters' gain, the thermometer) does not shrink, and moves all panels of a lot alike:

    sd^2 = sum over cells of sd_k^2 + (c P)^2        chance of P >= R: Phi((P - R) / sd)

To first order: each cell works near its own best point, so that its watts more or less are the panel's.

The sum of squares: JCGM 100:2008 (GUM), 5.1.2; what is common adds whole, 5.2.2.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr, ndtri

from panewright.cell.root import Array


@dataclass(frozen=True, slots=True)
class Doubt:
    """Of a lot: how well each cell is known by itself, and all together; one standard deviation each."""

    own_w: Array  #: of every cell
    common_share: float  #: of all powers alike

    def of(self, cells: list[int], power_w: float) -> PanelDoubt:
        """Of a panel with these cells of the lot."""
        return PanelDoubt(float(np.sqrt(np.square(self.own_w[cells]).sum())), self.common_share * power_w)

    def worst_w(self, count: int) -> float:
        """A panel's own deviation with the cells that are known worst. [W]"""
        return float(np.sqrt(np.square(np.sort(self.own_w)[-count:]).sum()))


@dataclass(frozen=True, slots=True)
class PanelDoubt:
    """One standard deviation of a panel's watts by its own cells, and by what is common to all."""

    own_w: float
    common_w: float

    @property
    def both_w(self) -> float:
        """Both together. [W]"""
        return float(np.hypot(self.own_w, self.common_w))

    def chance(self, power_w: float, rating_w: float) -> float:
        """That a panel reckoned so strong gives the rating."""
        if not self.both_w:
            return float(power_w >= rating_w)
        return float(ndtr((power_w - rating_w) / self.both_w))


def raised_w(rating_w: float, sure: float, own_w: float, common_share: float) -> float:
    """What a panel must give as reckoned to reach a rating with this chance; `ValueError` where nothing does.

    The rating R' for which Phi((R' - R) / sd(R')) is the chance, by the square that it solves.
    """
    if not 0.5 <= sure < 1:
        raise ValueError(f"a chance is one half or more and below 1, got {sure:g}")
    z = float(ndtri(sure))
    common = (z * common_share) ** 2
    if common >= 1:
        raise ValueError(f"readings that are off by {common_share:.0%} together are never so sure")
    spread = common_share**2 * rating_w**2 + (1 - common) * own_w**2
    return float((rating_w + z * np.sqrt(spread)) / (1 - common))
