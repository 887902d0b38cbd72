"""A rating as a page shows it, out of what is told of it: just made, or in the records."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from panewright.bench.rate.rated import UNITS, WORDS
from panewright.check import Check
from panewright.curve.measured import Measured
from panewright.desk.orders.shown import Bar, bar
from panewright.pack.figures.rated_chart import RatedCurves, current_chart, power_chart
from panewright.paper.screen_chart import chart_svg
from panewright.units import show

_WIDE, _HIGH, _LETTER = 128.0, 78.0, 5.0
_TERMS = 8
_RULES = {name: f"{words} rated against the prediction" for name, words in WORDS.items()}


@dataclass(frozen=True, slots=True)
class FigureSeen:
    """One figure, predicted and measured."""

    words: str
    predicted: str
    measured: str
    expanded: str
    verdict: str


@dataclass(frozen=True, slots=True)
class RatingSeen:
    """Everything of a rating."""

    verdict: str
    passed: bool
    label: str
    guard: str  #: empty of a rating kept before it was told
    borne: str  #: what label it would bear, in a sentence
    why: str
    day: str
    around: str
    figures: tuple[FigureSeen, ...]
    flags: tuple[tuple[str, str, bool], ...]  #: name, what was seen, whether grave
    charts: tuple[str, str]  #: svg: current, power
    budget: tuple[tuple[str, str, str], ...]  #: input, what it moves, its share
    procedures: tuple[tuple[str, ...], ...]
    instruments: tuple[tuple[str, str, str], ...]  #: name, figures, calibration
    bars: tuple[Bar, ...]
    said: tuple[str, ...]


def seen(told: dict[str, Any], units: str = "metric") -> RatingSeen:
    """What a page shows of it."""
    around = f"Light by {told['light_by']}: {show(told['irradiance_w_m2'], 'W/m2', units)}"
    around += f" ± {show(2 * told['irradiance_sigma_w_m2'], 'W/m2', units, 2)}"
    around += f"; cells by {told['heat_by']}: {show(told['cell_c'], 'degC', units)}"
    around += f" ± {show(2 * told['cell_sigma_k'], 'K', units, 2)} (k = 2)."
    return RatingSeen(
        told["verdict"],
        told["verdict"] == "pass",
        show(told["label_w"], "W"),
        f"{told['guard']:g}" if "guard" in told else "",
        told["borne"] if "borne" in told else _borne_before(told),
        told["why"],
        told["day"],
        around,
        tuple(_figure(name, told) for name in UNITS),
        tuple((flag["name"], flag["told"], flag["grave"]) for flag in told["flags"]),
        _charts(told),
        tuple(_term(each) for each in told["figures"]["power_w"]["budget"][:_TERMS]),
        tuple(_procedure(each) for each in told["procedures"]),
        tuple(_instrument(each) for each in told["instruments"]),
        tuple(bar(_as_rule(each), units) for each in told["checks"]),
        tuple(told["said"]),
    )


def _borne_before(told: dict[str, Any]) -> str:
    """Of a rating that was kept when only the even risk was told."""
    bears = told["bears_w"]
    return "" if bears is None else f"By its own power it would bear {show(bears, 'W')} at an even risk."


def _figure(name: str, told: dict[str, Any]) -> FigureSeen:
    own, unit = told["figures"][name], UNITS[name]
    plan = show(own["predicted"], unit, digits=4)
    words = WORDS[name][0].upper() + WORDS[name][1:]
    if own["value"] is None:
        return FigureSeen(words, plan, "not rated", "", own["why_not"])
    check = next((each for each in told["checks"] if each["rule"] == _RULES[name]), None)
    word = "" if check is None else "holds" if check["passed"] else "off"
    value, off = show(own["value"], unit, digits=4), show(own["expanded"], unit, digits=2)
    return FigureSeen(words, plan, value, off, word)


def _charts(told: dict[str, Any]) -> tuple[str, str]:
    own = {name: told["figures"][name] for name in UNITS}
    figures = {
        name: (each["value"], each["expanded"]) for name, each in own.items() if each["value"] is not None
    }
    peak = next((each for each in told["procedures"] if each["procedure"] == told["procedure"]), None)
    at = (peak["vmp_v"], peak["imp_a"]) if peak and peak["vmp_v"] and peak["imp_a"] else None
    curves = RatedCurves(_curve(told["predicted"]), _curve(told["at_stc"]), figures, at)
    watts = figures.get("power_w")
    said = f"{show(watts[0], 'W')} at STC" if watts else "power not rated"
    shown = (("Current", current_chart(curves)), ("Power", power_chart(curves)))
    one, two = (
        chart_svg(
            chart,
            _WIDE,
            _HIGH,
            letter_mm=_LETTER,
            said=f"{name} over voltage, measured and predicted: {said}",
        )
        for name, chart in shown
    )
    return one, two


def _curve(points: dict[str, Any]) -> Measured:
    return Measured(tuple(points["voltage_v"]), tuple(points["current_a"]), 1000.0, 25.0)


def _term(term: dict[str, Any]) -> tuple[str, str, str]:
    words = term["name"][0].upper() + term["name"][1:]
    return words, show(abs(term["moves"]), "W", digits=2), f"{term['share']:.0%}"


def _procedure(each: dict[str, Any]) -> tuple[str, ...]:
    reads = (
        show(each[name], UNITS[name], digits=4) if each[name] is not None else "–"
        for name in ("power_w", "isc_a", "voc_v")
    )
    return (each["procedure"], *reads, "" if each["within"] else "outside its bounds")


def _instrument(each: dict[str, Any]) -> tuple[str, str, str]:
    good = f"calibrated {each['calibrated']}, good until {each['due']}"
    return each["name"], each["source"], each["wrong"] or good


def _as_rule(told: dict[str, Any]) -> Check:
    demand = float("inf") if told["demand"] is None else told["demand"]
    name = told["rule"]
    return Check(name, demand, told["limit"], told["unit"], told["source"], told["cure"])
