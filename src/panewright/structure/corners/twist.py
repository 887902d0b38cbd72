"""The pane twisted: a panel lifted off the bench by one corner hangs on that one and the opposite, W/2 on
each.

That is four even corners, W/4 each, and a couple of W/4 up on two corners and down on the other two. The
couple bends the pane to w = k x y; the corners of such a plate bear 2 Mxy, so Mxy = W/8 everywhere and

    s = 6 (W/8) / t^2 = 0.75 W / t^2          as much pull as pressure, at 45 degrees [T]

A pane that twists far also stretches along its edges, and the couple gathers there. Shells with large
displacements (CalculiX, tests/oracle) show up to 1.54 times the line above, up to W b^2/(E t^4) of 400:
1.6 is taken, and past that nothing is claimed. The four even corners let the pane bow between its rails
as its own weight does: no more than 0.75 q b^2 / t^2, an endless pane [R]. The rails resist the twist a
little; that is not counted.

[T] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, section 11: twist by
    four corner forces (recalled); the strip derived.
[R] Roark's Formulas for Stress and Strain, table 11.4, 1a (read).
[A] ASTM E1300, 3 s stress at edges: 16.6, 36.5 and 73.0 MPa (recalled).
"""

from __future__ import annotations

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.pane import Pane
from panewright.glass.strength import en16612
from panewright.structure.corners.force import carried_n

EDGE_MPA = {"annealed": 16.6, "heat-strengthened": 36.5, "tempered": 73.0}  #: [A]
STRETCHED = 1.6  #: largest stress of a far twisted pane over that of the straight theory
FARTHEST = 400.0  #: W b^2/(E t^4), up to where that was reckoned
_ENDLESS = 0.75  # [R]
_CARRIED_S = 60.0  # a lift lasts as long; common practice


def twist_mpa(pane: Pane, weight_n: float) -> float:
    """Stress of a pane that hangs on two opposite corners. [MPa]

    >>> from panewright.glass.pane import Sheet
    >>> sheet = Sheet("4", "glass", "tempered", "plain", 4, 4, 2500, 9e-6, 0.9)
    >>> round(twist_mpa(Pane(1600, 1000, sheet), 160.0), 2)
    16.69
    """
    thick = pane.sheet.thickness_mm
    bowed = _ENDLESS * weight_n / (pane.long_mm * pane.short_mm) * (pane.short_mm / thick) ** 2
    return STRETCHED * 0.75 * weight_n / thick**2 + bowed


def judge_twist(pane: Pane, mass_kg: float, family: Family) -> Check:
    """The pane of a panel lifted by one corner; plastics and panes bent too far are not covered."""
    weight = carried_n(mass_kg, family)
    source = "ASTM E1300, 3 s at edges" if family == "ASCE" else "EN 16612, a minute"
    return Check(
        "pane twisted by lifting one corner",
        twist_mpa(pane, weight),
        _limit_mpa(pane, weight, family),
        "MPa",
        f"plate theory, weight twice; {source}",
        "Take a thicker or tempered pane; lift the panel by both long rails, with two.",
        "glass",
    )


def _far(pane: Pane, weight_n: float) -> float:
    """W b^2/(E t^4). [-]"""
    return weight_n * pane.short_mm**2 / (en16612.GLASS.young_pa * 1e-6 * pane.sheet.thickness_mm**4)


def _limit_mpa(pane: Pane, weight_n: float, family: Family) -> float | None:
    sheet = pane.sheet
    if sheet.material != "glass" or _far(pane, weight_n) > FARTHEST:
        return None
    if family == "ASCE":
        return EDGE_MPA.get(sheet.treatment)
    return en16612.strength_mpa(sheet.treatment, _CARRIED_S, sheet.surface)
