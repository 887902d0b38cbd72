"""What damp and heat do to a plastic sheet: it grows, and where one face grows more than the other it bows.

    strain   swelling by damp from a table, heat by expansion
    bow      curvature k = difference of strain over the thickness; a sheet that rests free rises by k L^2/8
    held     four edges kept flat by the bead but free to turn: laplace(w) = -(1 + nu) k, the same equation as
             Prandtl's membrane; the middle rises by (1 + nu) k b^2 c, the long edge turns by (1 + nu) k b s

Damp: the sunny face at the yearly mean of outdoor air, 80 %, the other as dry as at the bench, 50 %. Heat:
the cells warm the inner face, and half of what the sun leaves in them crosses the sheet. The two bow it
opposite ways, and the sun dries what it warms: they are never added. A sheet takes weeks to follow the damp.

Curvature by damp goes with 1/thickness, that by heat does not depend on it: so thin acrylic warps.

[S] acrylic grows from dry by 0.2, 0.3, 0.6 % at 60, 80, 100 % (supplier's page, seen); polycarbonate takes up
    about a fifth of its water (recalled). [K] conductivity 0.19 and 0.21 W/mK (sheet data, seen).
[TW] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, article 24: plates heated
    on one face. 80 %, 50 % and 400 W/m2: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.glass.pane import Pane, Sheet
from panewright.glass.plastic import PlasticName, plastic
from panewright.units import MM

WET_PERCENT, BENCH_PERCENT = 80.0, 50.0  #: relative humidity of the sunny face outdoors, and at the bench
THROUGH_W_M2 = 400.0  #: heat that crosses the sheet in full sun
_HUMIDITY = (0.0, 60.0, 80.0, 100.0)
_GROWN = (0.0, 0.002, 0.003, 0.006)  # [S]
_DAMP_SHARE = {"acrylic": 1.0, "polycarbonate": 0.2}
_CONDUCTS_W_MK = {"acrylic": 0.19, "polycarbonate": 0.21}  # [K]
_ODD = np.arange(1, 40, 2)


@dataclass(frozen=True, slots=True)
class Warp:
    """How a sheet bows by one cause."""

    curvature_per_m: float
    free_mm: float  #: resting free, over its long side
    held_mm: float  #: edges kept flat by the bead
    edge_turn: float  #: of the long edge then, at its middle [rad]


def swelling(material: PlasticName, humidity_percent: float) -> float:
    """Growth in length from dry. [-]  [S]

    >>> swelling("acrylic", 80.0), swelling("acrylic", 50.0)
    (0.003, 0.0016666666666666668)
    """
    if not 0 <= humidity_percent <= 100:
        raise ValueError(f"relative humidity lies between 0 and 100 %, not at {humidity_percent:g}")
    return float(np.interp(humidity_percent, _HUMIDITY, _GROWN)) * _DAMP_SHARE[material]


def damp_growth(material: PlasticName) -> float:
    """Growth from the bench to outdoors. [-]"""
    return swelling(material, WET_PERCENT) - swelling(material, BENCH_PERCENT)


def one_face_damp(pane: Pane) -> Warp:
    """The sunny face outdoors, the other as dry as at the bench."""
    return _warped(pane, damp_growth(_name(pane.sheet)) / (pane.sheet.thickness_mm * MM))


def one_face_warm(pane: Pane) -> Warp:
    """Full sun: heat of the cells crosses the sheet."""
    return _warped(pane, pane.sheet.expansion_per_k * THROUGH_W_M2 / _CONDUCTS_W_MK[_name(pane.sheet)])


def _name(sheet: Sheet) -> PlasticName:
    if sheet.material == "glass":
        raise ValueError("glass neither swells nor bows by damp")
    return sheet.material


def _warped(pane: Pane, curvature_per_m: float) -> Warp:
    long_m, short_m = pane.long_mm * MM, pane.short_mm * MM
    middle, edge = held_flat(pane.long_mm / pane.short_mm)
    kept = (1 + plastic(_name(pane.sheet), pane.sheet.name).poisson) * curvature_per_m
    return Warp(
        curvature_per_m,
        curvature_per_m * long_m**2 / 8 / MM,
        kept * short_m**2 * middle / MM,
        kept * short_m * edge,
    )


def held_flat(aspect: float) -> tuple[float, float]:
    """c and s of the module's words: rise at the middle and turn of the long edge. [-]

    >>> [round(each, 4) for each in held_flat(1.0)]
    [0.0737, 0.3377]
    """
    if aspect < 1:
        raise ValueError(f"the aspect is the long side over the short side, at least 1, not {aspect:g}")
    fading = 1 / np.cosh(np.minimum(_ODD * np.pi * aspect / 2, 300.0))
    sign = 1.0 - 2.0 * ((_ODD // 2) % 2)
    middle = 1 / 8 - 4 / np.pi**3 * float((sign * fading / _ODD**3).sum())
    return middle, 1 / 2 - 4 / np.pi**2 * float((fading / _ODD**2).sum())
