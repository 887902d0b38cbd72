"""Greatest powers the usual way with general libraries: the peer of our batches.

Every cell becomes a table by pvlib's explicit law (bishop88: current and voltage at a junction voltage), read
at currents common to its panel by numpy's straight lines; a substring's bypass diode is added at its voltage,
the substrings at common currents again, and a parabola is laid through the best three points. Nothing
searches, so no hump is missed; the points are as many as one part in a million needs.
"""

from __future__ import annotations

import warnings

import numpy as np
from numpy.typing import NDArray
from scipy.special import wrightomega

import lots
from panewright.cell.diodes import Diodes
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]
POINTS = 1500


def most_power_w(cells: Diodes, substrings: int, bypass: Bypass, points: int = POINTS) -> Array:
    """The greatest power of every panel. [W]"""
    return np.array([_one_w(cells, k, substrings, bypass, points) for k in range(cells.light_a.shape[0])])


def _one_w(cells: Diodes, panel: int, substrings: int, bypass: Bypass, points: int) -> float:
    columns = [getattr(cells, name)[panel] for name in Diodes.__slots__]
    most_a = float(columns[0].max())
    share = np.sin(np.linspace(0, np.pi / 2, points))  # closer together where the curve bends
    common = most_a * 1.02 * share
    each_v = _cells_v(columns, common)
    whole = np.zeros(points)
    for part in np.split(each_v, substrings):
        volt = part.sum(axis=0) - common * lots.JOINT_OHM * len(part)
        beside = _beside_a(bypass, volt)
        whole += np.interp(common, common + beside, volt)
    return _top_w(common, common * (whole - common * lots.LEAD_OHM))


def _beside_a(bypass: Bypass, volt: Array) -> Array:
    """Current of a bypass diode with a resistance, by scipy's Wright omega. [A]"""
    i0, n, rs = bypass.saturation_a, bypass.ideality_v, bypass.series_ohm
    return np.asarray(n / rs * wrightomega(np.log(i0 * rs / n) + (i0 * rs - volt) / n).real - i0)


def _cells_v(columns: list[Array], common: Array) -> Array:
    """Voltage of every cell at currents, by straight lines between points of pvlib's law."""
    from pvlib.singlediode import bishop88

    light, i0, n, rs, rsh, g, vbr, m = (column[:, None] for column in columns)
    forward = n * np.log1p(light / i0) * np.linspace(0, 1, common.size // 2) ** 0.5
    reverse = vbr * (1 - np.geomspace(1, 1e-3, common.size // 2))
    junction = np.concatenate((reverse[:, ::-1], forward[:, 1:]), axis=1)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        factor, end, exponent = (
            g * rsh,
            np.broadcast_to(vbr, junction.shape),
            np.broadcast_to(m, junction.shape),
        )
        law = bishop88(
            junction,
            light,
            i0,
            rs,
            rsh,
            n,
            breakdown_factor=factor,
            breakdown_voltage=end,
            breakdown_exp=exponent,
        )
    current, volt = law[0], law[1]
    return np.array([np.interp(common, i[::-1], v[::-1]) for i, v in zip(current, volt, strict=True)])


def _top_w(current: Array, watts: Array) -> float:
    k = int(np.clip(np.argmax(watts), 1, current.size - 2))
    a, b, c = np.polyfit(current[k - 1 : k + 2] - current[k], watts[k - 1 : k + 2], 2)
    return float(c - b * b / (4 * a))
