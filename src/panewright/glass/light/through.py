"""Light through a sheet in air: what the two surfaces throw back and the sheet swallows.

Straight on: R = ((n-1)/(n+1))^2 at each surface, exp(-K t) on each way through, all bounces summed without
interference. K is about 4 /m for water-white, 16 to 32 /m for greenish glass (textbook range, recalled).

[DB] J. Duffie, W. Beckman, Solar Engineering of Thermal Processes, chapter 5: oblique light likewise.
"""

from __future__ import annotations

from math import asin, cos, exp, radians, sin, sqrt

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
    (across, _), (along, _) = faces_at(angle_deg, index)
    kept = exp(-extinction_per_m * thickness_mm / 1000 * way_through(angle_deg, index))
    return (_slab(across, kept) + _slab(along, kept)) / 2


def way_through(angle_deg: float, index: float) -> float:
    """Way through a sheet over its thickness, by Snell. [-]"""
    return 1 / sqrt(1 - (sin(radians(angle_deg)) / index) ** 2)


def faces_at(
    angle_deg: float, index: float, behind_index: float = 1.0
) -> tuple[tuple[float, float], tuple[float, float]]:
    """What the outer and the inner face throw back at an angle, of light across and along the plane. [-]

    Fresnel and Snell; at 56.8 degrees glass throws back nothing of the light along:

    >>> [round(share, 3) for share in faces_at(56.76, 1.526)[1]]
    [0.0, 0.0]
    """
    if not 0 <= angle_deg <= 90:
        raise ValueError(f"light falls in at 0 to 90 degrees from straight on, not at {angle_deg:g}")
    air = radians(angle_deg)
    inside, behind = asin(sin(air) / index), asin(sin(air) / behind_index)
    outer = _fresnel(1.0, cos(air), index, cos(inside))
    inner = _fresnel(index, cos(inside), behind_index, max(cos(behind), 0.0))
    return (outer[0], inner[0]), (outer[1], inner[1])


def _fresnel(first: float, before: float, second: float, after: float) -> tuple[float, float]:
    """Across and along: both indices, and the cosines of the light's way on both sides."""
    across = (first * before - second * after) / (first * before + second * after)
    along = (second * before - first * after) / (second * before + first * after)
    return across**2, along**2


def _slab(reflected: float, kept: float) -> float:
    """All bounces inside a sheet summed."""
    return kept * (1 - reflected) ** 2 / (1 - (reflected * kept) ** 2)
