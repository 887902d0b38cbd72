"""A bracket's foot pressed on timber, across its grain.

The pane's load comes down in the bracket's upright leg, at the heel. The foot spreads it as far as its wall
bends without harm under the timber's own strength: a cantilever, f c^2 / 2 = F t^2 / 6,

    c = t sqrt(F / 3 f),   area = (t + c) times the bracket's length;   c no more than the foot reaches

F bending limit of the bracket's metal, f what the timber bears. What tilts the bracket presses too: the
fastener's pull comes back under the foot. Statics; the spread as of a column's foot in EN 1993-1-8 6.2.5
(recalled), elastic here.

[N] NDS 2018 3.10 (read in a summary): Fc across the grain, no C_D, C_M 0.67; C_b 1.0, the safe side.
[E] EN 1995-1-1 6.1.5 (recalled): fc,90 kmod / gamma_M on the contact area; kc,90 1.0 and no 30 mm beside it,
    as neither the way of the grain nor the neighbours are known: the safe side.
"""

from __future__ import annotations

import math

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals.metal import bending_limit_mpa
from panewright.frame.support.bracket import Bracket
from panewright.frame.support.timber import Timber
from panewright.structure.mounting.bracket import pull_n
from panewright.structure.mounting.forces import BracketForces
from panewright.structure.mounting.timber import withdrawal
from panewright.structure.mounting.timber.withdrawal import Lasting


def spread_mm(bracket: Bracket, bending_mpa: float, across_mpa: float) -> float:
    """How wide the foot presses, from the heel. [mm]

    >>> round(spread_mm(Bracket("b", 40, 4, 40, "6063-T6"), 104.0, 1.96), 1)
    20.8
    """
    reach = bracket.wall_mm * math.sqrt(bending_mpa / (3 * across_mpa))
    return min(bracket.leg_mm, bracket.wall_mm + reach)


def across_limit_mpa(timber: Timber, lasting: Lasting, *, wet: bool) -> float:
    """What the timber bears across its grain. [MPa]  [N], [E]

    >>> from panewright.frame.support.timber import timber
    >>> round(across_limit_mpa(timber("C24"), "wind", wet=True), 2)
    1.35
    """
    if timber.family == "ASCE":
        return timber.across_mpa * (withdrawal.C_M_WET_ACROSS if wet else 1.0)
    return timber.across_mpa * withdrawal.en_factor(lasting, wet)


def judge_foot(
    bracket: Bracket, timber: Timber, forces: BracketForces, *, family: Family, wet: bool
) -> Check:
    """The timber under the bracket, in the worst wind or snow and under own weight for years."""
    pressed = forces.down_n + pull_n(bracket, 0.0, max(forces.pushed_down_n, forces.pushed_snow_n))
    rest = forces.down_rest_n + pull_n(bracket, 0.0, forces.pushed_rest_n)
    cases: tuple[tuple[float, Lasting], ...] = ((pressed, "wind"), (rest, "own weight"))
    checks = (
        _check(force, _limit_n(bracket, timber, lasting, family=family, wet=wet), family)
        for force, lasting in cases
    )
    return max(checks, key=lambda check: check.utilisation)


def _limit_n(
    bracket: Bracket, timber: Timber, lasting: Lasting, *, family: Family, wet: bool
) -> float | None:
    bending = bending_limit_mpa(bracket.metal, family, bracket.wall_mm)
    if timber.family != family or bending is None:
        return None
    across = across_limit_mpa(timber, lasting, wet=wet)
    return across * spread_mm(bracket, bending, across) * bracket.length_mm


def _check(force_n: float, limit_n: float | None, family: Family) -> Check:
    american = family == "ASCE"
    source = "NDS 2018 3.10, Fc across the grain" if american else "EN 1995-1-1 6.1.5, kc,90 1.0"
    cure = "Take a thicker or longer bracket, a denser timber, or more brackets."
    return Check("timber pressed by the bracket's foot", force_n, limit_n, "N", source, cure, "structure")
