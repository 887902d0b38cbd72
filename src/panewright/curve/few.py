"""A cell from two or three readings of a multimeter, in known light and heat.

Short circuit and open circuit are two conditions on five figures, a loaded reading is a third. What the
readings can see moves; the rest stays as the kind has it, and is said to be assumed:

    Isc    the light-generated current;
    Voc    the saturation current; the shunt, where it would take a junction a hundred times as leaky;
    loaded the series resistance or the shunt, whichever has to move the less in its own usual spread;
           where the curve is sharper than without any series resistance, that is nothing, and the shunt,
           or in the end the ideality, moves.

A meter is no short circuit: over its shunt of some milliohm the cell still has a voltage, which counts.

The band of Pmp holds about 95 %: two standard deviations of the readings and of each figure assumed, taken
as independent. The usual spread of those is a guess from common practice: series resistance by a factor of
1.5, shunt by a factor of 3, ideality by 0.1. It is the band in the light and heat of the readings; what an
error of the light does to the power at STC comes on top, one for one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel, diode_at
from panewright.cell.three_points import THERMAL_25_V
from panewright.curve.origin import Drift, from_condition
from panewright.curve.readings import Loaded, Readings, impossible
from panewright.curve.through import Way, along, off_kind, others, way_for
from panewright.errors import CurveError, Problem
from panewright.units import KELVIN

_WIDE = 2.0  # standard deviations of the band
_ASSUMED = ("series_ohm", "shunt_ohm", "ideality_v")
_CURE = "Read it again, everything within a few seconds and in the same light."


@dataclass(frozen=True, slots=True)
class ReadCell:
    """A cell found from a few readings."""

    diode: Diode  #: in the light and heat of the readings
    model: CellModel  #: at STC
    moved: tuple[str, ...]  #: which figures the readings set
    said: tuple[str, ...]  #: what the readings told, and what is assumed
    power_w: float  #: Pmp in the light and heat of the readings
    low_w: float  #: Pmp lies between these with 95 %
    high_w: float


def cell_from_readings(readings: Readings, kind: CellModel) -> ReadCell:
    """The cell that meets the readings exactly and is like its kind in all they do not tell."""
    if reasons := impossible(readings, kind.area_mm2):
        raise CurveError([Problem(f"{reason[0].upper()}{reason[1:]}", _CURE) for reason in reasons])
    prior = diode_at(kind, readings.irradiance_w_m2, readings.cell_c)
    way = way_for(readings, prior)
    diode = along(way, readings, prior) if way else None
    if way is None or diode is None:
        raise CurveError([Problem("No cell of this kind's temper gives these readings.", _CURE)])
    power = key_points(diode).power_w
    rivals = others(way, readings, prior)
    low, high = _widest(way, rivals, readings, prior)
    said = [
        *_told(way, readings, prior, diode),
        *_rivals_said(rivals, readings, prior),
        _band_said(readings, way, low, high),
    ]
    place = (readings.irradiance_w_m2, readings.cell_c)
    model = from_condition(diode, place, kind.area_mm2, Drift.of(kind))
    model = replace(model, assumed=(*said, *model.assumed))
    return ReadCell(diode, model, way.moved, model.assumed, power, low, high)


def _widest(way: Way, rivals: tuple[Way, ...], readings: Readings, prior: Diode) -> tuple[float, float]:
    """The band of Pmp over all ways that explain the readings."""
    bands = [_band(each, readings, prior) for each in (way, *rivals)]
    return min(low for low, _ in bands), max(high for _, high in bands)


def _band(way: Way, readings: Readings, prior: Diode) -> tuple[float, float]:
    """Pmp less and more by two standard deviations of everything that is uncertain."""
    power = _power(way, readings, prior)
    below = above = 0.0
    for pair in _uncertain(way, readings, prior):
        moves = [_power(way, *case) - power for case in pair]
        known = [move for move in moves if np.isfinite(move)]
        if not known:
            continue
        if len(known) == 1:  # one side is impossible: the other tells how much
            known.append(-known[0])
        below, above = below + min(*known, 0.0) ** 2, above + max(*known, 0.0) ** 2
    return max(power - _WIDE * float(np.sqrt(below)), 0.0), power + _WIDE * float(np.sqrt(above))


Case = tuple[Readings, Diode]


def _uncertain(way: Way, readings: Readings, prior: Diode) -> Iterator[tuple[Case, Case]]:
    """Each thing that is uncertain, one standard deviation down and up."""
    amp, volt = readings.current_share, readings.voltage_share

    def read(factor_of: str, share: float) -> tuple[Case, Case]:
        return (_scaled(readings, factor_of, 1 - share), prior), (
            _scaled(readings, factor_of, 1 + share),
            prior,
        )

    yield read("isc_a", amp)
    yield read("voc_v", volt)
    if readings.loaded:
        yield read("loaded_a", amp)
        yield read("loaded_v", volt)
    for name in _ASSUMED:
        if name not in way.moved:
            yield (readings, off_kind(prior, name, -1.0)), (readings, off_kind(prior, name, 1.0))


def _scaled(readings: Readings, name: str, factor: float) -> Readings:
    """The readings with one of them off by a factor."""
    loaded = readings.loaded
    if name == "isc_a":
        return replace(readings, isc_a=readings.isc_a * factor)
    if name == "voc_v":
        return replace(readings, voc_v=readings.voc_v * factor)
    assert loaded is not None
    if name == "loaded_a":
        return replace(readings, loaded=Loaded(loaded.voltage_v, loaded.current_a * factor))
    return replace(readings, loaded=Loaded(loaded.voltage_v * factor, loaded.current_a))


def _power(way: Way, readings: Readings, prior: Diode) -> float:
    """Pmp of the diode found in the same way from other readings; not a number if there is none. [W]"""
    loaded = readings.loaded
    if loaded and not (loaded.voltage_v < readings.voc_v and loaded.current_a < readings.isc_a):
        return float("nan")
    diode = along(way, readings, prior)
    return key_points(diode).power_w if diode else float("nan")


def _told(way: Way, readings: Readings, prior: Diode, diode: Diode) -> Iterator[str]:
    """What the readings told, and what is assumed."""
    share = diode.light_a / prior.light_a - 1
    yield (
        f"Isc sets the light-generated current: {diode.light_a:.4g} A, {abs(share):.1%} "
        f"{'more' if share >= 0 else 'less'} than the kind's in this light."
    )
    if way.saturation:
        times = diode.saturation_a / prior.saturation_a
        yield f"Voc sets the saturation current: {diode.saturation_a:.3g} A, {times:.3g} times the kind's."
    else:
        yield (
            f"Voc sets the shunt: {diode.shunt_ohm:.3g} ohm. By the junction alone it would be more leaky "
            "than a hundred of its kind; two readings cannot tell for certain."
        )
    for name in way.nothing:
        words = "no series resistance" if name == "series_ohm" else "no shunt"
        yield f"The readings leave room for {words}: the kind's was given up."
    if way.figure:
        usual = _bare(way.figure, prior, readings)
        yield f"The loaded reading sets {_figure(way.figure, diode, readings)}; the kind's is {usual}."
    rest = [_figure(name, diode, readings) for name in _ASSUMED if name not in way.moved]
    if rest:
        yield f"Assumed as the kind's: {', '.join(rest)}."


def _rivals_said(rivals: tuple[Way, ...], readings: Readings, prior: Diode) -> Iterator[str]:
    """What else would explain the readings."""
    for rival in rivals:
        diode = along(rival, readings, prior)
        if diode is not None and rival.figure:
            words = _figure(rival.figure, diode, readings)
            yield f"As well it could be {words}: one loaded reading cannot tell."


def _figure(name: str, diode: Diode, readings: Readings) -> str:
    words = {"series_ohm": "the series resistance", "shunt_ohm": "the shunt", "ideality_v": "the ideality"}
    return f"{words[name]}, {_bare(name, diode, readings)}"


def _bare(name: str, diode: Diode, readings: Readings) -> str:
    if name == "ideality_v":
        n = diode.ideality_v / THERMAL_25_V * (25 + KELVIN) / (readings.cell_c + KELVIN)
        return f"n = {n:.2f}"
    if name == "series_ohm":
        return f"{1000 * diode.series_ohm:.3g} mohm"
    return f"{diode.shunt_ohm:.3g} ohm"


def _band_said(readings: Readings, way: Way, low: float, high: float) -> str:
    spread = "" if set(_ASSUMED) <= set(way.moved) else " and the usual spread of what is assumed"
    return (
        f"Pmp lies between {low:.3g} and {high:.3g} W in this light (95 %), by {readings.current_share:.1%} "
        f"of each current and {readings.voltage_share:.1%} of each voltage{spread}."
    )
