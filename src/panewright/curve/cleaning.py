"""Raw readings of a sweep made into a clean curve, and every step told.

Meters and tracers write a curve in any way: current positive or negative, voltage rising or falling, once
or there and back, with gaps, with rows that are no numbers, with the same row twice, with readings stuck at
the end of the meter's range. What is done, in this order: rows that are no numbers go; lone points far
off go; points stuck at the end of a range go; the signs become a generator's; all are sorted by voltage;
those of one voltage become their mean, counted as so many readings. Nothing goes without a sentence.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from panewright.cell.root import Array
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.points import seen_scatter_a
from panewright.curve.signs import Signs, generator_signs
from panewright.curve.stuck import Mask, meter_step, stuck_current, stuck_voltage
from panewright.errors import CurveError, Problem

_FAR_OFF = 6.0  # times the scatter outside all near neighbours: a lone point that is no part of the curve
_LONE_SHARE = 0.01  # of the greatest current, at the least


@dataclass(frozen=True, slots=True)
class Sweep:
    """Raw readings as they come, and what was known of light and heat."""

    voltage_v: Sequence[float]
    current_a: Sequence[float]
    irradiance_w_m2: float
    cell_c: float
    accuracy: Accuracy = field(default_factory=Accuracy)
    signs: Signs = "find"


@dataclass(frozen=True, slots=True)
class Cleaned:
    """A clean curve, what was done to get it, and the rows that were left out."""

    curve: Measured
    said: tuple[str, ...]
    left_out: tuple[tuple[float, float], ...]  #: voltage and current as read
    clipped: bool  #: part of the curve ran past the meter's range
    sweeps: int


def clean(sweep: Sweep) -> Cleaned:
    """The clean curve of a sweep; `CurveError` if nothing usable is left.

    >>> back = Sweep((0.6, 0.5, 0.5, 0.0, float("nan")), (0.1, -2.9, -2.9, -3.0, 0.0), 1000, 25)
    >>> cleaned = clean(back)
    >>> cleaned.curve.voltage_v, cleaned.curve.current_a
    ((0.0, 0.5, 0.6), (3.0, 2.9, -0.1))
    >>> print(*cleaned.said, sep="\\n")
    1 row without a finite voltage and current was left out.
    1 row that repeats the row before it was left out.
    The current counted as a load's; its sign was turned.
    The sweep ran down; it was turned round.
    """
    v, i = np.asarray(sweep.voltage_v, dtype=float), np.asarray(sweep.current_a, dtype=float)
    _must_be_readings(v, i, sweep)
    said: list[str] = []
    out: list[tuple[float, float]] = []
    v, i = _without(~(np.isfinite(v) & np.isfinite(i)), v, i, (_NO_NUMBER, said, out))
    v, i = _without(_stutters(v, i), v, i, (_REPEATED, said, out))
    _must_be_enough(v)
    v, i = _without(_lone(v, i), v, i, (_ALONE, said, out))
    stuck = stuck_current(v, i) | stuck_voltage(v, i)
    v, i = _without(stuck, v, i, (_AT_END, said, out))
    _must_be_enough(v)
    turn_v, turn_i = generator_signs(v, i, sweep.signs, sweep.irradiance_w_m2 == 0)
    said += _signs_said(turn_v, turn_i)
    v, i = turn_v * v, turn_i * i
    sweeps = directions(v)
    said += _order_said(v, i, sweeps)
    curve, merged = _sorted(v, i, sweep)
    said += merged
    return Cleaned(curve, tuple(said), tuple(out), bool(np.any(stuck)), len(sweeps))


_NO_NUMBER = (
    "row without a finite voltage and current was",
    "rows without a finite voltage and current were",
)
_REPEATED = ("row that repeats the row before it was", "rows that repeat the row before them were")
_AT_END = (
    "point stuck at the end of the meter's range was",
    "points stuck at the end of the meter's range were",
)
_ALONE = ("lone point far off the curve was", "lone points far off the curve were")


def _must_be_readings(v: Array, i: Array, sweep: Sweep) -> None:
    """Every problem with the readings as a whole."""
    problems = []
    if v.ndim != 1 or v.shape != i.shape:
        reason = f"{v.size} voltages and {i.size} currents do not pair."
        problems.append(Problem(reason, "Give one current for each voltage."))
    if not 0 <= sweep.irradiance_w_m2 < np.inf:
        reason = f"The light is {sweep.irradiance_w_m2:g} W/m2."
        problems.append(Problem(reason, "Give 0 for the dark, or what the sun was, up to about 1300."))
    if not -273.15 < sweep.cell_c < np.inf:
        problems.append(Problem(f"The cell was at {sweep.cell_c:g} degC.", "Give its temperature in degC."))
    if problems:
        raise CurveError(problems)


def _must_be_enough(v: Array) -> None:
    if v.size < 2 or v.max() == v.min():
        reason = "Fewer than two usable points at different voltages are left."
        raise CurveError([Problem(reason, "Sweep the voltage from zero past open circuit.")])


def _without(
    drop: Mask, v: Array, i: Array, tell: tuple[tuple[str, str], list[str], list[tuple[float, float]]]
) -> tuple[Array, Array]:
    """The points without some, which are told and kept aside."""
    (one, many), said, out = tell
    count = int(np.sum(drop))
    if count:
        said.append(f"{count} {one if count == 1 else many} left out.")
        out += zip(v[drop].tolist(), i[drop].tolist(), strict=True)
    return v[~drop], i[~drop]


def _stutters(v: Array, i: Array) -> Mask:
    """Rows equal to the row before them."""
    same = np.zeros(v.size, dtype=bool)
    same[1:] = (np.diff(v) == 0) & (np.diff(i) == 0)
    return same


def _signs_said(turn_v: float, turn_i: float) -> list[str]:
    said = ["The voltage leads were swapped; the voltage's sign was turned."] if turn_v < 0 else []
    if turn_i < 0:
        said.append("The current counted as a load's; its sign was turned.")
    return said


def _lone(v: Array, i: Array) -> Mask:
    """Points that lie outside all four near neighbours by far more than the scatter."""
    order = np.argsort(v, kind="stable")
    x, y = v[order], i[order]
    lone = np.zeros(v.size, dtype=bool)
    if v.size < 9:
        return lone
    distinct = np.concatenate([[True], np.diff(x) > 0])
    scatter = seen_scatter_a(x[distinct], y[distinct])
    limit = max(_FAR_OFF * scatter, 4 * meter_step(y), _LONE_SHARE * float(np.quantile(np.abs(y), 0.9)))
    near = np.stack([y[:-4], y[1:-3], y[3:-1], y[4:]])
    off = (y[2:-2] > near.max(axis=0) + limit) | (y[2:-2] < near.min(axis=0) - limit)
    lone[order[2:-2][off]] = True
    return lone


def directions(v: Array) -> list[slice]:
    """The runs of the readings in one direction; small steps back do not end one."""
    least = 0.3 * float(np.ptp(v))
    turns, way, extreme = [0], 0, 0
    for k in range(1, v.size):
        ahead = (v[k] - v[extreme]) * (way or np.sign(v[k] - v[extreme]))
        if ahead > 0:
            way, extreme = int(np.sign(v[k] - v[extreme])) if way == 0 else way, k
        elif way and -ahead > least:
            turns.append(extreme)
            way, extreme = -way, k
    return [slice(start, end) for start, end in zip(turns, [*turns[1:], v.size], strict=True)]


def _order_said(v: Array, i: Array, sweeps: list[slice]) -> list[str]:
    """Directions, disorder within a sweep, and what lies between the sweeps."""
    said = []
    rising = [bool(v[part][-1] >= v[part][0]) for part in sweeps]
    if len(sweeps) > 1:
        said.append(
            f"{len(sweeps)} sweeps were put together, {sum(rising)} up and {len(rising) - sum(rising)} down."
        )
        said.append(f"They differ by {_apart(v, i, sweeps):.2g} A in the middle of the points.")
    elif not rising[0]:
        said.append("The sweep ran down; it was turned round.")
    back = sum(
        int(np.sum(np.diff(v[part]) * (1 if up else -1) < 0)) for part, up in zip(sweeps, rising, strict=True)
    )
    if back:
        words = "point out of order was" if back == 1 else "points out of order were"
        said.append(f"{back} {words} sorted in.")
    return said


def _apart(v: Array, i: Array, sweeps: list[slice]) -> float:
    """The middle of the differences between the first sweep and each other. [A]"""
    first = np.argsort(v[sweeps[0]])
    x, y = v[sweeps[0]][first], i[sweeps[0]][first]
    others = slice(sweeps[1].start, None)
    inside = (v[others] >= x[0]) & (v[others] <= x[-1])
    if not np.any(inside):
        return 0.0
    return float(np.median(np.abs(i[others][inside] - np.interp(v[others][inside], x, y))))


def _sorted(v: Array, i: Array, sweep: Sweep) -> tuple[Measured, list[str]]:
    """The curve by rising voltage, readings of one voltage made one point."""
    levels, place, counts = np.unique(v, return_inverse=True, return_counts=True)
    means = np.bincount(place, weights=i) / counts
    many = int(np.sum(counts > 1))
    said = []
    if many:
        share = "voltage was" if many == 1 else "voltages were"
        said.append(
            f"{many} {share} read more than once; the mean of its readings is one point, counted so often."
        )
    repeats = tuple(int(count) for count in counts) if many else ()
    curve = Measured(
        tuple(float(x) for x in levels),
        tuple(float(y) for y in means),
        sweep.irradiance_w_m2,
        sweep.cell_c,
        sweep.accuracy,
        repeats,
    )
    return curve, said
