"""Sweeps of one thing put together: each run cleaned and read, and one curve to go on with.

Runs in the same light are joined. Runs up and down that differ by the cells' own charge are not joined: the
curve is the middle of both. Runs in other light are kept apart, and the curve is of those that are most.
Where the light was read at each point and swung, each current is moved to the mean light of its run
(`curve.moved.steady`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Literal

import numpy as np

from panewright.cell.root import Array
from panewright.curve.cleaning import Cleaned, Sweep, clean
from panewright.curve.measured import Accuracy
from panewright.curve.moved.steady import Steady, in_mean_light
from panewright.curve.points import PointsRead, read_points, seen_scatter_a
from panewright.curve.signs import Signs
from panewright.curve.stuck import stuck_current
from panewright.curve.swept.drift import SweepDrift, drifts
from panewright.curve.swept.hysteresis import Hysteresis, hysteresis, middle
from panewright.curve.swept.quality import (
    HYSTERESIS_SHARE,
    LIGHT_SHARE,
    Counts,
    Quality,
    light_during,
    of_all,
    of_run,
)
from panewright.curve.swept.raw import RawSweep
from panewright.curve.swept.runs import Parted, Rest, Run, part
from panewright.curve.swept.thinned import thinned
from panewright.errors import CurveError, Problem

STANDARD_W_M2, STANDARD_C = (
    1000.0,
    25.0,
)  #: stand where light and heat are not known; no key point hangs on them
_NEARLY = 0.8  # of the best group's worth: a sweep of a few points fewer is no worse
_SWINGS = LIGHT_SHARE / 2  # of the light within a run: less is the reference cell's own last digit


@dataclass(frozen=True, slots=True)
class Around:
    """What was known of light and heat, of the instrument, and of its signs."""

    irradiance_w_m2: float | None = None
    cell_c: float | None = None
    accuracy: Accuracy = field(default_factory=Accuracy)
    signs: Signs = "find"


@dataclass(frozen=True, slots=True)
class RunRead:
    """One run, cleaned and read in its own light."""

    name: str
    rising: bool
    seconds: float | None
    irradiance_w_m2: float | None  #: None where nothing says it
    cleaned: Cleaned
    points: PointsRead
    run: Run


@dataclass(frozen=True, slots=True)
class Swept:
    """Everything that sweeps of one thing say."""

    runs: tuple[RunRead, ...]
    rests: tuple[Rest, ...]
    hysteresis: Hysteresis | None
    drifts: tuple[SweepDrift, ...]
    quality: tuple[Quality, ...]
    curve: Cleaned  #: to go on with
    how: Literal["one run", "joined", "middle"]
    used: tuple[str, ...]  #: names of the runs in it
    said: tuple[str, ...]

    @property
    def points(self) -> PointsRead:
        """The key points of the curve to go on with."""
        return read_points(self.curve.curve)

    @property
    def held(self) -> bool:
        """Whether every fact of quality keeps to its limit."""
        return all(each.held for each in self.quality)


def sweep_together(raws: Sequence[RawSweep], around: Around) -> Swept:
    """Lit sweeps of one panel or cell; `CurveError` where no run of them is a curve."""
    parted = [part(raw, around.signs) for raw in raws]
    said = [
        f"{raw.name}: {line}" if raw.name else line
        for raw, each in zip(raws, parted, strict=True)
        for line in each.said
    ]
    runs, lost = _runs_read(parted, around)
    said += lost
    if not runs:
        reason = f"No run of the points is a curve. {' '.join(lost)}".strip()
        raise CurveError([Problem(reason, "Sweep the voltage from short circuit past open circuit.")])
    rests = tuple(rest for each in parted for rest in each.rests)
    pair = _pair(runs)
    found = hysteresis(pair[0].run, pair[1].run) if pair else None
    moved = tuple(
        moved
        for raw, each in zip(raws, parted, strict=True)
        for moved in drifts(raw.before, raw.after, each.rests, raw.name)
    )
    facts = {each.name: _facts(each) for each in runs}
    like, apart = _alike(runs, facts)
    said += [f"{each.name} stands in other light, and is kept apart." for each in apart]
    curve, how, used = _curve(like, found, pair, around)
    lights = [each.irradiance_w_m2 for each in runs if each.irradiance_w_m2 is not None]
    quality = [fact for own in facts.values() for fact in own]
    quality += of_all(lights if len(lights) == len(runs) else [], found, moved)
    said += _how_said(how, used)
    return Swept(runs, rests, found, moved, tuple(quality), curve, how, used, tuple(said))


def _runs_read(parted: Sequence[Parted], around: Around) -> tuple[tuple[RunRead, ...], list[str]]:
    """Every run that is a curve, and a sentence for each that is none."""
    read: list[RunRead] = []
    lost: list[str] = []
    for each in parted:
        for run in each.runs:
            name = f"run {len(read) + 1} {'up' if run.rising else 'down'}"
            name = f"{run.points.name}, {name}" if run.points.name else name
            try:
                read.append(_run_read(name, run, around))
            except CurveError as none:
                lost.append(f"{name} is no curve: {none}")
    return tuple(read), lost


def _run_read(name: str, run: Run, around: Around) -> RunRead:
    light = run.points.light_w_m2
    light = around.irradiance_w_m2 if light is None else light
    stuck = stuck_current(run.points.voltage_v, run.points.current_a)
    within = replace(run, points=run.points.at(~stuck)) if np.any(stuck) and not np.all(stuck) else run
    if steady := _steadied(run):
        return _steadied_read(name, within, steady, around)
    cleaned = _cleaned(run.points.voltage_v, run.points.current_a, light, around)
    return RunRead(name, run.rising, run.seconds, light, cleaned, read_points(cleaned.curve), within)


def _steadied_read(name: str, within: Run, steady: Steady, around: Around) -> RunRead:
    """A run read in its mean light; `within` is without what the meter's range cut off."""
    v, i = np.array(steady.voltage_v), np.array(steady.current_a)
    light = steady.irradiance_w_m2
    cleaned = _cleaned(v, i, light, around)
    cleaned = replace(
        cleaned,
        said=(*steady.said, *cleaned.said),
        left_out=(*cleaned.left_out, *steady.stuck),
        clipped=cleaned.clipped or bool(steady.stuck),
    )
    even = replace(within, points=replace(within.points, voltage_v=v, current_a=i))
    return RunRead(name, within.rising, within.seconds, light, cleaned, read_points(cleaned.curve), even)


def _cleaned(v: Array, i: Array, light: float | None, around: Around) -> Cleaned:
    """The clean curve of points of a generator's signs, of no more points than can be reckoned with."""
    cell_c = STANDARD_C if around.cell_c is None else around.cell_c
    g = STANDARD_W_M2 if light is None else light
    cleaned = clean(Sweep(v.tolist(), i.tolist(), g, cell_c, around.accuracy, "generator"))
    return replace(cleaned, curve=thinned(cleaned.curve))


def _steadied(run: Run) -> Steady | None:
    """A run as it would be in its mean light, where the light was read at each point and swung.

    Rs is not known here: the voltages stay, for light a tenth off some millivolts a cell.
    """
    light = run.points.irradiance_w_m2
    if light is None or not np.all(light > 0) or np.ptp(light) < _SWINGS * light.mean():
        return None
    return in_mean_light(run.points.voltage_v, run.points.current_a, light)


def _pair(runs: Sequence[RunRead]) -> tuple[RunRead, RunRead] | None:
    """The first neighbours of which one goes up and one down, the rising one first."""
    for one, other in pairwise(runs):
        if one.rising != other.rising:
            return (one, other) if one.rising else (other, one)
    return None


def _alike(
    runs: tuple[RunRead, ...], facts: Mapping[str, Sequence[Quality]]
) -> tuple[tuple[RunRead, ...], tuple[RunRead, ...]]:
    """The best runs that are in one light, and the rest; Isc tells where no light is known."""
    known = all(each.irradiance_w_m2 is not None and each.run.points.light_w_m2 is not None for each in runs)
    isc = [each.points.isc_a.value if each.points.isc_a else None for each in runs]
    sizes = [each.irradiance_w_m2 for each in runs] if known else isc
    groups = [
        [place for place, other in enumerate(sizes) if other and abs(other / one - 1) <= LIGHT_SHARE]
        for one in sizes
        if one
    ]
    worth = {place: _worth(each, facts[each.name]) for place, each in enumerate(runs)}
    most = _best(groups, worth, sizes) if groups else list(worth)
    like = tuple(runs[place] for place in most)
    return like, tuple(each for each in runs if each not in like)


def _best(
    groups: Sequence[Sequence[int]], worth: Mapping[int, float], sizes: Sequence[float | None]
) -> Sequence[int]:
    """The group worth most; of those nearly as good the brightest: the way to 1000 W/m2 is shortest."""
    worths = [sum(worth[place] for place in group) for group in groups]
    near = [k for k, own in enumerate(worths) if own >= _NEARLY * max(worths)]
    return groups[max(near, key=lambda k: (max(sizes[place] or 0.0 for place in groups[k]), worths[k]))]


def _worth(each: RunRead, facts: Sequence[Quality]) -> float:
    """What a run is worth beside others: its points, less for each fact that does not hold."""
    return len(each.cleaned.curve.volts) / (1 + 3 * sum(not fact.held for fact in facts))


def _curve(
    like: tuple[RunRead, ...], found: Hysteresis | None, pair: tuple[RunRead, RunRead] | None, around: Around
) -> tuple[Cleaned, Literal["one run", "joined", "middle"], tuple[str, ...]]:
    """One curve of the runs in one light."""
    lights = [each.irradiance_w_m2 for each in like if each.irradiance_w_m2 is not None]
    light = float(np.mean(lights)) if lights else None
    charged = found and abs(found.power_share) > HYSTERESIS_SHARE and not found.of_light
    if charged and pair and all(each in like for each in pair):
        v, i = middle(pair[0].run, pair[1].run)
        return _cleaned(v, i, light, around), "middle", tuple(each.name for each in pair)
    if len(like) == 1:
        return like[0].cleaned, "one run", (like[0].name,)
    v, i = (
        np.concatenate(columns) for columns in zip(*(_columns(each, light) for each in like), strict=True)
    )
    order = np.argsort(v, kind="stable")
    return _cleaned(v[order], i[order], light, around), "joined", tuple(each.name for each in like)


def _columns(each: RunRead, light: float | None) -> tuple[Array, Array]:
    """Voltages and currents of a run, in the mean light of all where its own is known."""
    v, i = each.run.points.voltage_v, each.run.points.current_a
    if not light or not each.irradiance_w_m2 or each.points.isc_a is None:
        return v, i
    return v, i + each.points.isc_a.value * (light / each.irradiance_w_m2 - 1)


def _facts(each: RunRead) -> list[Quality]:
    """The facts of one run; its light is that of the points as they were read."""
    curve = each.cleaned.curve
    points = RawSweep(curve.volts, curve.amperes)
    clipped = len(each.cleaned.left_out) if each.cleaned.clipped else 0
    scatter = curve.accuracy.current_a or seen_scatter_a(curve.volts, curve.amperes)
    counts = Counts(int(curve.counts.sum()), clipped, scatter)
    return [*of_run(points, each.points, counts, each.name), *light_during(each.run.points, each.name)]


def _how_said(how: str, used: tuple[str, ...]) -> list[str]:
    if how == "middle":
        return [
            f"Up and down differ by the cells' own charge: the curve is the middle of {' and '.join(used)}."
        ]
    return [f"{len(used)} runs in one light were joined to one curve."] if how == "joined" else []
