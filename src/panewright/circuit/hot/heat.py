"""How hot a cell becomes that takes in power: two bounds.

Even. The heat spreads over the whole cell and leaves it through both faces. With k kelvin for each W/m2, as
the panel has it in the sun (Faiman: k = 1 / (u0 + u1 v), so 314 K for each W/cm2 at 1 m/s),

    rise = k (P / A + G (1 - shade))

It is what a cell reaches that breaks down evenly: with the same k, no other cell of so many watts has a
cooler hottest place. Heat that flows to the neighbours, and a k that falls as the cell gets hotter, are left
out; both make it cooler in truth.

In one spot. All of P enters through one disc of radius a, as through a shunt. The wafer carries the heat away
sideways, as a fin: with S = sum of conductivity times thickness [W/K] and m^2 = 1 / (k S),

    S (T'' + T' / r) = T / k - q,    q = P / (pi a^2) for r < a,    no flow past the rim r = R = sqrt(A / pi)

has at the middle

    rise = k q (1 - m a [K1(m a) - I1(m a) K1(m R) / I1(m R)])  ->  P ln(1 / (m a)) / (2 pi S) + ...  small a

and falls to the even rise for a = R. Only the wafer is counted in S: silicone and plastics carry next to
nothing, glass a tenth as much, and near the spot its heat must first cross the silicone. So no spot of that
radius is hotter. Whether all the heat enters there, and how wide it is, nobody knows beforehand: an assumed
5 mm stands for the spots that thermal pictures show (common practice, no source). A smaller one is hotter by
P ln 2 / (2 pi S) each time the radius halves.

[F] D. Faiman, Prog. Photovolt. 16, 2008, p. 307: u0 25.0 W/m2K, u1 6.84 W s/m3K.
[CJ] H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., 1959: the fin equation. The disc and
    the closed rim are derived here.
[S] Silicon conducts 148 W/mK at 300 K, less when hot (about 100 at 400 K): from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from panewright.circuit.hot.spot import HotSpot
from panewright.climate.rise import faiman_c
from panewright.units import MM

FULL_SUN_W_M2 = 1000.0
SPOT_RADIUS_MM = 5.0  #: of a shunt, assumed: common practice, no source
WAFER_MM = 0.2
SILICON_W_MK = 100.0  #: at 400 K [S]


@dataclass(frozen=True, slots=True)
class Cooling:
    """How a panel gets rid of heat where it stands."""

    air_c: float = 25.0
    k_m2_w: float = faiman_c(1.0, 0.0, 1.0)  #: kelvin above the air for each W/m2; open rack, 1 m/s [F]
    sun_w_m2: float = FULL_SUN_W_M2

    def __post_init__(self) -> None:
        if not (0 < self.k_m2_w < math.inf and 0 <= self.sun_w_m2 < math.inf and abs(self.air_c) < math.inf):
            raise ValueError(
                f"heat leaves a panel to air of some temperature, with k > 0, in a sun of 0 W/m2 or more, "
                f"got {self}"
            )


@dataclass(frozen=True, slots=True)
class Spread:
    """The cell across which heat flows from one spot."""

    area_mm2: float
    spot_radius_mm: float = SPOT_RADIUS_MM
    wafer_mm: float = WAFER_MM
    conductivity_w_mk: float = SILICON_W_MK

    def __post_init__(self) -> None:
        sizes = (self.area_mm2, self.spot_radius_mm, self.wafer_mm, self.conductivity_w_mk)
        if not all(0 < size < math.inf for size in sizes):
            raise ValueError(f"a cell that spreads heat has sizes above 0, got {self}")

    @property
    def rim_mm(self) -> float:
        """Radius of the disc with the cell's area. [mm]"""
        return math.sqrt(self.area_mm2 / math.pi)

    @property
    def sheet_w_k(self) -> float:
        """Conductivity times thickness. [W/K]"""
        return self.conductivity_w_mk * self.wafer_mm * MM


@dataclass(frozen=True, slots=True)
class HotHeat:
    """Two bounds of a hot cell's temperature."""

    even_c: float  #: the heat spread over the whole cell: its hottest place is no cooler
    spot_c: float  #: all of it in one spot: no place is hotter


def even_rise_k(heat_w: float, area_mm2: float, k_m2_w: float = Cooling().k_m2_w) -> float:
    """Rise above the air of a cell that heat leaves evenly. [K]

    >>> round(even_rise_k(72.0, 24312.36), 2)
    93.01
    """
    return k_m2_w * heat_w / (area_mm2 * MM**2)


def spot_rise_k(heat_w: float, spread: Spread, k_m2_w: float = Cooling().k_m2_w) -> float:
    """Rise above the air at the middle of a spot through which all the heat enters. [K]

    >>> cell = Spread(24336.0)
    >>> round(spot_rise_k(10.0, cell)), round(even_rise_k(10.0, 24336.0))
    (179, 13)
    """
    a, rim = min(spread.spot_radius_mm, spread.rim_mm) * MM, spread.rim_mm * MM
    m = 1 / math.sqrt(k_m2_w * spread.sheet_w_k)
    open_end = _k1(m * a) - _i1(m * a) * _k1(m * rim) / _i1(m * rim)
    return k_m2_w * heat_w / (math.pi * a**2) * (1 - m * a * open_end)


def spot_bears_w(most_c: float, spread: Spread, cooling: Cooling | None = None) -> float:
    """Watts through one spot that keep it within a temperature, the sun on the whole cell. [W]

    >>> round(spot_bears_w(183.0, Spread(24336.0)), 1)
    7.1
    """
    cooling = cooling or Cooling()
    warm_c = cooling.air_c + cooling.k_m2_w * cooling.sun_w_m2
    return max(0.0, most_c - warm_c) / spot_rise_k(1.0, spread, cooling.k_m2_w)


def hot_heat(spot: HotSpot, spread: Spread, cooling: Cooling | None = None) -> HotHeat:
    """How hot a cell becomes in its worst shade, with the sun on what is left lit."""
    cooling = cooling or Cooling()
    rise_k = spot_rise_k(max(0.0, spot.absorbed_w), spread, cooling.k_m2_w)
    return HotHeat(even_c(spot, spread, cooling), _warm_c(spot, cooling) + rise_k)


def even_c(spot: HotSpot, spread: Spread, cooling: Cooling) -> float:
    """The first of the two bounds alone. [degC]"""
    return _warm_c(spot, cooling) + even_rise_k(max(0.0, spot.absorbed_w), spread.area_mm2, cooling.k_m2_w)


def _warm_c(spot: HotSpot, cooling: Cooling) -> float:
    """The cell in what sun is left on it, taking in nothing. [degC]"""
    return cooling.air_c + cooling.k_m2_w * cooling.sun_w_m2 * (1 - spot.shade)


def _i1(x: float) -> float:
    """Modified Bessel function of the first kind, order 1: the mean of exp(x cos t) cos t. [-]"""
    cosine = np.cos((np.arange(200) + 0.5) * np.pi / 200)
    return float(np.mean(np.exp(x * cosine) * cosine))


def _k1(x: float) -> float:
    """Modified Bessel function of the second kind, order 1: exp(-x cosh t) cosh t from 0 to infinity. [-]"""
    step = 0.05
    growth = np.cosh(np.arange(0.0, math.acosh(1 + 745 / x) + step, step))
    return float(step * (np.sum(np.exp(-x * growth) * growth) - 0.5 * math.exp(-x)))
