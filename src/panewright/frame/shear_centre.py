"""Where a force across a rail bends it without twist.

Thin walls. An angle's two walls each bear shear along themselves, so it can only act where their middle lines
cross. In a channel the flanges' shear turns about the web: the centre lies outside of it by
e = b2 h2 t / (4 Ix), with b and h between the walls' middle lines [R]. A tube's lies in its middle.

[R] W. Young, R. Budynas, Roark's Formulas for Stress and Strain, table 9.2 (recalled).
"""

from __future__ import annotations

from panewright.frame.rail import Rail


def shear_centre_mm(rail: Rail) -> tuple[float, float]:
    """From the heel: along the seat, along the upright. [mm]

    >>> shear_centre_mm(Rail("angle", "angle", 40, 40, 3, "6063-T6", 6000))
    (1.5, 1.5)
    """
    b, h, t = rail.seat_mm, rail.upright_mm, rail.wall_mm
    if rail.profile == "tube":
        return b / 2, h / 2
    if rail.profile == "angle":
        return t / 2, t / 2
    wide, high = b - t / 2, h - t
    across = t * high**3 / 12 + wide * t * high**2 / 2
    return t / 2 - wide**2 * high**2 * t / (4 * across), h / 2
