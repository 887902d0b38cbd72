"""Which panel in which string: the arrangement that gives most energy in the states of a year.

A year is stood for by some states of light and heat, each with its hours. In each of them every panel has a
curve; what strings give follows by adding voltages, what inputs give by adding currents at one voltage, so an
arrangement is weighed in a fraction of a millisecond. Few arrangements are all tried. Of many, panels are
sorted by their current, laid in strings in that order, and exchanged, two at a time or for one that is left
out, as long as an exchange gains. Nothing gives more than every panel on a tracker of its own: that is told
beside it.

A string's panels carry one current, so like currents belong together; strings at one input share a voltage,
so they are of one length. Strings side by side can feed each other: where one then asks for a fuse and none
fits, fewer lie at an input, others beside it, or the panels that bear too little are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import combinations, combinations_with_replacement
from math import comb, factorial, inf, prod

import numpy as np

from panewright.array.fuses import FUSE_V, Fusing
from panewright.cell.root import Array

_POINTS = 400  # of voltage
_ALL = 3000  # arrangements that are all tried
_GAIN = 1e-9  # of the energy: an exchange that gains less is none
_SHAPES = 200  # of strings and inputs, at most
Rows = tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class States:
    """Light and heat of a year, put together: every panel's curve in each state."""

    current_a: Array  #: (state, current): rising from 0
    volt_v: Array  #: (state, panel, current)
    hours: Array  #: of each state, in a year


@dataclass(frozen=True)
class Allowed:
    """What the inputs bear and ask."""

    inputs: int
    most_rows: int  #: strings at one input
    least_v: float  #: at work in record heat
    most_v: float  #: open, in record cold
    cold_v: tuple[float, ...]  #: of each panel, open in record cold
    hot_v: tuple[float, ...]  #: and at its best in record heat
    held_v: float | None = None  #: an input joined straight to a battery works there
    work_v: tuple[float, ...] = ()  #: of each panel, at its best in standard light; empty where nothing asks
    most_work_v: float = inf  #: past which a string throws too much away
    fusing: Fusing | None = None  #: None where no string can be fed by another
    floor_v: float = 0.0  #: an input that seeks its greatest power works no lower

    def __post_init__(self) -> None:
        if self.inputs < 1 or self.most_rows < 1 or not 0 <= self.least_v < self.most_v:
            raise ValueError(
                f"an input or more, a string or more, and a least voltage under the most: {self}"
            )

    def holds(self, row: Sequence[int]) -> bool:
        """Whether a string stays within the voltages."""
        cold, hot = sum(self.cold_v[p] for p in row), sum(self.hot_v[p] for p in row)
        work = sum(self.work_v[p] for p in row) if self.work_v else 0.0
        return cold <= self.most_v and hot >= self.least_v and work <= self.most_work_v

    def keeps(self, rows: Rows) -> bool:
        """Whether the strings at one input stay within every limit."""
        return self.lacking(rows) == 0.0

    def lacking(self, rows: Rows) -> float:
        """How many strings at one input break a limit, and somewhat more the further they are from it."""
        found = float(sum(not self.holds(row) for row in rows))
        if self.fusing is None or len(rows) < 2:
            return found
        found += self.fusing.lacking(rows)
        cold = max(sum(self.cold_v[p] for p in row) for row in rows)
        return found + float(cold > FUSE_V and self.fusing.needed(rows))


@dataclass(frozen=True)
class Arrangement:
    """Panels by string and input, with what they give."""

    inputs: tuple[Rows, ...]
    left_out: tuple[int, ...]
    kwh: float
    alone_kwh: float  #: every panel on its own tracker, those left out too: no arrangement gives more

    @property
    def lost_share(self) -> float:
        """Of what each panel alone would give."""
        return 1 - self.kwh / self.alone_kwh if self.alone_kwh > 0 else 0.0


@dataclass
class _Weighing:
    """States and limits, with the strings that were met."""

    states: States
    allowed: Allowed
    volts: Array
    met: dict[frozenset[int], Array] = field(default_factory=dict)

    def row(self, row: Sequence[int]) -> Array:
        """Current of a string at each voltage: (state, voltage). [A]"""
        key = frozenset(row)
        if key not in self.met:
            curves = self.states.volt_v[:, sorted(row)].sum(axis=1)
            pairs = zip(curves, self.states.current_a, strict=True)
            self.met[key] = np.array([_at(self.volts, curve, amps) for curve, amps in pairs])
        return self.met[key]

    def input_kwh(self, rows: Rows) -> float:
        """Energy of an input; less than nothing where a string breaks a limit."""
        if not rows:
            return 0.0
        if not self.allowed.keeps(rows):
            return -1.0
        amps = sum(self.row(row) for row in rows)
        if self.allowed.held_v is not None:
            watts = (self.volts * amps)[:, np.searchsorted(self.volts, self.allowed.held_v), None]
        else:
            first = min(int(np.searchsorted(self.volts, self.allowed.floor_v)), _POINTS - 1)
            watts = (self.volts * amps)[:, first:]
        best = np.maximum(watts.max(axis=1), 0.0)  # what stands between keeps current from flowing back
        return float(best @ self.states.hours / 1000)

    def kwh(self, inputs: Sequence[Rows]) -> float:
        """Energy of all inputs; minus infinity where a limit is broken."""
        each = [self.input_kwh(rows) for rows in inputs]
        return sum(each) if min(each) >= 0 else -np.inf

    def worth(self, inputs: Sequence[Rows]) -> tuple[float, float]:
        """First what it lacks, less than nothing, then its energy: the greater, the better."""
        lacks = sum(self.allowed.lacking(rows) for rows in inputs)
        return (-lacks, 0.0) if lacks > 0 else (0.0, self.kwh(inputs))


def _at(volts: Array, curve: Array, amps: Array) -> Array:
    """Current at each voltage; past its open voltage a string swallows what others drive into it. [A]"""
    found = np.interp(volts, curve[::-1], amps[::-1])
    if curve[0] > curve[1]:
        slope = (amps[1] - amps[0]) / (curve[0] - curve[1])
        return np.asarray(found - slope * np.maximum(volts - curve[0], 0.0))
    return np.asarray(np.where(volts > curve[0], 0.0, found))  # in the dark it neither gives nor takes


def arranged(states: States, allowed: Allowed) -> Arrangement | None:
    """The best arrangement found; None where no string holds the voltages."""
    weighing, best = _weighing(states, allowed), None
    for shape in _shapes(allowed, states.volt_v.shape[1]):
        found = _of_shape(weighing, shape)
        if found and (best is None or found[1] > best[1] * (1 + _GAIN)):
            best = found
    if best is None:
        return None
    used = {p for rows in best[0] for row in rows for p in row}
    left = tuple(p for p in range(states.volt_v.shape[1]) if p not in used)
    return Arrangement(best[0], left, best[1], alone_kwh(states))


def weighed(states: States, allowed: Allowed, inputs: tuple[Rows, ...]) -> float:
    """Energy of an arrangement; minus infinity where it breaks a limit. [kWh]"""
    return _weighing(states, allowed).kwh(inputs)


def alone_kwh(states: States) -> float:
    """Every panel on a tracker of its own. [kWh]"""
    best = (states.current_a[:, None] * states.volt_v).max(axis=2)
    return float(np.maximum(best, 0.0).sum(axis=1) @ states.hours / 1000)


def _weighing(states: States, allowed: Allowed) -> _Weighing:
    most = min(allowed.most_v, float(states.volt_v.max(axis=2).sum(axis=1).max()))
    volts = np.linspace(0.0, most, _POINTS)
    if allowed.held_v is not None:
        volts = np.unique(np.append(volts, allowed.held_v))
    return _Weighing(states, allowed, volts)


def _shapes(allowed: Allowed, panels: int) -> Iterator[tuple[tuple[int, int], ...]]:
    """For each input how many strings of how many panels; the fullest first."""
    each = [
        (rows, long)
        for rows in range(1, allowed.most_rows + 1)
        for long in range(1, panels // rows + 1)
        if _may_hold(allowed, long) and _may_be_fused(allowed, rows, long)
    ]
    found = [
        shape
        for count in range(1, allowed.inputs + 1)
        for shape in combinations_with_replacement(each, count)
        if sum(rows * long for rows, long in shape) <= panels
    ]
    found.sort(key=lambda shape: -sum(rows * long for rows, long in shape))
    yield from found[:_SHAPES]


def _may_hold(allowed: Allowed, long: int) -> bool:
    """Whether some string of so many panels may hold the voltages."""
    cold, hot = sorted(allowed.cold_v), sorted(allowed.hot_v, reverse=True)
    return sum(cold[:long]) <= allowed.most_v and sum(hot[:long]) >= allowed.least_v


def _may_be_fused(allowed: Allowed, rows: int, long: int) -> bool:
    """Whether so many strings at one input may have the fuses they ask for."""
    fusing = allowed.fusing
    if fusing is None or rows < 2:
        return True
    return sum(fusing.may_lie(p, rows) for p in range(len(fusing.isc_a))) >= rows * long


def _of_shape(
    weighing: _Weighing, shape: tuple[tuple[int, int], ...]
) -> tuple[tuple[Rows, ...], float] | None:
    """The best of a shape."""
    panels = weighing.states.volt_v.shape[1]
    if _ways(shape, panels) <= _ALL:
        ways = _every(tuple(range(panels)), shape)
        best = max(((way, weighing.kwh(way)) for way in ways), key=lambda found: found[1])
    else:
        best = _climbed(weighing, shape)
    return best if best[1] > 0 else None


def _climbed(weighing: _Weighing, shape: tuple[tuple[int, int], ...]) -> tuple[tuple[Rows, ...], float]:
    """From panels by their current; where that ends at a broken limit, by the fuses that they bear."""
    best = _exchanged(weighing, _dealt(_by_current(weighing.states), shape))
    fusing = weighing.allowed.fusing
    if best[1] > 0 or fusing is None:
        return best
    order = sorted(range(len(fusing.isc_a)), key=lambda p: -fusing.room(p))
    return _exchanged(weighing, _dealt(order, shape))


def _ways(shape: tuple[tuple[int, int], ...], panels: int) -> int:
    """How many ways there are to deal panels into a shape."""
    used, ways = 0, 1
    for rows, long in shape:
        ways *= prod(comb(panels - used - k * long, long) for k in range(rows)) // factorial(rows)
        used += rows * long
    return ways


def _every(free: tuple[int, ...], shape: tuple[tuple[int, int], ...]) -> Iterator[tuple[Rows, ...]]:
    """Every way."""
    if not shape:
        yield ()
        return
    for rows in _every_rows(free, *shape[0]):
        used = {p for row in rows for p in row}
        for rest in _every(tuple(p for p in free if p not in used), shape[1:]):
            yield (rows, *rest)


def _every_rows(free: tuple[int, ...], rows: int, long: int) -> Iterator[Rows]:
    """Every way to deal so many strings; strings of one input have no order."""
    if rows == 0:
        yield ()
        return
    for row in combinations(free, long):
        after = tuple(p for p in free if p not in row and p > row[0])
        for rest in _every_rows(after, rows - 1, long):
            yield (row, *rest)


def _by_current(states: States) -> list[int]:
    """Panels by falling current at their best."""
    at = (states.current_a[:, None] * states.volt_v).argmax(axis=2)
    best = np.take_along_axis(states.current_a, at, axis=1)
    return [int(p) for p in np.argsort(-(states.hours @ best), kind="stable")]


def _dealt(order: Sequence[int], shape: tuple[tuple[int, int], ...]) -> tuple[Rows, ...]:
    """Panels laid in strings in this order; the last are left out."""
    inputs = []
    for rows, long in shape:
        inputs.append(tuple(tuple(order[k * long : (k + 1) * long]) for k in range(rows)))
        order = order[rows * long :]
    return tuple(inputs)


def _exchanged(weighing: _Weighing, begun: tuple[Rows, ...]) -> tuple[tuple[Rows, ...], float]:
    """Panels exchanged as long as that gains: first on what is lacking, then in energy."""
    now, worth = begun, weighing.worth(begun)
    gains = True
    while gains:
        gains = False
        for one, other in combinations(range(weighing.states.volt_v.shape[1]), 2):
            new = _swapped(now, one, other)
            if new == now:
                continue
            found = weighing.worth(new)
            if _better(found, worth):
                now, worth, gains = new, found, True
    return now, worth[1] if worth[0] == 0 else -inf


def _better(found: tuple[float, float], worth: tuple[float, float]) -> bool:
    """Lacks less, or lacks nothing more and gives more."""
    return found[0] > worth[0] + _GAIN or (found[0] >= worth[0] and found[1] > worth[1] * (1 + _GAIN))


def _swapped(inputs: tuple[Rows, ...], one: int, other: int) -> tuple[Rows, ...]:
    """Two panels in each other's place; the same where both lie in one string or both are left out."""
    where = (
        [tuple(one in row for row in rows) for rows in inputs],
        [tuple(other in row for row in rows) for rows in inputs],
    )
    if where[0] == where[1]:
        return inputs
    turn = {one: other, other: one}
    return tuple(tuple(tuple(turn.get(p, p) for p in row) for row in rows) for rows in inputs)
