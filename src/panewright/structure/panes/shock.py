"""What a framed pane bears for a moment: the even pressure of its own mass when a fall is stopped.

Each family answers by its own glass rules with its shortest load, 3 s; neither knows a shorter one, though
glass bears more for some hundredths of a second. EN asks it as a variable action, factor 1.5 (EN 1990 table
A1.2(B), recalled); ASTM E1300 at allowable level. Bowing does not matter for so short a time.
"""

from __future__ import annotations

from functools import lru_cache
from math import exp, floor, inf, log, prod

from panewright.climate.site import Family
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane
from panewright.glass.plate.holding import Sides
from panewright.glass.verdict.proof import RANGE_RULES
from panewright.structure.panes.choice import prove_pane

SHORTEST_S = 3.0  #: load of either rule book
FACTOR: dict[Family, float] = {"ASCE": 1.0, "EN": 1.5}
_MOST_PA = 200e3
_STEPS = 2**18
_STEP_PA = _MOST_PA / _STEPS  # found to one pascal
_PAST = 2.0  # use past the theory's range, for want of a better
_FIRST_PA, _USUAL = 2.5e8, 0.75  # for a pane as thick as it is wide; power of the load with which use grows
_CURVES = 10  # curves through the last answers, then a halving
_STRENGTH = ("glass strength", "free edge of the glass")


@lru_cache(maxsize=256)
def shock_pressure_pa(pane: Pane, family: Family, sides: Sides = "four sides") -> float | None:
    """Pressure that the pane bears for a moment by its family's rules; None where they do not cover it. [Pa]

    Where the plate's theory ends earlier, the pressure at its end: less than the pane bears.
    """
    start = _first_step(pane)
    first = _used(pane, family, sides, start * _STEP_PA)
    if first is not None and first >= _PAST:
        start, first = 1, _used(pane, family, sides, _STEP_PA)
    if first is None:
        return None
    low, high, tried = (start, _STEPS, 0) if first <= 1 else (0, start, 0)
    known = [(start, first)] if 0 < first < _PAST else []
    while high - low > 1:
        tried += 1
        middle = _next(low, high, known if tried % _CURVES else [])
        used = _used(pane, family, sides, middle * _STEP_PA)
        if used is not None and 0 < used < _PAST:
            known.append((middle, used))
        low, high = (middle, high) if used is not None and used <= 1 else (low, middle)
    return low * _STEP_PA / FACTOR[family]


def _first_step(pane: Pane) -> int:
    """Where most panes are half used or more: a plate bears the more, the thicker and the narrower it is."""
    pressure_pa = _FIRST_PA * (pane.sheet.thickness_mm / pane.short_mm) ** 2
    return min(max(round(pressure_pa / _STEP_PA), 1), _STEPS - 1)


def _next(low: int, high: int, known: list[tuple[int, float]]) -> int:
    """Where the curve of the last three answers meets full use, in logarithms both ways; else half way."""
    halfway = (low + high) // 2
    if not known:
        return halfway
    if len(known) == 1:
        ((step, used),) = known
        guess = log(step) - log(used) / _USUAL
    else:
        guess = _at_full_use([(log(step), log(used)) for step, used in known[-3:]])
    return max(low + 1, floor(exp(guess))) if guess < log(high) else halfway


def _at_full_use(points: list[tuple[float, float]]) -> float:
    """Where a curve through points (place, height) is at height 0; infinite where two are equally high."""
    total = 0.0
    for i, (place, height) in enumerate(points):
        others = [other for k, (_, other) in enumerate(points) if k != i]
        if height in others:
            return inf
        total += place * prod(other / (other - height) for other in others)
    return total


def _used(pane: Pane, family: Family, sides: Sides, pressure_pa: float) -> float | None:
    """Use of the strength; more than 1 past the theory's range, None where no rule covers the pane. [-]"""
    load = PaneLoad("a stopped fall", pressure_pa, SHORTEST_S, "combined", factored=family == "EN")
    checks = prove_pane(pane, family, (load,), sides).checks
    strength = [check for check in checks if check.rule.startswith(_STRENGTH)]
    known = all(check.passed for check in checks if check.rule in RANGE_RULES)
    if not strength or (known and not all(check.covered for check in strength)):
        return None
    return max(check.utilisation for check in strength) if known else _PAST
