"""How bubbles leave a pour: by rising, or faster in a vacuum.

A small bubble rises as Stokes says of a small sphere:

    v = (density) g d^2 / (18 viscosity)        true while v d density / viscosity is far under 1       [S]

A clean bubble whose face slides rises half as fast again [H]; that is not counted on. The viscosity doubles
over the pot life, so bubbles rise in it only as far as in 0.72 of that time at the first viscosity: the mean
of 2^-s for s from 0 to 1. In a vacuum a bubble
swells by the ratio of pressures and rises by the power of 2/3 of that; the whole mix foams up, so the vessel
must be larger than the mix by as much.

[S] G. G. Stokes, Trans. Camb. Phil. Soc. 9, 1851 (recalled). [H] Hadamard and Rybczynski, 1911 (recalled).
[M] A maker's guide for moulding silicones: 27 to 29 inches of mercury, a vessel three to five times the
    mix, no more than five minutes (seen). One part of air in ten after stirring by hand: common practice,
    no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.units import GRAVITY_M_S2, MM

SEEN_MM = 0.1  #: the smallest bubble that an eye finds in a clear layer; common practice
IN_CUP_MM = 0.5  #: bubbles that stirring leaves; they should be gone before pouring; common practice
STIRRED_AIR = 0.1  #: of the mix
FLOWING = (1 - 0.5) / math.log(2)  #: of the pot life, as if the mix stayed as thin as at first
AIR_PA = 101325.0
VACUUM_PA = 8000.0  #: about 27.5 inches of mercury below the air [M]
_SOURCE = "Stokes' law against the pot life; 0.1 mm is what an eye finds: common practice"


@dataclass(frozen=True, slots=True)
class Liquid:
    """What a bubble rises in."""

    density_kg_m3: float
    viscosity_pa_s: float


@dataclass(frozen=True, slots=True)
class Degassing:
    """What the clock allows."""

    smallest_mm: float  #: bubble that still leaves the pour within the pot life
    cup_rest_min: float  #: for bubbles of half a millimetre to leave the cup
    foam_times: float  #: how much the mix swells in the vacuum
    vacuum_rest_min: float  #: for the same bubbles, in the vacuum
    checks: tuple[Check, ...]


def rise_mm_s(bubble_mm: float, liquid: Liquid) -> float:
    """How fast a bubble of that diameter rises. [mm/s]  [S]

    >>> round(rise_mm_s(0.5, Liquid(1030.0, 1.5)), 4)
    0.0935
    """
    metres = liquid.density_kg_m3 * GRAVITY_M_S2 * (bubble_mm * MM) ** 2 / (18 * liquid.viscosity_pa_s)
    return metres / MM


def reynolds(bubble_mm: float, liquid: Liquid) -> float:
    """Inertia over stickiness: Stokes' law holds far below 1. [-]"""
    speed = rise_mm_s(bubble_mm, liquid) * MM
    return liquid.density_kg_m3 * speed * bubble_mm * MM / liquid.viscosity_pa_s


def smallest_mm(depth_mm: float, minutes: float, liquid: Liquid) -> float:
    """Least bubble that rises through a depth in the time. [mm]  [S]"""
    speed = depth_mm * MM / (60 * minutes)
    return math.sqrt(18 * liquid.viscosity_pa_s * speed / (liquid.density_kg_m3 * GRAVITY_M_S2)) / MM


def rest_min(depth_mm: float, bubble_mm: float, liquid: Liquid) -> float:
    """Time for a bubble to rise through a depth. [min]"""
    return depth_mm / rise_mm_s(bubble_mm, liquid) / 60


def foam_times(vacuum_pa: float, air: float = STIRRED_AIR) -> float:
    """Volume of the mix in a vacuum over its volume without air; Boyle. [-]

    >>> round(foam_times(8000.0), 1)
    2.4
    """
    if not 0 < vacuum_pa <= AIR_PA:
        raise ValueError(f"a vacuum lies between nothing and the air's pressure, got {vacuum_pa:g} Pa")
    return 1 + air / (1 - air) * AIR_PA / vacuum_pa


def cup_mm(batch_ml: float) -> float:
    """Depth of a batch in a cup as wide as it is high. [mm]

    >>> round(cup_mm(1000.0))
    108
    """
    return 10 * math.cbrt(4 * batch_ml / math.pi)


def degassing(depth_mm: float, batch_ml: float, pot_life_min: float, liquid: Liquid) -> Degassing:
    """Bubbles in a pour of that depth, and in the cup of a batch."""
    high_mm = cup_mm(batch_ml)
    least_mm = smallest_mm(depth_mm, FLOWING * pot_life_min, liquid)
    swollen_mm = IN_CUP_MM * (AIR_PA / VACUUM_PA) ** (1 / 3)
    times = foam_times(VACUUM_PA)
    return Degassing(
        smallest_mm=least_mm,
        cup_rest_min=rest_min(high_mm, IN_CUP_MM, liquid),
        foam_times=times,
        vacuum_rest_min=rest_min(high_mm * times, swollen_mm, liquid),
        checks=(_visible(least_mm), _stokes(liquid)),
    )


def _visible(least_mm: float) -> Check:
    return Check(
        rule="bubbles one can see leave before the pour stiffens",
        demand=least_mm,
        limit=SEEN_MM,
        unit="mm",
        source=_SOURCE,
        cure="Take a thinner or slower silicone, pour less deep, or free it of air in a vacuum.",
        room="enclosure",
    )


def _stokes(liquid: Liquid) -> Check:
    return Check(
        rule="bubbles slow enough for Stokes' law",
        demand=reynolds(IN_CUP_MM, liquid),
        limit=0.1,
        unit="-",
        source="Reynolds number far under 1; 0.1 as courses on viscosity take it (seen)",
        cure="Rest times of so thin a liquid cannot be told this way: try them.",
        room="enclosure",
    )
