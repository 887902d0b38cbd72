"""A panel's figures at standard conditions, each with its budget, or with the reason why it cannot be rated.

One law stands behind it: meters, light, heat and coefficients go in, each off by something; the curve is
moved by the procedure that was taken, and read. The budget moves every input through that law. So light that
comes from the same ammeter as the curve cancels as it does in truth, and temperature that comes from Voc
goes with the light.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from math import sqrt

from panewright.bench.rate.between import Between
from panewright.bench.rate.budget import Budget, Budgets, Input, Values, budgets
from panewright.bench.rate.heat import Heat
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.light import Light
from panewright.bench.rate.moving import coefficient_inputs, moved_by, with_coefficients
from panewright.curve.measured import Measured
from panewright.curve.moved.choice import Chosen, Given, most_fitting
from panewright.curve.moved.coefficients import typical
from panewright.curve.moved.moved import STC
from panewright.curve.points import PointsRead, Read, read_points
from panewright.errors import BenchError, Problem

UNITS = {"power_w": "W", "isc_a": "A", "voc_v": "V", "imp_a": "A", "vmp_v": "V", "fill_factor": ""}
WORDS = {
    "power_w": "Pmp",
    "isc_a": "Isc",
    "voc_v": "Voc",
    "imp_a": "Imp",
    "vmp_v": "Vmp",
    "fill_factor": "fill factor",
}
_OF_THE_PEAK = ("power_w", "imp_a", "vmp_v", "fill_factor")  # what is not known between readings


@dataclass(frozen=True, slots=True)
class Taken:
    """What was done in the sun: curves, light, heat, instruments, and the day."""

    given: Given  #: the first curve is the one rated; its own light and heat are set here
    light: Light
    heat: Heat
    volts: Instrument
    amps: Instrument
    day: date
    one_ammeter: bool = False  #: the light was read as a current by the very ammeter of the curve
    drift_share: float = 0.0  #: of the light during the sweep, before it was taken out
    clipped: bool = False  #: part of the sweep ran past the meter's range
    between: Between | None = None  #: of a curve that is a few readings, filled between them


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure at standard conditions."""

    name: str
    budget: Budget | None
    why_not: str = ""  #: where it cannot be rated

    @property
    def value(self) -> float | None:
        """In the unit of its name; None where it cannot be rated."""
        return self.budget.value if self.budget else None

    @property
    def expanded(self) -> float | None:
        """Its uncertainty with k = 2."""
        return self.budget.expanded if self.budget else None

    def __str__(self) -> str:
        if self.budget is None:
            return f"{WORDS[self.name]}: not rated. {self.why_not}"
        unit = f" {UNITS[self.name]}".rstrip()
        return (
            f"{WORDS[self.name]}: {self.budget.value:.4g}{unit}, ± {self.budget.expanded:.2g}{unit} (k = 2)"
        )


@dataclass(frozen=True, slots=True)
class Rated:
    """All figures of one panel, by which procedure, from which light and heat."""

    figures: tuple[Figure, ...]
    chosen: Chosen
    budgets: Budgets
    light_w_m2: float
    cell_c: float

    def of(self, name: str) -> Figure:
        """A figure by name: 'power_w', 'isc_a', 'voc_v', 'imp_a', 'vmp_v', 'fill_factor'."""
        return next(figure for figure in self.figures if figure.name == name)


def rate(taken: Taken) -> Rated:
    """The figures at STC; `BenchError` or `CurveError` where nothing can be made of the readings."""
    taken = replace(taken, given=_known(taken))
    curves = _curves(taken, {})
    chosen = most_fitting(replace(taken.given, curves=curves))
    read = chosen.taken.points
    if read.power_w is None:
        reason = "The curve does not reach over its point of most power."
        raise BenchError([Problem(reason, "Sweep from zero volts past open circuit.")])
    inputs = tuple(_inputs(taken, chosen))
    made = budgets(lambda off: _law(taken, chosen, off), inputs)
    figures = tuple(_figure(name, made, read, taken) for name in UNITS)
    return Rated(figures, chosen, made, curves[0].irradiance_w_m2, curves[0].cell_c)


def _known(taken: Taken) -> Given:
    """What is known of the panel; where it is nothing, the crowd's figures."""
    given = taken.given
    if given.coefficients is not None:
        return given
    read = read_points(given.curves[0])
    if read.isc_a is None or read.voc_v is None:
        if given.one_diode is not None:
            return given
        reason = "The sweep ends too far from short circuit or from open circuit."
        raise BenchError([Problem(reason, "Sweep from zero volts past open circuit.")])
    isc = read.isc_a.value * STC.irradiance_w_m2 / taken.light.value_w_m2
    return replace(given, coefficients=typical(isc, read.voc_v.value))


def _inputs(taken: Taken, chosen: Chosen) -> Iterator[Input]:
    """All that may be off."""
    read = chosen.taken.points
    volts, amps = _value(read.vmp_v) or 1.0, _value(read.imp_a) or 1.0
    yield Input("voltmeter", taken.volts.sigma(volts) / volts, "share", taken.volts.source)
    yield Input("ammeter", taken.amps.sigma(amps) / amps, "share", taken.amps.source)
    for what, doubts, unit in (("light", taken.light.doubts, "share"), ("heat", taken.heat.doubts, "K")):
        yield from (Input(f"{what}: {one.name}", one.sigma, unit, one.source) for one in doubts)
    yield from coefficient_inputs(taken.given, taken.heat, chosen.taken.moved.procedure)
    yield Input("reading of the curve", 1.0, "", "scatter and bend of the points")
    if taken.between is not None:
        yield Input(
            "between the readings", taken.between.power_share, "share", "bounds by the readings alone"
        )
    if chosen.spread("power_w") is not None:
        yield Input("choice of procedure", 1.0, "", "spread of the procedures, even within it (JCGM 100)")


def _law(taken: Taken, chosen: Chosen, off: Values) -> dict[str, float]:
    """The figures at STC with all inputs off by so much."""
    given = with_coefficients(taken.given, off)
    curves = _curves(taken, off)
    found = _figures(moved_by(chosen.taken.moved.procedure, replace(given, curves=curves)).points)
    still = _figures(chosen.taken.points)
    whole = {name: found.get(name, still[name]) for name in still}
    sigma, spread = off.get("reading of the curve", 0.0), off.get("choice of procedure", 0.0) / sqrt(12)
    open_share = off.get("between the readings", 0.0)
    for name in whole:
        whole[name] += open_share * still[name] * (name in _OF_THE_PEAK)
        whole[name] += sigma * _sigma(chosen.taken.points, name)
        whole[name] += spread * (chosen.spread(name) or 0.0) * still[name]
    return whole


def _curves(taken: Taken, off: Values) -> tuple[Measured, ...]:
    """Every curve as it would be if the meters, the light and the heat were off by so much."""
    first, *others = taken.given.curves
    volts, amps = 1 + off.get("voltmeter", 0.0), 1 + off.get("ammeter", 0.0)
    light = 1 + sum(off.get(f"light: {doubt.name}", 0.0) for doubt in taken.light.doubts)
    warmer = sum(off.get(f"heat: {doubt.name}", 0.0) for doubt in taken.heat.doubts)
    scaled = [_scaled(each, volts, amps) for each in (first, *others)]
    bright = taken.light.value_w_m2 * light * (amps if taken.one_ammeter else 1.0)
    heat = _with_slope(taken.heat, off)
    voc = _value(read_points(scaled[0]).voc_v) if heat.by_voc else None
    hot = heat.cell_c(bright, voc) + warmer
    own = replace(scaled[0], irradiance_w_m2=bright, cell_c=hot)
    rest = (
        replace(each, irradiance_w_m2=each.irradiance_w_m2 * light, cell_c=each.cell_c + warmer)
        for each in scaled[1:]
    )
    return (own, *rest)


def _scaled(curve: Measured, volts: float, amps: float) -> Measured:
    """The curve read by meters that are off; common gains are counted with the meters, not twice."""
    return replace(
        curve,
        voltage_v=tuple(volts * each for each in curve.voltage_v),
        current_a=tuple(amps * each for each in curve.current_a),
        accuracy=replace(curve.accuracy, voltage_gain=0.0, current_gain=0.0),
    )


def _with_slope(heat: Heat, off: Values) -> Heat:
    """A temperature by Voc goes with the slope of Voc."""
    if heat.by_voc is None or "beta" not in off:
        return heat
    beta = heat.by_voc.beta_per_k
    return replace(
        heat, by_voc=replace(heat.by_voc, beta_per_k=replace(beta, value=beta.value + off["beta"]))
    )


def _figures(read: PointsRead) -> dict[str, float]:
    """What the curve tells, by name."""
    found = {name: _value(getattr(read, name)) for name in UNITS if name != "fill_factor"}
    found["fill_factor"] = read.fill_factor
    return {name: value for name, value in found.items() if value is not None}


def _sigma(read: PointsRead, name: str) -> float:
    if name != "fill_factor":
        one: Read = getattr(read, name)
        return one.sigma
    parts = [each for each in (read.power_w, read.isc_a, read.voc_v) if each is not None]
    return (read.fill_factor or 0.0) * sqrt(sum((each.sigma / each.value) ** 2 for each in parts))


def _value(read: Read | None) -> float | None:
    return read.value if read is not None else None


def _figure(name: str, made: Budgets, read: PointsRead, taken: Taken) -> Figure:
    """A figure with its budget, or the reason why there is none."""
    if name in taken.light.unrated:
        return Figure(
            name, None, f"The light was known by the panel's own Isc, so its {WORDS[name]} tells nothing."
        )
    if name in taken.heat.unrated:
        return Figure(name, None, f"The heat was known by Voc itself, so {WORDS[name]} was taken for true.")
    if name not in _figures(read):
        return Figure(name, None, "The sweep does not reach it.")
    return Figure(name, made.of(name))
