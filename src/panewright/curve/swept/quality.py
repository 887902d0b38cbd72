"""How good a sweep is, fact by fact: each a figure, its limit, what it comes from and what to do.

Nothing here is thrown away: a sweep that holds to none of it is still read, and its errors say the rest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.curve.points import PointsRead
from panewright.curve.swept.drift import SweepDrift
from panewright.curve.swept.hysteresis import Hysteresis
from panewright.curve.swept.raw import RawSweep

_HABIT = "common practice, no source"
_STEADY = "IEC 60904-1, recalled: light within 1 % and heat within 1 K of their mean"
LIGHT_SHARE = 0.02  #: of the light, from least to most
_HEAT_K = 2.0
HYSTERESIS_SHARE = 0.01  #: of the greatest power
_RISE_SHARE = 0.02  # of Isc
_NEAR_KNEE = (0.80, 1.12)  # of Vmp, as for the power's peak in curve/points.py


@dataclass(frozen=True, slots=True)
class Quality:
    """One fact about a sweep, held against a limit."""

    name: str
    figure: float
    limit: float
    unit: str  #: '' for a share
    cause: str  #: what such a figure comes from
    cure: str
    source: str = _HABIT
    at_least: bool = False  #: the figure is to reach the limit, not to stay under it
    where: str = ""  #: which run

    @property
    def held(self) -> bool:
        """Whether the figure keeps to its limit; one that is no number does not."""
        return self.figure >= self.limit if self.at_least else self.figure <= self.limit

    def __str__(self) -> str:
        where = f" ({self.where})" if self.where else ""
        least = "at least" if self.at_least else "at most"
        told = (
            f"{self.name}{where}: {_shown(self.figure, self.unit)}, {least} {_shown(self.limit, self.unit)}"
        )
        return f"{told}: holds." if self.held else f"{told}: LOOK. {self.cause} {self.cure}"


def _shown(figure: float, unit: str) -> str:
    return f"{figure:.4g} {unit}" if unit else f"{figure:.2%}"


@dataclass(frozen=True, slots=True)
class Counts:
    """What of a run its thinned points no longer show."""

    readings: int
    clipped: int  #: at the end of the meter's range
    scatter_a: float  #: of a single reading


def of_run(points: RawSweep, read: PointsRead, counts: Counts, where: str) -> Iterator[Quality]:
    """Every fact about one run of clean points, voltage rising."""
    v, i = points.voltage_v, points.current_a
    isc = read.isc_a.value if read.isc_a else float(np.max(i))
    yield Quality(
        "points", counts.readings, 20, "points", "Few points leave much between them.",
        "Take more steps, most of them near the power maximum.", at_least=True, where=where,
    )  # fmt: skip
    yield _past_open(v, i, read, isc, where)
    yield _to_short(v, read, where)
    scatter = counts.scatter_a / isc if isc > 0 else float("nan")
    yield Quality(
        "scatter of the current, of Isc", scatter, 0.005, "", "Noise, a coarse range, or readings apart.",
        "Use the narrowest range that does not end, and read voltage and current at once.", where=where,
    )  # fmt: skip
    if read.vmp_v:
        yield _gap(v, read.vmp_v.value, where)
    yield Quality(
        "points at the end of the meter's range", counts.clipped, 0, "points", "The range was too narrow.",
        "Choose a wider range; what was cut off is not in the curve.", where=where,
    )  # fmt: skip
    yield _rise(v, i, isc, scatter, where)


def _past_open(v: Array, i: Array, read: PointsRead, isc: float, where: str) -> Quality:
    """The share of Isc that still flows at the highest voltage."""
    left = float(i[-1]) / isc if isc > 0 else float("nan")
    short = f" Voc lies some {read.voc_v.value - v[-1]:.2g} V further." if read.voc_v and left > 0 else ""
    unknown = " Voc lies too far off to be told." if read.voc_v is None else ""
    return Quality(
        "current left at the highest voltage", max(left, 0.0), 0.01, "",
        f"The sweep ended before open circuit.{short}{unknown}",
        "Let the load go to no current at all, or read Voc with a meter beside.", where=where,
    )  # fmt: skip


def _to_short(v: Array, read: PointsRead, where: str) -> Quality:
    """The lowest voltage as a share of Voc."""
    voc = read.voc_v.value if read.voc_v else float(v[-1])
    lowest = max(float(v[0]), 0.0) / voc if voc > 0 else float("nan")
    return Quality(
        "lowest voltage, of Voc", lowest, 0.05, "",
        f"The sweep ended {max(float(v[0]), 0.0):.3g} V before short circuit: leads, shunt and load hold it.",
        "Use shorter and thicker leads, or read Isc with a meter beside.", where=where,
    )  # fmt: skip


def _gap(v: Array, vmp_v: float, where: str) -> Quality:
    near = v[(v >= _NEAR_KNEE[0] * vmp_v) & (v <= _NEAR_KNEE[1] * vmp_v)]
    edges = np.unique([max(v[0], _NEAR_KNEE[0] * vmp_v), *near, min(v[-1], _NEAR_KNEE[1] * vmp_v)])
    widest = float(np.max(np.diff(edges), initial=0.0))
    return Quality(
        "widest gap at the power maximum, of Vmp", widest / vmp_v, 0.06, "",
        "The steps there were wide: the top of the power lies between two points.",
        "Take smaller steps from four fifths of Voc on.", where=where,
    )  # fmt: skip


def _rise(v: Array, i: Array, isc: float, scatter: float, where: str) -> Quality:
    """How far the current rises again while the voltage rises, beyond what scatter explains."""
    least_before = np.minimum.accumulate(i)
    rise = float(np.max((i - least_before)[v >= 0], initial=0.0)) / isc if isc > 0 else float("nan")
    beyond = max(rise - 6 * scatter, 0.0)
    return Quality(
        "rise of the current with the voltage, of Isc", beyond, _RISE_SHARE, "",
        "No panel gives more current at more voltage: the light moved, or a contact slipped.",
        "Sweep again under a clear sky, or read the irradiance at each point.", where=where,
    )  # fmt: skip


def light_during(points: RawSweep, where: str) -> Iterator[Quality]:
    """The swing of the light within a run, where it was read at each point."""
    light = points.irradiance_w_m2
    if light is None or np.sum(np.isfinite(light)) < 3 or not np.nanmean(light) > 0:
        return
    known = light[np.isfinite(light)]
    span = float(np.ptp(known)) / float(known.mean())
    yield Quality(
        "swing of the light within the sweep", span, LIGHT_SHARE, "", "A cloud or a hand passed.",
        "Sweep again when the light stands still.", _STEADY, where=where,
    )  # fmt: skip


def of_all(
    lights: Sequence[float], found: Hysteresis | None, drifts: Sequence[SweepDrift]
) -> Iterator[Quality]:
    """Every fact about several runs together: light between them, up against down, drift."""
    if len(lights) > 1 and min(lights) > 0:
        yield Quality(
            "swing of the light between the sweeps", (max(lights) - min(lights)) / float(np.mean(lights)),
            LIGHT_SHARE, "", "The sky changed between the sweeps.",
            "Sweeps of different light are kept apart; take them within a minute.", _STEADY,
        )  # fmt: skip
    if found:
        yield _up_and_down(found)
    yield from map(_drifted, drifts)


def _up_and_down(found: Hysteresis) -> Quality:
    cause, cure = (
        ("The light moved between the two.", "Sweep again when the light stands still.")
        if found.of_light
        else (
            "The cells' own charge: the sweep was too fast.",
            "Sweep ten times as slowly, or take the middle.",
        )
    )
    told = f"{cause} In full, {found}."
    return Quality("power up against down", abs(found.power_share), HYSTERESIS_SHARE, "", told, cure)


def _drifted(drift: SweepDrift) -> Quality:
    heat = drift.quantity.endswith("_c")
    figure, limit, unit = (abs(drift.change), _HEAT_K, "K") if heat else (abs(drift.share), LIGHT_SHARE, "")
    cause = "The cell warmed or cooled" if heat or drift.quantity == "voc_v" else "The light moved"
    name = f"drift of {drift.said}, {drift.how}"
    return Quality(
        name,
        figure,
        limit,
        unit,
        f"{cause}: {drift}.",
        "Sweep faster, or when sun and cell stand still.",
        _STEADY,
        where=drift.where,
    )
