"""The diodes whose curve passes through a nameplate's three points.

Isc, Voc and the point of maximum power are four conditions (the power must also be level there) on five
figures, so one stays free: the diodes of a nameplate are a family, told apart by the ideality n. Write
x = n k T / q and J = I0 exp(Voc / x). At a given n and Rs two conditions are straight in J and 1/Rsh:

    J (1 - exp(-D / x)) + D / Rsh = Isc - b(Voc) + b(Isc Rs),         D = Voc - Isc Rs
    J (1 - exp(-d / x)) + d / Rsh = Imp - b(Voc) + b(Vmp + Imp Rs),   d = Voc - Vmp - Imp Rs

with b the current of the breakdown term. What is left is that the power is level, g (Vmp - Imp Rs) = Imp
with g the junction's slope at maximum power; its left side rises with Rs, so Rs is its one root. Along
the family Rs and 1/Rsh both fall as n rises. A nameplate has a diode at all if it has one at the least n.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike, NDArray

from panewright.cell.diode import Diode
from panewright.cell.root import Array, root

THERMAL_25_V = 1.380649e-23 * 298.15 / 1.602176634e-19  #: k T / q at 25 degC
LEAST_N, MOST_N = 0.6, 2.2  #: Auger recombination alone gives 2/3, a space charge region 2

Numbers = NDArray[np.float64] | NDArray[np.complex128]  #: complex only to carry a slope

_STEP = 1e-30  # complex step: the slope of a function without any rounding


class Points(Protocol):
    """The points a nameplate states."""

    @property
    def isc_a(self) -> float:
        """Short-circuit current. [A]"""

    @property
    def voc_v(self) -> float:
        """Open-circuit voltage. [V]"""

    @property
    def imp_a(self) -> float:
        """Current at maximum power. [A]"""

    @property
    def vmp_v(self) -> float:
        """Voltage at maximum power. [V]"""


@dataclass(frozen=True, slots=True)
class Breakdown:
    """Bishop's term, known before the fit."""

    siemens: float = 0.0
    volt: float = -15.0
    exponent: float = 3.4


@dataclass(frozen=True, slots=True)
class Family:
    """Members of the family at some idealities; `level` is the power's slope at Rs."""

    series_ohm: Numbers
    shunt_siemens: Numbers
    boosted_a: Numbers  #: J = I0 exp(Voc / x)
    level: Numbers


def diode_near(plate: Points, breakdown: Breakdown, shunt_siemens: float) -> Diode | None:
    """The diode of the family whose shunt is nearest to the one wanted; None if there is none at all."""
    if not fits(plate, breakdown):
        return None
    top = _top_n(plate, breakdown)
    least, most = (float(_member(plate, breakdown, n).shunt_siemens) for n in (top, LEAST_N))
    wanted = min(max(shunt_siemens, least, 0.0), most)
    n = _n_for_shunt(plate, breakdown, wanted, top)
    return _as_diode(plate, breakdown, n)


def fits(plate: Points, breakdown: Breakdown | None = None) -> bool:
    """Whether any diode goes through the points: with the sharpest knee, no resistance is negative."""
    breakdown = breakdown or Breakdown()
    if _at(plate, breakdown, np.array(LEAST_N), np.array(0.0)).level > 0:
        return False
    sharp = _member(plate, breakdown, LEAST_N)
    return bool(sharp.shunt_siemens >= 0 and sharp.boosted_a > 0)


def _as_diode(plate: Points, breakdown: Breakdown, n: float) -> Diode:
    member, x = _member(plate, breakdown, n), n * THERMAL_25_V
    saturation = float(member.boosted_a) * np.exp(-plate.voc_v / x)
    conductance = max(0.0, float(member.shunt_siemens))
    at_open = conductance * plate.voc_v + float(_broken(breakdown, np.array(plate.voc_v))[0])
    return Diode(
        light_a=float(saturation * np.expm1(plate.voc_v / x) + at_open),
        saturation_a=float(saturation),
        ideality_v=x,
        series_ohm=float(member.series_ohm),
        shunt_ohm=1 / conductance if conductance > 0 else float("inf"),
        breakdown_siemens=breakdown.siemens,
        breakdown_v=breakdown.volt,
        breakdown_exponent=breakdown.exponent,
    )


def _member(plate: Points, breakdown: Breakdown, n: ArrayLike) -> Family:
    """The member of the family at an ideality; Rs is 0 where it would be negative."""
    n = np.asarray(n, dtype=float)
    most = (plate.voc_v - plate.vmp_v) / plate.imp_a * (1 - 1e-9)

    def level(rs: Array) -> tuple[Array, Array]:
        value = _at(plate, breakdown, n, np.asarray(rs + 1j * _STEP, dtype=complex)).level
        return value.real, value.imag / _STEP

    zero = np.zeros_like(n)
    rs = np.where(level(zero)[0] >= 0, 0.0, root(level, zero, zero + most, zero + most / 3))
    return _at(plate, breakdown, n, rs)


def _at(plate: Points, breakdown: Breakdown, n: Numbers, rs: Numbers) -> Family:
    """Shunt and saturation through the three points at an ideality and a series resistance."""
    isc, voc, imp, vmp, x = plate.isc_a, plate.voc_v, plate.imp_a, plate.vmp_v, n * THERMAL_25_V
    far, near = voc - isc * rs, voc - vmp - imp * rs
    open_a = _broken(breakdown, np.asarray(voc))[0]
    peak_a, peak_slope = _broken(breakdown, vmp + imp * rs)
    at_short, at_peak = isc - open_a + _broken(breakdown, isc * rs)[0], imp - open_a + peak_a
    share_far, share_near = -np.expm1(-far / x), -np.expm1(-near / x)
    det = share_far * near - share_near * far
    boosted = (at_short * near - at_peak * far) / det
    shunt = (share_far * at_peak - share_near * at_short) / det
    slope = boosted / x * np.exp(-near / x) + shunt + peak_slope
    return Family(rs, shunt, boosted, slope * (vmp - imp * rs) - imp)


def _broken(breakdown: Breakdown, vd: Numbers) -> tuple[Numbers, Numbers]:
    """Current of the breakdown term, and its slope. [A, S]"""
    left = 1 - vd / breakdown.volt
    siemens = breakdown.siemens * left**-breakdown.exponent
    return vd * siemens, siemens * (1 + (breakdown.exponent - 1) * (1 - left)) / left


def _top_n(plate: Points, breakdown: Breakdown) -> float:
    """The greatest ideality at which the series resistance is not negative."""

    def level(n: Array) -> tuple[Array, Array]:
        value = _at(plate, breakdown, np.asarray(n + 1j * _STEP, dtype=complex), np.zeros_like(n)).level
        return value.real, value.imag / _STEP

    least, most = np.array(LEAST_N), np.array(MOST_N)
    if level(most)[0] <= 0:
        return MOST_N
    return float(root(level, least, most, 0.5 * (least + most)))


def _n_for_shunt(plate: Points, breakdown: Breakdown, wanted: float, top: float) -> float:
    """The ideality at which the family has the wanted shunt, fenced in ever more closely."""
    low, high = LEAST_N, top
    for _ in range(4):
        n = np.linspace(low, high, 17)
        shunt = _member(plate, breakdown, n).shunt_siemens
        k = int(np.clip(np.count_nonzero(shunt > wanted), 1, n.size - 1))
        low, high, above, below = float(n[k - 1]), float(n[k]), float(shunt[k - 1]), float(shunt[k])
    share = (above - wanted) / (above - below) if above > below else 0.0
    return low + min(max(share, 0.0), 1.0) * (high - low)
