"""Threads: the area a bolt or screw tears at, metric and unified.

The area is that of a circle of the mean of pitch and minor diameter:

    At = pi/4 (d - 0.9382 p)^2      metric [I]
    At = pi/4 (D - 0.9743/n)^2      unified, inches and threads to the inch [U]

[I] ISO 898-1 (read on fastener makers' pages). [U] a fastener distributor's table and formula (read).
"""

from __future__ import annotations

import math

from panewright.units import INCH_MM


def metric_area_mm2(diameter_mm: float, pitch_mm: float) -> float:
    """Tensile stress area of a metric thread. [mm2]  [I]

    >>> round(metric_area_mm2(6, 1), 1)
    20.1
    """
    return math.pi / 4 * (diameter_mm - 0.9382 * pitch_mm) ** 2


def unified_area_mm2(diameter_in: float, threads_per_inch: float) -> float:
    """Tensile stress area of a unified thread. [mm2]  [U]

    >>> round(unified_area_mm2(0.25, 20), 1)
    20.5
    """
    inches = math.pi / 4 * (diameter_in - 0.9743 / threads_per_inch) ** 2
    return inches * INCH_MM**2
