"""The diodes that meet two or three readings exactly, one figure of a kind moved for each reading.

With x, Rs and Rsh given, IL and I0 are straight in the two conditions

    IL - I0 (exp((Vs + Is Rs) / x) - 1) = Is + (Vs + Is Rs) / Rsh,   IL - I0 (exp(Voc / x) - 1) = Voc / Rsh

so each trial of a third figure meets them exactly, and its own condition is one root. The current at the
loaded voltage falls as Rs, 1 / Rsh or x rises: from the sharpest curve down to the straight line from Isc
to Voc, which any possible reading lies above.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from scipy.optimize import brentq

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.three_points import LEAST_N, THERMAL_25_V
from panewright.curve.readings import Loaded, Readings, through_two

SERIES_FACTOR, SHUNT_FACTOR, IDEALITY_SPREAD = 1.5, 3.0, 0.1  #: one standard deviation of what is assumed
LEAKIEST = 100.0  #: a junction more leaky than this many of its kind is taken for a shunted cell
STRANGE = 3.0  #: standard deviations past which another way is no rival
LEAKY_SIEMENS_PER_A = 1e-3  #: shunt of a kind without one, per ampere of Isc: a trace


@dataclass(frozen=True, slots=True)
class Way:
    """Which figure the readings set beside the light and the saturation, and which had to go to nothing."""

    figure: str | None = None
    nothing: tuple[str, ...] = ()
    saturation: bool = True  #: whether Voc sets the saturation; else it sets the shunt

    @property
    def moved(self) -> tuple[str, ...]:
        """Names of all figures that are not the kind's any more."""
        voc = ("saturation_a",) if self.saturation else ("shunt_ohm",)
        return ("light_a", *voc, *self.nothing, *((self.figure,) if self.figure else ()))


PLAIN = Way()
SHUNTED = Way(saturation=False)
SERIES, SHUNT = Way("series_ohm"), Way("shunt_ohm")
SHARPER = (Way("shunt_ohm", ("series_ohm",)), Way("ideality_v", ("series_ohm", "shunt_ohm")))
BARE = Way(nothing=("series_ohm", "shunt_ohm"))


def way_for(readings: Readings, prior: Diode) -> Way | None:
    """The way that moves the kind's figures least; None if there is none."""
    if readings.loaded is None:
        return _way_for_two(readings, prior)
    found = [(way, along(way, readings, prior)) for way in (SERIES, SHUNT)]
    good = [(_unusual(prior, diode, way), way) for way, diode in found if diode is not None]
    if good:
        return min(good, key=lambda entry: entry[0])[1]
    return next((way for way in SHARPER if along(way, readings, prior) is not None), None)


def others(way: Way, readings: Readings, prior: Diode) -> tuple[Way, ...]:
    """Other ways that explain the readings about as well."""
    rivals = {SHUNTED: (PLAIN,), SERIES: (SHUNT,), SHUNT: (SERIES,)}.get(way, ())
    found = [(rival, along(rival, readings, prior)) for rival in rivals]
    return tuple(
        rival
        for rival, diode in found
        if diode is not None and (way == SHUNTED or _unusual(prior, diode, rival) < STRANGE)
    )


def _way_for_two(readings: Readings, prior: Diode) -> Way | None:
    plain, shunted = (along(way, readings, prior) for way in (PLAIN, SHUNTED))
    leaky = plain is None or plain.saturation_a > LEAKIEST * prior.saturation_a
    if leaky and shunted is not None and shunted.shunt_ohm < prior.shunt_ohm:
        return SHUNTED
    if plain is not None:
        return PLAIN
    return BARE if along(BARE, readings, prior) is not None else None


def along(way: Way, readings: Readings, prior: Diode) -> Diode | None:
    """The diode that meets the readings in that way; None if a figure would have to be negative."""
    like = prior
    for name in way.nothing:
        like = _set(like, name, 0.0)
    if not way.saturation:
        return _with_shunt(readings, like)
    if way.figure is None or readings.loaded is None:
        return through_two(readings, like)
    return _by_one_more(readings, like, readings.loaded, way.figure)


def _with_shunt(readings: Readings, like: Diode) -> Diode | None:
    """Light and shunt through Isc and Voc, the saturation and the rest like a given diode."""
    short = readings.isc_a * (readings.meter_ohm + like.series_ohm)
    if short >= readings.voc_v:
        return None
    bare = replace(like, shunt_ohm=math.inf)
    at_short, at_open = (float(swallowed_a(bare, vd)[0]) for vd in (short, readings.voc_v))
    siemens = (readings.isc_a + at_short - at_open) / (readings.voc_v - short)
    if siemens < 0:
        return None
    light = at_open + siemens * readings.voc_v
    return replace(like, light_a=light, shunt_ohm=1 / siemens if siemens > 0 else math.inf)


def _by_one_more(readings: Readings, like: Diode, loaded: Loaded, name: str) -> Diode | None:
    """The diode that meets the loaded reading too, by one more figure between its least and its most."""
    low, high = _reach(readings, like, loaded, name)

    def excess(figure: float) -> float:
        diode = through_two(readings, _set(like, name, figure))
        return -loaded.current_a if diode is None else current_a(diode, loaded.voltage_v) - loaded.current_a

    if not low < high or excess(low) < 0 or excess(high) > 0:
        return None
    figure = float(brentq(excess, low, high, xtol=1e-18 + 1e-17 * high, rtol=1e-15, maxiter=300))
    return through_two(readings, _set(like, name, figure))


def _reach(readings: Readings, like: Diode, loaded: Loaded, name: str) -> tuple[float, float]:
    """Least and most of a figure; for the shunt, of its conductance."""
    isc, voc = readings.isc_a, readings.voc_v
    if name == "series_ohm":
        drop = (voc - loaded.voltage_v) / loaded.current_a if loaded.current_a > 0 else math.inf
        return 0.0, min(drop, voc / isc - readings.meter_ohm) * (1 - 1e-12)
    if name == "shunt_ohm":
        short = isc * (readings.meter_ohm + like.series_ohm)
        return 0.0, isc / (voc - short) * (1 - 1e-12) if short < voc else 0.0
    warm = like.ideality_v
    return min(LEAST_N * THERMAL_25_V * 0.7, warm), warm


def _set(diode: Diode, name: str, figure: float) -> Diode:
    """A diode with one figure changed; the shunt by its conductance."""
    if name == "series_ohm":
        return replace(diode, series_ohm=figure)
    if name == "shunt_ohm":
        return replace(diode, shunt_ohm=1 / figure if figure > 1e-300 else math.inf)
    return replace(diode, ideality_v=figure)


def _unusual(prior: Diode, diode: Diode, way: Way) -> float:
    """How far the moved figure is from the kind's, in its usual spread."""
    if way.figure == "series_ohm":
        return _factors(diode.series_ohm, prior.series_ohm, 1e-3 * prior.light_a**-1) / math.log(
            SERIES_FACTOR
        )
    trace = LEAKY_SIEMENS_PER_A * prior.light_a
    return _factors(1 / diode.shunt_ohm, 1 / prior.shunt_ohm, trace) / math.log(SHUNT_FACTOR)


def _factors(now: float, before: float, trace: float) -> float:
    """The logarithm of a ratio, of figures that may be nothing."""
    return abs(math.log((now + 0.1 * trace) / (before + 0.1 * trace)))


def off_kind(prior: Diode, name: str, deviations: float) -> Diode:
    """The kind with one assumed figure off by some standard deviations of its usual spread."""
    if name == "series_ohm":
        return replace(prior, series_ohm=prior.series_ohm * SERIES_FACTOR**deviations)
    if name == "shunt_ohm":
        return replace(prior, shunt_ohm=prior.shunt_ohm * SHUNT_FACTOR**deviations)
    return replace(prior, ideality_v=prior.ideality_v + deviations * IDEALITY_SPREAD * THERMAL_25_V)
