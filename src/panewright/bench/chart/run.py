"""A run of panels told as checks: when to stop and look, and what to look at.

Limits come from panels known to be good; the panels since the last look are held against them. Values of
unlike panels share a chart as shares of what each was predicted to give. Rules: one value outside three
standard deviations, eight in a row on one side (both of the Western Electric rules, NIST/SEMATECH e-Handbook
6.3.2, recalled), the forgetting mean outside three of its own, and a jump between neighbours.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from panewright.bench.chart.drift import SLACK, began, smoothed, summed
from panewright.bench.chart.limits import ENOUGH, WIDE, Limits, must_be_values
from panewright.bench.chart.subgroups import GroupLimits, must_be_groups
from panewright.check import Check

MOST_IN_A_ROW = 7
JUMP = WIDE * sqrt(2)  #: standard deviations between neighbours
LEAST_PEEL_N_MM = 1.0  #: of ribbon width; EN 50461, recalled
_SOURCE = "NIST/SEMATECH e-Handbook 6.3.2 (recalled); limits from the shop's own good panels"


@dataclass(frozen=True, slots=True)
class Watched:
    """What a chart watches, and where to look if it moves."""

    name: str
    low: str  #: what to look at if it falls
    high: str  #: if it rises
    scatter: str  #: if it jumps


STRING_VOC = Watched(
    "string Voc against prediction",
    "A cell turned, missing or shorted; a weaker lot; cells hotter than the sensor says.",
    "A better lot; a voltmeter or thermometer that drifts.",
    "Two lots mixed; a sensor that sticks badly; readings in changing light.",
)
PULL = Watched(
    "joint pull",
    "A cold or worn tip, old flux, ribbon of another coating, too short a touch.",
    "A hotter tip: look for cracked pads and cells that bow.",
    "Another hand, another tip, another reel: peel some of each.",
)
RATING = Watched(
    "power rated against prediction",
    "Isc, Voc and fill factor say which: light or lot, cells or heat, joints. Clean glass and sensor.",
    "A reference cell that is dirty or drifts; a better lot than measured.",
    "Moving clouds, two instruments in turn, mixed lots.",
)


@dataclass(frozen=True, slots=True)
class Run:
    """Panels since the last look, in the order they were made."""

    watched: Watched
    by: Limits
    serials: tuple[str, ...]
    values: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.serials) != len(self.values):
            raise ValueError(f"{len(self.serials)} serials and {len(self.values)} values do not pair")


def watch(run: Run) -> tuple[Check, ...]:
    """Every rule over a run of single values; `BenchError` where it holds none."""
    must_be_values(run.values, 1)
    return (
        _enough(run.watched, run.by.count),
        _outside(run),
        *_in_a_row(run),
        _drifting(run),
        *_jumping(run),
    )


def watch_groups(
    watched: Watched, by: GroupLimits, serials: Sequence[str], groups: Sequence[Sequence[float]]
) -> tuple[Check, ...]:
    """Every rule over groups of samples, one group a panel."""
    must_be_groups(groups, 1)
    offs = [by.mean_off(group) for group in groups]
    worst = int(np.argmax(np.abs(offs)))
    wide = [float(np.std(group, ddof=1)) / by.scatter_limits(len(group))[1] for group in groups]
    widest = int(np.argmax(wide))
    return (
        _enough(watched, by.groups),
        Check(
            rule=f"{watched.name}: mean within three sigma",
            demand=abs(offs[worst]),
            limit=WIDE,
            unit="standard deviations",
            source=_SOURCE,
            cure=f"Stop and look at {serials[worst]}. {watched.high if offs[worst] > 0 else watched.low}",
            room="bench",
        ),
        Check(
            rule=f"{watched.name}: scatter within a panel",
            demand=wide[widest],
            limit=1.0,
            unit="of its limit",
            source=_SOURCE,
            cure=f"Stop and look at {serials[widest]}. {watched.scatter}",
            room="bench",
        ),
    )


def weakest_peel(by: GroupLimits, least_n_mm: float = LEAST_PEEL_N_MM) -> Check:
    """Whether hardly a joint is weaker than a joint may be. [N a mm of ribbon]"""
    return Check(
        rule="joint pull: weakest joint by its scatter",
        demand=least_n_mm,
        limit=by.least,
        unit="N/mm",
        source="EN 50461: 1 N a mm of ribbon (recalled); mean less three standard deviations",
        cure=f"Solder better and evenly before more panels are made. {PULL.low}",
        room="bench",
    )


def stop_and_look(checks: Sequence[Check]) -> tuple[str, ...]:
    """What to do, the first rule broken first; nothing where the run is as it should be."""
    return tuple(f"{check.rule}: {check.cure}" for check in checks if not check.passed)


def _enough(watched: Watched, count: int) -> Check:
    return Check(
        rule=f"{watched.name}: values behind the limits",
        demand=float(ENOUGH),
        limit=float(count),
        unit="values",
        source="common practice: twenty",
        cure="The limits are loose yet: let good panels add to them, and take an alarm for a hint.",
        room="bench",
    )


def _outside(run: Run) -> Check:
    offs = [run.by.off(value) for value in run.values]
    worst = int(np.argmax(np.abs(offs)))
    return _check(
        f"{run.watched.name}: within three sigma",
        (abs(offs[worst]), WIDE),
        f"Stop and look at {run.serials[worst]}. {_side(run, offs[worst])}",
    )


def _in_a_row(run: Run) -> Iterator[Check]:
    """The longest run on one side of the middle."""
    sides = [1 if value > run.by.centre else -1 for value in run.values]
    longest, since, first = 0, 0, 0
    for place, side in enumerate(sides):
        since = place if place == 0 or side != sides[place - 1] else since
        if place - since + 1 > longest:
            longest, first = place - since + 1, since
    yield _check(
        f"{run.watched.name}: values in a row on one side",
        (float(longest), float(MOST_IN_A_ROW)),
        f"Something changed at about {run.serials[first]}. {_side(run, sides[first])}",
        "values",
    )


def _drifting(run: Run) -> Check:
    """The forgetting mean; since when is told by the sum that remembers."""
    offs = [each.off(run.by.centre) for each in smoothed(run.values, run.by)]
    worst = int(np.argmax(np.abs(offs)))
    sums = summed(run.values[: worst + 1], run.by.centre, SLACK * run.by.sigma)
    since = run.serials[began(sums) or 0]
    return _check(
        f"{run.watched.name}: slow drift",
        (abs(offs[worst]), WIDE),
        f"It has moved since about {since}. {_side(run, offs[worst])}",
    )


def _jumping(run: Run) -> Iterator[Check]:
    if len(run.values) < 2:
        return
    jumps = np.abs(np.diff(run.values)) / run.by.sigma
    worst = int(np.argmax(jumps))
    yield _check(
        f"{run.watched.name}: jump between neighbours",
        (float(jumps[worst]), JUMP),
        f"Look at {run.serials[worst]} and {run.serials[worst + 1]}. {run.watched.scatter}",
    )


def _side(run: Run, off: float) -> str:
    return run.watched.high if off > 0 else run.watched.low


def _check(rule: str, demand_of: tuple[float, float], cure: str, unit: str = "standard deviations") -> Check:
    """One rule of a chart: what was found, and the most there may be."""
    demand, limit = demand_of
    return Check(rule, demand, limit, unit, _SOURCE, cure=cure, room="bench")
