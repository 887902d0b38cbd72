"""EN 16612: what a glass pane may be stressed to, by how it was made and how long the load lasts.

Complete with its own figures (E 70 GPa, nu 0.23); nothing of ASTM is mixed in. The pane's own strength is
cut by the load's duration; what toughening has put into it is not:

    f_gd = k_mod k_sp f_gk/gamma_MA + k_v (f_bk - f_gk)/gamma_Mv      k_mod = 0.663 (hours)^(-1/16), at most 1

Held against the largest principal stress of the plate under the factored load.

[N] EN 16612:2019: duration formula, gamma_MA 1.6, gamma_Mv 1.2, k_v 1 for glass toughened lying (recalled,
    not seen); k_e 0.8 for edges cut or ground that are pulled (recalled); deflection no more than span/65
    and 50 mm (9.1.4, seen in a summary).
[P] EN 572-1, EN 1863-1, EN 12150-1: characteristic strengths (seen in a float glass property sheet).
"""

from __future__ import annotations

from panewright.glass.pane import Surface, Treatment
from panewright.glass.plate.bending import Elastic

GLASS = Elastic(70e9, 0.23)
ANNEALED_MPA = 45.0  #: f_gk, [P]
GAMMA_ANNEALED, GAMMA_TOUGHENED = 1.6, 1.2
EDGE_SHARE = 0.8  #: k_e
SPAN_SHARE, MOST_MM = 65, 50.0
_SURFACE_MPA = {"plain": 45.0, "patterned": 33.0}  # k_sp f_gk, [P]
_STRENGTH_MPA = {  # f_bk, [P]
    ("annealed", "plain"): 45.0,
    ("heat-strengthened", "plain"): 70.0,
    ("tempered", "plain"): 120.0,
    ("annealed", "patterned"): 45.0,  # its weaker surface is counted above
    ("heat-strengthened", "patterned"): 55.0,
    ("tempered", "patterned"): 90.0,
}


def k_mod(duration_s: float) -> float:
    """Duration factor on annealed strength. [-]

    >>> round(k_mod(5.0), 3), round(k_mod(21 * 86400.0), 4)
    (1.0, 0.4494)
    """
    return float(min(1.0, 0.663 * (duration_s / 3600) ** (-1 / 16)))


def strength_mpa(treatment: Treatment, duration_s: float, surface: Surface = "plain") -> float | None:
    """Design strength f_gd; None for a treatment the standard does not list. [MPa]

    >>> round(strength_mpa("tempered", 5.0), 3)
    90.625
    """
    return _strength_mpa(treatment, duration_s, surface, GAMMA_ANNEALED, GAMMA_TOUGHENED)


def own_part_mpa(duration_s: float, surface: Surface = "plain") -> float:
    """What of f_gd is the untoughened glass's own. [MPa]

    >>> round(own_part_mpa(5.0), 3)
    28.125
    """
    return k_mod(duration_s) * _SURFACE_MPA[surface] / GAMMA_ANNEALED


def characteristic_mpa(treatment: Treatment, duration_s: float, surface: Surface = "plain") -> float | None:
    """Strength without partial factors, its annealed part cut for the duration; None if not listed. [MPa]

    >>> round(characteristic_mpa("tempered", 3600.0), 3)
    104.835
    """
    return _strength_mpa(treatment, duration_s, surface, 1.0, 1.0)


def edge_strength_mpa(treatment: Treatment, duration_s: float, surface: Surface = "plain") -> float | None:
    """Design strength of an edge that is pulled: its own part times k_e. [MPa]

    >>> round(edge_strength_mpa("tempered", 5.0), 1)
    85.0
    """
    return _strength_mpa(treatment, duration_s, surface, GAMMA_ANNEALED / EDGE_SHARE, GAMMA_TOUGHENED)


def _strength_mpa(
    treatment: Treatment, duration_s: float, surface: Surface, own_factor: float, toughened_factor: float
) -> float | None:
    characteristic = _STRENGTH_MPA.get((treatment, surface))
    if characteristic is None:
        return None
    own = k_mod(duration_s) * _SURFACE_MPA[surface] / own_factor
    return own + (characteristic - ANNEALED_MPA) / toughened_factor


def deflection_limit_mm(span_mm: float) -> float:
    """Most a pane may give way; the span of a four-edge-held pane is its short side. [mm]"""
    return min(span_mm / SPAN_SHARE, MOST_MM)
