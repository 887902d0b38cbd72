"""From raw readings to a rating in one go: light that moved taken out, cleaned, moved to STC, flagged.

The light beside each reading need only follow the true one, in any unit: how bright it was is told by
`Light`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from panewright.bench.rate.flags import Flag, flags
from panewright.bench.rate.heat import Heat
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.light import Light
from panewright.bench.rate.rated import Rated, Taken, rate
from panewright.curve.cleaning import Cleaned, Sweep, clean
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.moved.choice import Given
from panewright.curve.moved.coefficients import STC_C, Coefficients
from panewright.curve.moved.corrections import OneDiode
from panewright.curve.moved.steady import Steady, in_mean_light
from panewright.curve.signs import Signs


@dataclass(frozen=True, slots=True)
class Swept:
    """One sweep as it comes."""

    voltage_v: Sequence[float]
    current_a: Sequence[float]
    beside: Sequence[float] = ()  #: the light at each reading, in any unit; nothing where it was read once
    signs: Signs = "find"
    accuracy: Accuracy = field(default_factory=Accuracy)


@dataclass(frozen=True, slots=True)
class Bench:
    """Light, heat, meters and the day."""

    light: Light
    heat: Heat
    volts: Instrument
    amps: Instrument
    day: date
    one_ammeter: bool = False  #: the light was read as a current by the very ammeter of the curve


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of the panel before: coefficients, its cells, its other curves."""

    coefficients: Coefficients | None = None
    one_diode: OneDiode | None = None
    others: tuple[Measured, ...] = ()


@dataclass(frozen=True, slots=True)
class Report:
    """What was made of a sweep."""

    cleaned: Cleaned
    steady: Steady | None  #: where the light stood beside each reading
    rated: Rated
    flags: tuple[Flag, ...]

    @property
    def said(self) -> tuple[str, ...]:
        """What was done to the readings, and which procedure was taken, in sentences."""
        first = self.steady.said if self.steady else ()
        return (*first, *self.cleaned.said, self.rated.chosen.why)


def report(swept: Swept, bench: Bench, known: Known | None = None) -> Report:
    """A sweep rated; `CurveError` or `BenchError` with every problem where nothing can be made of it."""
    by = known or Known()
    steady = _steadied(swept, by)
    v, i = (steady.voltage_v, steady.current_a) if steady else (swept.voltage_v, swept.current_a)
    cleaned = clean(Sweep(v, i, bench.light.value_w_m2, STC_C, swept.accuracy, swept.signs))
    taken = Taken(
        given=Given((cleaned.curve, *by.others), by.coefficients, by.one_diode),
        light=bench.light,
        heat=bench.heat,
        volts=bench.volts,
        amps=bench.amps,
        day=bench.day,
        one_ammeter=bench.one_ammeter,
        drift_share=steady.drift_share if steady else 0.0,
        clipped=cleaned.clipped or bool(steady and steady.stuck),
    )
    rated = rate(taken)
    return Report(cleaned, steady, rated, flags(taken, rated))


def _steadied(swept: Swept, by: Known) -> Steady | None:
    if not len(swept.beside):
        return None
    ohm = by.coefficients.first.ohm.value if by.coefficients else 0.0
    return in_mean_light(swept.voltage_v, swept.current_a, swept.beside, ohm)
