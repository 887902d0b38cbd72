"""Two plies of glass and what binds them, as one pane of a thickness that does the same.

Plies that pass on a share s of the shear, from 0 (two panes on each other) to 1 (one pane):

    h_w^3 = h1^3 + h2^3 + 12 s (h1 d1^2 + h2 d2^2)        for deflection
    h_ef,j = sqrt(h_w^3 / (h_j + 2 s d_j))                for the stress of ply j

with d1 = d h2/(h1 + h2), d2 = d h1/(h1 + h2) from each ply's middle to the middle of both, and d the distance
between the middles of the plies. ASTM counts the interlayer into d and finds s from its shear modulus G
(Woelfel); EN 16612 leaves it out and gives s as omega:

    ASTM  s = 1 / (1 + 9.6 E Is hv/(G d^2 a^2)),  Is = h1 hs2^2 + h2 hs1^2,  d = (h1 + h2)/2 + hv

Effective thickness comes from the sandwich beam of span a, the pane's short side: on a pane held on four
sides it is a recognised approximation, no exact theory. Loads of unlike length act together as on a pane that
bends little: what each does alone, in proportion to its pressure, adds up.

[E] ASTM E1300-09a appendix X11, -16 appendix X9 (formulas and two calculation sheets after them seen).
[N] EN 16612 annex D (recalled); J. Woelfel, Stahlbau 56 (1987) 257.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt

from panewright.glass.interlayer import WARM_C, omega, shear_modulus_pa
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Plies
from panewright.glass.strength import e1300


@dataclass(frozen=True, slots=True)
class Effective:
    """The thicknesses of one pane that would bend, and be stressed, as two plies are."""

    deflection_mm: float
    outer_mm: float  #: for the stress of the outer ply
    inner_mm: float  #: for the stress of the inner ply

    @property
    def stress_mm(self) -> float:
        """For the ply that is stressed harder. [mm]"""
        return min(self.outer_mm, self.inner_mm)


def effective(plies: Plies, share: float, between_mm: float) -> Effective:
    """Effective thicknesses where a share of the shear is passed on over so much interlayer. [mm]

    >>> apart = effective(Plies(4.0, 4.0, 0.76, "pvb"), 0.0, 0.0)
    >>> round(apart.deflection_mm, 3), round(apart.stress_mm, 3)
    (5.04, 5.657)
    >>> round(effective(Plies(4.0, 4.0, 0.76, "pvb"), 1.0, 0.0).deflection_mm, 3)
    8.0
    """
    if not 0 <= share <= 1:
        raise ValueError(f"plies pass on a share of shear from 0 to 1, not {share:g}")
    h1, h2 = plies.outer_mm, plies.inner_mm
    d1, d2 = _arms_mm(plies, between_mm)
    cubed = h1**3 + h2**3 + 12 * share * (h1 * d1**2 + h2 * d2**2)
    stressed = (sqrt(cubed / (h + 2 * share * d)) for h, d in ((h1, d1), (h2, d2)))
    return Effective(float(cubed ** (1 / 3)), *stressed)


def _arms_mm(plies: Plies, between_mm: float) -> tuple[float, float]:
    """From the middle of each ply to the middle of both, weighed by thickness. [mm]"""
    h1, h2 = plies.outer_mm, plies.inner_mm
    apart = (h1 + h2) / 2 + between_mm
    return apart * h2 / (h1 + h2), apart * h1 / (h1 + h2)


def shear_share(plies: Plies, span_mm: float, modulus_pa: float) -> float:
    """ASTM's shear transfer coefficient of a span; 0 where no modulus is known. [-]  [E] X11.1 to X11.5.

    >>> round(shear_share(Plies(15.0, 15.0, 1.52, "ionoplast"), 1950.0, 26.4e6), 2)
    0.93
    """
    if modulus_pa <= 0:
        return 0.0
    (d1, d2), between = _arms_mm(plies, plies.between_mm), plies.between_mm
    second = plies.outer_mm * d1**2 + plies.inner_mm * d2**2  # Is [mm3]
    soft = 9.6 * e1300.GLASS.young_pa * second * between / (modulus_pa * (d1 + d2) ** 2 * span_mm**2)
    return 1 / (1 + soft)


def astm(plies: Plies, short_mm: float, load: PaneLoad) -> Effective:
    """Effective thicknesses by ASTM E1300 under one load."""
    return _together(load, lambda part: _astm_one(plies, short_mm, part))


def en(plies: Plies, load: PaneLoad) -> Effective:
    """Effective thicknesses by EN 16612 under one load."""
    return _together(load, lambda part: effective(plies, omega(plies.interlayer, part.kind), 0.0))


def _astm_one(plies: Plies, short_mm: float, part: PaneLoad) -> Effective:
    modulus = shear_modulus_pa(plies.interlayer, WARM_C[part.kind], part.duration_s)
    return effective(plies, shear_share(plies, short_mm, modulus), plies.between_mm)


def _together(load: PaneLoad, one: Callable[[PaneLoad], Effective]) -> Effective:
    """The pane that bends and is stressed as the parts of a load together make it."""
    parts = [part for part in load.parts or (load,) if part.pressure_pa > 0] or [load]
    if len(parts) == 1:
        return one(parts[0])
    whole = sum(part.pressure_pa for part in parts)
    each = [(part.pressure_pa / whole, one(part)) for part in parts]
    return Effective(
        sum(share / of.deflection_mm**3 for share, of in each) ** (-1 / 3),
        sum(share / of.outer_mm**2 for share, of in each) ** -0.5,
        sum(share / of.inner_mm**2 for share, of in each) ** -0.5,
    )


def resistance_pa(pane: Pane, plies: Plies, load: PaneLoad) -> float | None:
    """ASTM E1300: size of a load, its parts in proportion, that the weaker ply just bears. [Pa]

    Every part counts by the share it uses of its own resistance: with the effective thickness and the type
    factor of its own duration. None for glass whose treatment the practice does not list.
    """
    use = 0.0
    for part in load.parts or (load,):
        factor = e1300.type_factor(pane.sheet.treatment, part.duration_s)
        if factor is None:
            return None
        thick = _astm_one(plies, pane.short_mm, part).stress_mm
        use += part.pressure_pa / (e1300.non_factored_load_pa(pane.long_mm, pane.short_mm, thick) * factor)
    return load.pressure_pa / use if use > 0 else None
