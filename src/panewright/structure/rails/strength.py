"""What the metal of a rail bears: along it, in shear, both at once, and before it tips over sideways.

Stress along the rail is the largest at any fibre, anywhere, of all bounds of the pane's hold. Shear is that
of twisting at a wall's face and that of the forces across and sideways, 3/2 of their mean over the walls
that bear them, as if at one place. Both at once stand as if they met at one fibre of one place: on the safe
side.

    ASCE   s/S + (t/T)^2 <= 1       Aluminum Design Manual H (recalled), as for posts
    EN     sqrt((s/S)^2 + (t/T)^2) <= 1, for stout walls the same as sqrt(s^2 + 3 t^2) <= f0/1.10
           (EN 1999-1-1 6.2.1, recalled)

S goes by thin walls (frame/buckling/wall.py); T is 0.6 of the plain bending limit (Aluminum Design Manual G,
recalled) or 1/sqrt 3 of it (EN 1999-1-1 6.2.6, recalled). Walls are far too stout to buckle in shear: that
begins past 30 thicknesses (recalled).

Between two holds a rail may tip (frame/buckling/tipping.py). Corners and brackets are taken to keep a rail
from turning about itself; a bracket on one bolt does not wholly, but the bead, which ties the seat to the
pane all along and is not counted here, does more than that. Tubes hardly tip.
"""

from __future__ import annotations

import math

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.buckling.tipping import tipping_limit_mpa, tipping_source
from panewright.frame.buckling.wall import pressed_limit_mpa, pressed_source
from panewright.frame.metals.aluminium import bending_limit_mpa
from panewright.frame.rail import Rail
from panewright.structure.space.bounds import Bound, SideFigures
from panewright.structure.space.space_frame import Side


def strength_checks(side: Side, rail: Rail, design: SideFigures, family: Family) -> tuple[Check, ...]:
    """Stress, shear of twisting, and all at once, at the level of strength."""
    bounds = design.free, design.bead, design.held
    along, twisted = max(one.stress_mpa for one in bounds), max(one.torsion_mpa for one in bounds)
    most, shear = pressed_limit_mpa(rail, family), shear_limit_mpa(rail, family)
    deeper, thicker = (
        (f"Take a {word} rail." if most else f"Take an alloy that the {family} rules list.")
        for word in ("deeper, thicker or stronger", "thicker or stronger")
    )
    return (
        Check(f"{side} rail stress", along, most, "MPa", pressed_source(family), deeper, "frame"),
        Check(f"{side} rail shear in twist", twisted, shear, "MPa", _shear_source(family), thicker, "frame"),
        _at_once(side, rail, bounds, family),
    )


def shear_limit_mpa(rail: Rail, family: Family) -> float | None:
    """Shear stress a rail bears. [MPa]"""
    bending = bending_limit_mpa(rail.alloy, family, rail.wall_mm)
    return None if bending is None else bending * (0.6 if family == "ASCE" else 1 / math.sqrt(3))


def _shear_source(family: Family) -> str:
    if family == "ASCE":
        return "Aluminum Design Manual, 0.6 of bending"
    return "EN 1999-1-1 6.2.6, f0/(1.10 sqrt 3)"


def _at_once(side: Side, rail: Rail, bounds: tuple[Bound, ...], family: Family) -> Check:
    along, shear = pressed_limit_mpa(rail, family), shear_limit_mpa(rail, family)
    rule = f"{side} rail bent and sheared at once"
    source = "Aluminum Design Manual H, s/S + (t/T)²" if family == "ASCE" else "EN 1999-1-1 6.2.1, s² + 3 t²"
    if along is None or shear is None:
        cure = f"Take an alloy that the {family} rules list."
        return Check(rule, 1.0, None, "-", source, cure, "frame")
    used = max(
        shares(one.stress_mpa / along, (one.torsion_mpa + one.shear_mpa) / shear, family) for one in bounds
    )
    cure = "Take a rail with a thicker wall, a deeper or a closed one."
    return Check(rule, used, 1.0, "-", source, cure, "frame")


def shares(along: float, shear: float, family: Family) -> float:
    """Two shares of their limits, acting at once.

    >>> round(shares(0.6, 0.5, "ASCE"), 2), round(shares(0.6, 0.8, "EN"), 2)
    (0.85, 1.0)
    """
    return along + shear**2 if family == "ASCE" else math.hypot(along, shear)


def tipping_check(side: Side, design: SideFigures, held_mm: float, *, rail: Rail, family: Family) -> Check:
    """Stress against tipping between holds so far apart."""
    stress = max(one.stress_mpa for one in (design.free, design.bead, design.held))
    limit = tipping_limit_mpa(rail, family, held_mm)
    more = ", or more brackets" if side == "long" else ""
    cure = (
        f"Take a rail with a thicker wall{more}." if limit else f"Take an alloy that the {family} rules list."
    )
    source = f"{tipping_source(family)}, held every {held_mm:.0f} mm"
    return Check(f"{side} rail tipping over sideways", stress, limit, "MPa", source, cure, "frame")
