"""Single diodes against pvlib: Lambert's W for the ends, the power and points between, Newton for the place.

pvlib looks for the greatest power by golden section, which finds the power to the last digits but its
place only to their square root; voltage and current there are therefore held against Bishop's way.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from pvlib import pvsystem, singlediode

from campaigns.found import Found, Worst
from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints, key_points

Array = NDArray[np.float64]
_ALLOWED = dict.fromkeys(("Isc", "Voc", "Pmp", "Imp", "Vmp", "current at any voltage"), 1e-8)


def any_diodes(count: int, seed: int) -> list[Diode]:
    """Cells in any light and heat, from perfect to poor."""
    chance = np.random.default_rng(seed)
    light = 10 ** chance.uniform(-2, 1.2, count)
    ideality = chance.uniform(0.6, 2.2, count) * 0.0257 * chance.uniform(0.8, 1.25, count)
    open_v = chance.uniform(0.35, 0.78, count) * np.clip(ideality / 0.0257, 1, None)
    saturation = light / np.expm1(open_v / ideality)
    series = chance.uniform(0, 0.2, count) * open_v / light
    shunt = open_v / light * 10 ** chance.uniform(0.5, 5, count)
    rows = zip(light, saturation, ideality, series, shunt, strict=True)
    return [Diode(*map(float, row)) for row in rows]


def campaign(count: int, seed: int) -> Found:
    """Key points and one point between of every cell, beside pvlib."""
    diodes = any_diodes(count, seed)
    ours = [key_points(diode) for diode in diodes]
    worst = Worst(_ALLOWED)
    for figure, got, asked in _figures(ours, diodes, seed):
        apart = np.abs(got / asked - 1)
        k = int(np.nanargmax(np.where(np.isnan(apart), np.inf, apart)))
        worst.see(figure, float(apart[k]), _words(diodes[k]))
    return Found("single diodes", "pvlib, Lambert's W and Bishop's way", count, {}, worst.deviations())


def _figures(ours: list[KeyPoints], diodes: list[Diode], seed: int) -> list[tuple[str, Array, Array]]:
    """Name, our figures, pvlib's."""
    il, i0, rs, rsh, nv = columns(diodes)
    by_w = pvsystem.singlediode(il, i0, rs, rsh, nv, method="lambertw")
    at_i, at_v, _ = singlediode.bishop88_mpp(il, i0, rs, rsh, nv, method="newton")
    volt = np.random.default_rng(seed + 1).uniform(0, 1, il.size) * by_w["v_oc"]
    middle = np.array([current_a(d, float(v)) for d, v in zip(diodes, volt, strict=True)])
    between = pvsystem.i_from_v(volt, il, i0, rs, rsh, nv, method="lambertw")
    return [
        ("Isc", _all(ours, "isc_a"), np.asarray(by_w["i_sc"])),
        ("Voc", _all(ours, "voc_v"), np.asarray(by_w["v_oc"])),
        ("Pmp", _all(ours, "power_w"), np.asarray(by_w["p_mp"])),
        ("Imp", _all(ours, "imp_a"), np.asarray(at_i)),
        ("Vmp", _all(ours, "vmp_v"), np.asarray(at_v)),
        ("current at any voltage", 1 + (middle - between) / il, np.ones_like(il)),
    ]


def columns(diodes: list[Diode]) -> tuple[Array, Array, Array, Array, Array]:
    """IL, I0, Rs, Rsh, nVth of all cells."""
    names = ("light_a", "saturation_a", "series_ohm", "shunt_ohm", "ideality_v")
    il, i0, rs, rsh, nv = (np.array([getattr(diode, name) for diode in diodes]) for name in names)
    return il, i0, rs, rsh, nv


def _words(diode: Diode) -> str:
    return (
        f"IL {diode.light_a:.3g} A, I0 {diode.saturation_a:.3g} A, nVth {diode.ideality_v:.3g} V,"
        f" Rs {diode.series_ohm:.3g} ohm, Rsh {diode.shunt_ohm:.3g} ohm"
    )


def _all(points: list[KeyPoints], name: str) -> Array:
    return np.array([getattr(point, name) for point in points])
