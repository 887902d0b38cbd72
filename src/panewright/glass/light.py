"""Light through a sheet in air: what the two surfaces throw back and the sheet swallows.

Straight on: R = ((n-1)/(n+1))^2 at each surface, exp(-K t) on each way through, all bounces summed without
interference. K is about 4 /m for water-white, 16 to 32 /m for greenish glass (textbook range, recalled).

[DB] J. Duffie, W. Beckman, Solar Engineering of Thermal Processes, chapter 5: oblique light likewise.
"""

from __future__ import annotations

from math import asin, cos, exp, radians, sin

GLASS_INDEX = 1.526
ACRYLIC_INDEX = 1.49


def surface_reflectance(index: float) -> float:
    """Share thrown back by one surface, straight on. [-]

    >>> round(surface_reflectance(1.5), 3)
    0.04
    """
    return ((index - 1) / (index + 1)) ** 2


def transmittance(thickness_mm: float, extinction_per_m: float, index: float = GLASS_INDEX) -> float:
    """Share that comes through the whole sheet, straight on. [-]

    >>> round(transmittance(3.2, 4.0), 4)
    0.9052
    """
    return _slab(surface_reflectance(index), exp(-extinction_per_m * thickness_mm / 1000))


def oblique_transmittance(
    angle_deg: float, thickness_mm: float, extinction_per_m: float, index: float = GLASS_INDEX
) -> float:
    """Share of unpolarised light that comes through at an angle from straight on, Fresnel and Snell. [-]"""
    if not 0 <= angle_deg <= 90:
        raise ValueError(f"light falls in at 0 to 90 degrees from straight on, not at {angle_deg:g}")
    if angle_deg < 1e-6:
        return transmittance(thickness_mm, extinction_per_m, index)
    outside = radians(angle_deg)
    inside = asin(sin(outside) / index)
    across = (sin(inside - outside) / sin(inside + outside)) ** 2
    ahead, back = cos(outside), cos(inside)
    along = ((index * ahead - back) / (index * ahead + back)) ** 2
    kept = exp(-extinction_per_m * thickness_mm / 1000 / back)
    return (_slab(across, kept) + _slab(along, kept)) / 2


def _slab(reflected: float, kept: float) -> float:
    """All bounces inside a sheet summed."""
    return kept * (1 - reflected) ** 2 / (1 - (reflected * kept) ** 2)
