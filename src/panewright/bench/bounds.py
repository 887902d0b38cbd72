"""Between which bounds a reading may lie, in the light and heat it was taken in.

Instrument, last digit, spread of the cells, light and heat are independent: each is a bound that holds about
95 times in 100, and they add by their squares (JCGM 100:2008, 5.1.2, recalled). What light and heat do is
asked of the cell's own law, a little below and a little above what was measured. Where nobody measured them
the bounds are as wide as anything from a bright window to full sun, and from a cold morning to a hot panel:
then they add plainly.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from panewright.bench.expected import Allowed, Condition, Law
from panewright.bench.predicted import DULL_W_M2, STC_W_M2

COLD_C, HOT_C = 5.0, 65.0  #: cells of which nobody knows better


@dataclass(frozen=True, slots=True)
class Bounds:
    """A reading, and what is still as it should be."""

    value: float
    low: float
    high: float


def bounds(law: Law, allowed: Allowed, taken: Condition, usual: Condition) -> Bounds:
    """Value and bounds in that light and heat; `usual` stands in for what was not measured."""
    light = taken.irradiance_w_m2 if taken.irradiance_w_m2 is not None else usual.irradiance_w_m2
    heat = taken.cell_c if taken.cell_c is not None else usual.cell_c
    assert light is not None
    assert heat is not None
    value = law.at(light, heat)
    own = hypot(value * allowed.meter, allowed.digit, value * allowed.spread)
    dim, bright = (light * (1 - allowed.light), light * (1 + allowed.light))
    cold, hot = heat - allowed.heat_k, heat + allowed.heat_k
    by_light = [law.at(each, heat) - value for each in (dim, bright)]
    by_heat = [law.at(light, each) - value for each in (cold, hot)]
    below = hypot(own, *(min(*moves, 0.0) for moves in (by_light, by_heat)))
    above = hypot(own, *(max(*moves, 0.0) for moves in (by_light, by_heat)))
    low, high = value - below, value + above
    for spot in _unknown(taken, light, heat):
        low, high = min(low, law.at(*spot) - below), max(high, law.at(*spot) + above)
    return Bounds(value, low, high)


def _unknown(taken: Condition, light: float, heat: float) -> tuple[tuple[float, float], ...]:
    """Corners of what light and heat may have been."""
    lights = (light,) if taken.irradiance_w_m2 is not None else (DULL_W_M2, STC_W_M2)
    heats = (heat,) if taken.cell_c is not None else (COLD_C, HOT_C)
    return tuple((each, other) for each in lights for other in heats)
