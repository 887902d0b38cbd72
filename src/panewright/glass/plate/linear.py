"""The thin plate under small loads, and what its edges push back with.

Simply supported rectangle under an even pressure, deflection well under the thickness: Levy's single
series, taken along the side that is asked about. The edge pushes back most at the middle of the long side
and nothing at the corners, where instead a corner force holds the pane down. Large deflection shifts the
reaction far towards the corners: `reaction` has it.

[TW] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, articles 29-31, table
    8.
[R] Roark's Formulas for Stress and Strain, table 11.4 case 1a.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from panewright.glass.plate.basis import Array
from panewright.units import MM

Side = Literal["long", "short"]
_ODD = np.arange(1, 4001, 2)  # the reaction converges as 1/m^2: 4000 gives seven digits at the middle
_SIGN = 1.0 - 2.0 * ((_ODD // 2) % 2)


@dataclass(frozen=True, slots=True)
class LinearPlate:
    """w = alpha q b^4/D, moments = beta q b^2: across the short span, and beta_long along the long one."""

    alpha: float
    beta: float
    beta_long: float

    def deflection(self, poisson: float) -> float:
        """w E t^3/(q b^4). [-]"""
        return 12 * (1 - poisson**2) * self.alpha

    @property
    def stress(self) -> float:
        """Largest stress times t^2/(q b^2). [-]"""
        return 6 * self.beta


def linear_plate(aspect: float, poisson: float) -> LinearPlate:
    """Coefficients at the middle for the long side over the short one. [-]

    >>> round(linear_plate(2.0, 0.3).alpha, 5)
    0.01013
    """
    if aspect < 1:
        raise ValueError(f"the aspect is the long side over the short side, at least 1, not {aspect:g}")
    k = _ODD * np.pi / aspect  # b = 1, series along the long side
    half, tanh, cosh = k / 2, np.tanh(k / 2), np.cosh(np.minimum(k / 2, 300.0))
    amplitude = 4 * _SIGN / (aspect * k**5)
    shape = 1 - (2 + half * tanh) / (2 * cosh)
    bow = -(k**2) * half * tanh / (2 * cosh)  # second derivative across the short span
    along, across = float(amplitude @ (k**2 * shape)), float(-amplitude @ bow)
    return LinearPlate(float(amplitude @ shape), across + poisson * along, along + poisson * across)


def edge_reaction(aspect: float, side: Side, position: Array | float, poisson: float = 0.22) -> Array:
    """Push of an edge over q b; position from -1 to 1 along it, 0 its middle. [-]

    >>> round(float(edge_reaction(1.0, "long", 0.0, 0.3)), 2)
    0.42
    """
    along, across = (aspect, 1.0) if side == "long" else (1.0, aspect)
    k = _ODD * np.pi / along
    angle = np.multiply.outer(np.asarray(position, dtype=np.float64), _ODD * np.pi / 2)
    shape = _SIGN * 2 / (along * k**2) * _push(k * across / 2, poisson)
    return np.asarray(np.cos(angle) @ shape, dtype=np.float64)


def _push(half: Array, poisson: float) -> Array:
    """Third derivative with its twisting part, at the edge."""
    tanh = np.tanh(half)
    turn = tanh + half * tanh**2 - half
    return np.asarray(tanh + half - half * tanh**2 + (2 - poisson) * turn)


def side_reaction(aspect: float, side: Side, poisson: float = 0.22) -> float:
    """Whole push of one edge over q b^2. [-]"""
    along, across = (aspect, 1.0) if side == "long" else (1.0, aspect)
    k = _ODD * np.pi / along
    return float((4 / (along * k**3)) @ _push(k * across / 2, poisson))


def corner_force(aspect: float, poisson: float = 0.22) -> float:
    """Force that holds each corner down, over q b^2. [-]"""
    k = _ODD * np.pi / aspect
    half = k / 2
    tanh = np.tanh(half)
    return float((4 * (1 - poisson) / (aspect * k**3)) @ (tanh + half * tanh**2 - half))


def edge_reaction_n_per_m(
    long_mm: float, short_mm: float, pressure_pa: float, side: Side, position: Array | float
) -> Array:
    """Push of an edge on its rail; position from -1 to 1 along it. [N/m]"""
    return edge_reaction(long_mm / short_mm, side, position) * pressure_pa * short_mm * MM


def side_reaction_n(long_mm: float, short_mm: float, pressure_pa: float, side: Side) -> float:
    """Whole push of one edge, corner forces not counted. [N]

    >>> push = 2 * (side_reaction_n(1600, 1000, 1000, "long") + side_reaction_n(1600, 1000, 1000, "short"))
    >>> round(push - 4 * corner_force_n(1600, 1000, 1000), 3)  # equals pressure times area
    1600.0
    """
    return side_reaction(long_mm / short_mm, side) * pressure_pa * (short_mm * MM) ** 2


def corner_force_n(long_mm: float, short_mm: float, pressure_pa: float) -> float:
    """Force that holds each corner down. [N]"""
    return corner_force(long_mm / short_mm) * pressure_pa * (short_mm * MM) ** 2
