"""What makes a measurement less good than its figures look.

Bounds are common practice where no standard is named: 800 W/m2 for a rating outdoors, 1 % for the light's
way from its mean (IEC 60904-1, recalled), an air mass near 1.5.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from panewright.bench.rate.rated import Rated, Taken
from panewright.curve.moved.steady import STEADY_SHARE

ENOUGH_W_M2, LITTLE_W_M2 = 800.0, 500.0
CLOUDY_SHARE = 0.05
HIGHEST_AIR_MASS, WIDEST_DEG = 2.5, 45.0
FEWEST = 20
FEWEST_BY_METER = 5  #: Voc, Isc and three resistors: their room is in the budget, so fewer only ask for more
SPREAD_SHARE = 0.01
SCATTER_SHARE = 0.01
OUT_OF_DATE = "instrument past its calibration"  #: told once of each; what it bars is the shop's rule


@dataclass(frozen=True, slots=True)
class Flag:
    """One thing to know of a measurement; a grave one asks for a new sweep."""

    name: str
    told: str
    grave: bool = False


def flags(taken: Taken, rated: Rated) -> tuple[Flag, ...]:
    """All that is to be said, grave ones first."""
    found = [
        *_of_light(taken, rated),
        *_of_sky(taken),
        *_of_sweep(taken, rated),
        *_of_instruments(taken),
        *_of_procedures(rated),
    ]
    return tuple(sorted(found, key=lambda flag: not flag.grave))


def _of_light(taken: Taken, rated: Rated) -> Iterator[Flag]:
    light = rated.light_w_m2
    if light < ENOUGH_W_M2:
        told = f"{light:.0f} W/m2 is little sun for a rating; {ENOUGH_W_M2:.0f} W/m2 are usual."
        yield Flag("too little sun", told, light < LITTLE_W_M2)
    if taken.drift_share > STEADY_SHARE:
        told = f"The light moved by {taken.drift_share:.1%} of its mean during the sweep: clouds or haze."
        yield Flag("moving clouds", told, taken.drift_share > CLOUDY_SHARE)


def _of_sky(taken: Taken) -> Iterator[Flag]:
    if taken.light.moment is None:
        return
    sky = taken.light.moment.sky
    if sky.sun.air_mass > HIGHEST_AIR_MASS:
        told = f"The sun stood {sky.sun.height_deg:.0f} degrees high, air mass {sky.sun.air_mass:.1f}."
        yield Flag("low sun", told)
    if sky.incidence_deg > WIDEST_DEG:
        told = f"The light fell in {sky.incidence_deg:.0f} degrees aslant: turn the panel towards the sun."
        yield Flag("slanting light", told)


def _of_sweep(taken: Taken, rated: Rated) -> Iterator[Flag]:
    first = taken.given.curves[0]
    if first.amperes.min() > 0:
        yield Flag("sweep not past Voc", "The sweep ends before open circuit: Voc is prolonged or missing.")
    if first.volts.min() > 0.1 * first.volts.max():
        yield Flag("sweep not from Isc", "The sweep begins far from zero volts: Isc is prolonged or missing.")
    if taken.clipped:
        told = "Part of the sweep ran past the meter's range and was left out: take a wider range."
        yield Flag("clipped", told, True)
    yield from _of_few(taken, len(first.voltage_v))
    power = rated.chosen.taken.points.power_w
    if power is not None and power.sigma > SCATTER_SHARE * power.value:
        told = f"The points leave Pmp unsure by {power.sigma / power.value:.1%}: scatter, or too few."
        yield Flag("scattered points", told)


def _of_few(taken: Taken, swept: int) -> Iterator[Flag]:
    """A sweep of few points; of a meter fewer readings than a verdict mostly wants."""
    if taken.between is None and swept < FEWEST:
        yield Flag("few points", f"{swept} points draw a curve badly; {FEWEST} are usual.")
    if taken.between and taken.between.points < FEWEST_BY_METER:
        room = f"{taken.between.points} readings leave the power open by {2 * taken.between.power_share:.0%}"
        usual = "Voc, Isc and three resistors near the voltage of most power are usual"
        yield Flag("few readings", f"{room} (k = 2); {usual}.")


def _of_instruments(taken: Taken) -> Iterator[Flag]:
    seen = (taken.volts, taken.amps, taken.light.instrument, taken.heat.instrument)
    for each in dict.fromkeys(one for one in seen if one is not None):
        if wrong := each.wrong_on(taken.day):
            yield Flag(OUT_OF_DATE, f"{wrong} Its figures are counted as if it were good.")
        elif each.soon_due(taken.day):
            yield Flag("instrument due soon", f"{each.name} is due for calibration on {each.due}.")


def _of_procedures(rated: Rated) -> Iterator[Flag]:
    chosen = rated.chosen
    for check in chosen.taken.moved.checks:
        if not check.passed:
            yield Flag("procedure outside its bounds", f"{check}. {check.cure}")
    spread = chosen.spread("power_w")
    if spread is not None and spread > SPREAD_SHARE:
        others = ", ".join(gone.moved.procedure for gone in chosen.all if gone.moved.within)
        told = f"Procedures {others} differ by {spread:.1%} in Pmp: measure in more sun, or on cooler cells."
        yield Flag("procedures disagree", told)
