"""A sweep parted into runs up and down, and the rests between them.

A load's log waits at open circuit before it draws, and a capacitor that is full stays there. Such a rest is
many readings of one point: it counts as one point in the curve, and tells Voc, or Isc, at its time. Rows
with neither voltage nor current are no part of a lit curve: nothing was connected. A leap back to the start
is no run.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from panewright.cell.root import Array
from panewright.curve.cleaning import directions
from panewright.curve.signs import Signs, generator_signs
from panewright.curve.stuck import Mask
from panewright.curve.swept.raw import RawSweep

_NOTHING = 0.02  # of the greatest voltage and current: both below it, nothing was connected
_OPEN = 0.005  # of the greatest current: at rest at open circuit
_SHORT = 0.01  # of the greatest voltage: at rest at short circuit
_STILL = 0.005  # of the greatest voltage that a rest may span
_LEAST_REST = 5
_REST_SHARE = 0.02  # of all points: fewer are part of the sweep
_LEAST_RUN = 4  #: points; fewer are a leap back
_LEAST_SPAN = 0.1  # of all voltages: less is noise before the sweep sets out


@dataclass(frozen=True, slots=True)
class Rest:
    """Readings of one point, at open or at short circuit."""

    at: Literal["open", "short"]
    readings: int
    value: float  #: Voc [V] or Isc [A], their mean
    sigma: float  #: standard deviation of that mean
    time_s: float | None = None
    irradiance_w_m2: float | None = None


@dataclass(frozen=True, slots=True)
class Run:
    """Points in one direction, a generator's signs."""

    points: RawSweep
    rising: bool

    @property
    def seconds(self) -> float | None:
        """How long it took; None where no time is known."""
        return None if self.points.time_s is None else float(np.ptp(self.points.time_s))


@dataclass(frozen=True, slots=True)
class Parted:
    """A sweep in its runs and rests."""

    runs: tuple[Run, ...]
    rests: tuple[Rest, ...]
    said: tuple[str, ...]


def part(raw: RawSweep, signs: Signs = "find") -> Parted:
    """The runs and rests of a lit sweep.

    >>> volts = np.array([6.0] * 6 + [5.0, 4.0, 2.0, 0.0, 2.0, 4.0, 5.0, 6.0])
    >>> amperes = np.array([0.0] * 6 + [1.5, 2.0, 2.1, 2.1, 2.1, 2.0, 1.5, 0.1])
    >>> parted = part(RawSweep(volts, amperes))
    >>> [(each.rising, len(each.points)) for each in parted.runs], parted.rests[0].value
    ([(False, 5), (True, 5)], 6.0)
    """
    finite = np.isfinite(raw.voltage_v) & np.isfinite(raw.current_a)
    known = raw.at(finite)
    if len(known) < _LEAST_RUN:
        return Parted((), (), ())
    turns = generator_signs(known.voltage_v, known.current_a, signs, dark=False)
    whole = known.turned(*turns)
    said = [f"{np.sum(~finite)} points without a finite voltage and current were left out."] * (
        not finite.all()
    )
    said += ["The voltage leads were swapped; the voltage's sign was turned."] * (turns[0] < 0)
    said += ["The current counted as a load's; its sign was turned."] * (turns[1] < 0)
    nothing = _nothing(whole)
    if np.any(nothing):
        said.append(
            f"{np.sum(nothing)} points with neither voltage nor current were left out: nothing was connected."
        )
        whole = whole.at(~nothing)
    groups = list(_rests(whole))
    rests = tuple(_rest(whole, kind, places) for kind, places in groups)
    said += [f"{each.readings} readings at rest at {each.at} circuit count as one point." for each in rests]
    points = _without_rests(whole, [places for _, places in groups])
    return Parted(tuple(_runs(points)), rests, tuple(said))


def _greatest(values: Array) -> float:
    """The greatest size that most of a sweep reaches, whatever lies beyond open circuit."""
    return float(np.quantile(np.abs(values), 0.95)) or 1.0


def _nothing(raw: RawSweep) -> Mask:
    v, i = np.abs(raw.voltage_v), np.abs(raw.current_a)
    return np.asarray((v < _NOTHING * _greatest(v)) & (i < _NOTHING * _greatest(i)))


def _rests(raw: RawSweep) -> Iterator[tuple[Literal["open", "short"], slice]]:
    """Neighbours that are many readings of open or of short circuit, in order."""
    v, i = raw.voltage_v, raw.current_a
    least = max(_LEAST_REST, _REST_SHARE * len(raw))
    open_ = np.abs(i) < _OPEN * _greatest(i)
    short = np.abs(v) < _SHORT * _greatest(v)
    state = np.where(open_, 1, np.where(short, 2, 0))
    ends = np.concatenate([[0], np.flatnonzero(np.diff(state)) + 1, [len(raw)]])
    for start, end in zip(ends[:-1].tolist(), ends[1:].tolist(), strict=True):
        still = np.ptp(v[start:end]) < _STILL * _greatest(v)
        if state[start] and end - start >= least and still:
            yield ("open" if state[start] == 1 else "short"), slice(start, end)


def _rest(raw: RawSweep, kind: Literal["open", "short"], places: slice) -> Rest:
    values = (raw.voltage_v if kind == "open" else raw.current_a)[places]
    time = None if raw.time_s is None else float(np.mean(raw.time_s[places]))
    light = raw.at(places).light_w_m2
    sigma = float(np.std(values, ddof=1) / np.sqrt(len(values)))
    return Rest(kind, len(values), float(np.mean(values)), sigma, time, light)


def _without_rests(raw: RawSweep, rests: list[slice]) -> RawSweep:
    """The points, each rest as the mean of its readings."""
    keep = np.ones(len(raw), dtype=bool)
    columns = raw.voltage_v.copy(), raw.current_a.copy()
    for places in rests:
        keep[places.start + 1 : places.stop] = False
        for column in columns:
            column[places.start] = column[places].mean()
    return replace(raw, voltage_v=columns[0], current_a=columns[1]).at(keep)


def _runs(raw: RawSweep) -> Iterator[Run]:
    """Runs in one direction; the point where two meet is of both, a leap back of few points is none."""
    spans: list[list[int]] = []
    leap: int | None = None
    for each in directions(raw.voltage_v) if len(raw) > 1 else ():
        v = raw.voltage_v[each]
        if len(v) >= _LEAST_RUN and np.ptp(v) >= _LEAST_SPAN * np.ptp(raw.voltage_v):
            if leap is None and spans:
                spans[-1][1] = each.start + 1
            spans.append([each.start if leap is None or spans else leap, each.stop])
            leap = None
        else:
            leap = each.start if leap is None else leap
            if spans:
                spans[-1][1] = each.stop
    for start, end in spans:
        points = raw.at(slice(start, end))
        rises = bool(points.voltage_v[-1] >= points.voltage_v[0])
        yield Run(points, rises if raw.rising is None else raw.rising)
