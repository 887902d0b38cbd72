"""A cell's own maximum of power: how high it is, how sharp, and what moves it.

Along the curve P = V I, with V = Vd - I Rs and D(Vd) = IL - I. With g = dD/dVd and g' = dg/dVd,

    dV/dI = -(1/g + Rs),   d2V/dI2 = -g'/g^3,   P_II = 2 dV/dI + I d2V/dI2   (negative).

Where the power is greatest dP/dI = 0. Move one figure p of the cell by a little: the maximum goes to

    dI/dp = -(V_p + I V_Ip) / P_II,      dV/dp = V_p + (dV/dI) dI/dp,

with V_p = Vd_p - I Rs_p, Vd_p = (IL_p - D_p) / g and V_Ip = (g_p + g' Vd_p) / g^2 - Rs_p. All of it is exact.
Breakdown's own bend is left out: forward it is nothing.

The sharpness is the curvature without units, kappa = -P_II I^2 / P. It is the same along the voltage:
there dI/dV = -I/V at the maximum, so -P_VV V^2 / P is kappa too.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.curve import swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.peak import peak
from panewright.cell.root import Array

Shares = tuple[float, ...]  #: by how much a figure moves, as shares, with light, voltage, series, shunt


@dataclass(frozen=True, slots=True)
class Slopes:
    """What moves the points of one cell's curve, and how sharp its maximum is."""

    points: KeyPoints
    sharpness: float  #: kappa
    isc: Shares
    voc: Shares
    imp: Shares
    vmp: Shares


def slopes_of(diode: Diode) -> Slopes:
    """Sharpness of a cell's maximum, and what moves its points; see `spread` for the four that move them.

    >>> cell = Diode(8.55, 2.3e-9, 0.02826182744, 0.0042, 60.0)
    >>> round(slopes_of(cell).sharpness, 3)
    17.628
    """
    points = key_points(diode)
    if not points.power_w > 0:
        raise ValueError(f"a cell without light has no maximum of power, got {diode}")
    curved, own_a, own_v = _moved_maximum(diode, points)
    at_rest, g = _pushed_a(diode, points.isc_a * diode.series_ohm, points.voc_v)
    short = (at_rest - g * points.isc_a * _series_ohm(diode)) / (1 + g * diode.series_ohm)
    open_, siemens = _pushed_a(diode, points.voc_v, points.voc_v)
    return Slopes(
        points,
        -curved * points.imp_a**2 / points.power_w,
        tuple((short / points.isc_a).tolist()),
        tuple((open_ / siemens / points.voc_v).tolist()),
        tuple((own_a / points.imp_a).tolist()),
        tuple((own_v / points.vmp_v).tolist()),
    )


def _moved_maximum(diode: Diode, points: KeyPoints) -> tuple[float, Array, Array]:
    """P_II at maximum power, and how Imp and Vmp move with a whole share of each figure. [ohm, A, V]"""
    current, n = points.imp_a, diode.ideality_v
    vd = points.vmp_v + current * diode.series_ohm
    pushed, g = _pushed_a(diode, vd, points.voc_v)
    grown = diode.saturation_a / n * float(np.exp(vd / n))  # the diode's part of g
    bend = grown / n / g**2  # g' / g^2
    fall = -(1 / g + diode.series_ohm)
    curved = 2 * fall - current * bend / g
    steeper = np.array([0.0, -points.voc_v / n * grown, 0.0, -1 / diode.shunt_ohm])  # g_p
    junction, series = pushed / g, _series_ohm(diode)
    volt, fall_p = junction - current * series, steeper / g**2 + bend * junction - series
    own_a = -(volt + current * fall_p) / curved
    return curved, own_a, volt + fall * own_a


def _pushed_a(diode: Diode, vd: float, voc_v: float) -> tuple[Array, float]:
    """IL_p - D_p at a held junction voltage, for a whole share of each figure; and g. [A, S]"""
    n = diode.ideality_v
    shift = voc_v / n * diode.saturation_a * float(np.expm1(vd / n))
    g = float(swallowed_a(diode, vd)[1])
    return np.array([diode.light_a, shift, 0.0, vd / diode.shunt_ohm]), g


def _series_ohm(diode: Diode) -> Array:
    return np.array([0.0, 0.0, diode.series_ohm, 0.0])


def own_power_w(cells: Diodes) -> Array:
    """The greatest power that each cell could give by itself. [W]"""
    return np.maximum(peak(cells).power_w, 0.0)
