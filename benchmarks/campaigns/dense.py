"""A panel solved the long way round, to judge the quick one by.

A cell's law gives current at a junction voltage outright, so it is written down as a table and read
backwards: neighbours fence the root in, and Newton's steps inside the fence do the rest. Nothing else is ever
solved. A substring is a table of points, each exact: the current of its cells gives their voltage, the
voltage gives what flows beside them. A string adds such tables up by straight lines between points, strings
side by side likewise; the tables are fine in voltage and in current everywhere, and around every top of the
power they are made finer again and again until straight lines no longer matter.

Nothing here is shared with the package's own solver, and no shape of the power curve is assumed.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray
from scipy.special import wrightomega

from panewright.cell.diode import Diode
from panewright.circuit.network import Bridge, Network, String, Substring, Turned
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]
Picked = NDArray[np.intp]
Falling = Callable[[Array, Picked], tuple[Array, Array]]  #: x, of which -> value and minus its slope
STEPS = 600  #: of voltage, and as many of current, along the whole curve
_TABLE, _ROUNDS = 160, 80
_PASSES = 2
_PIECES, _CLOSER, _CLOSER_BY = 20, 9, 0.15  #: points around a top, looks at it, reach of the next look
_WORTH, _MOST_TOPS = 3e-3, 12  #: tops lower than the best by more than this are left


def inverse(falling: Falling, wanted: Array, low: Array, high: Array, start: Array) -> Array:
    """Where a falling function has a wanted value; the root lies between `low` and `high`."""
    found = np.clip(start, low, high)
    live, x = np.arange(found.size), found
    for turn in range(_ROUNDS):
        value, slope = falling(x, live)
        above = value > wanted
        low, high = np.where(above, x, low), np.where(above, high, x)
        step = (value - wanted) / slope
        small = np.abs(step) <= 1e-13 * np.abs(x) + 1e-16
        new = x + step
        inside = (new > low) & (new < high) & (turn % 6 != 5)
        new = np.where(inside | small, new, low + (high - low) / 2)
        found[live] = new
        keep = ~(small | (high - low <= 3e-16 * np.abs(x)))
        live, x, wanted, low, high = live[keep], new[keep], wanted[keep], low[keep], high[keep]
        if live.size == 0:
            break
    return found


@dataclass(frozen=True, slots=True, eq=False)
class Column:
    """Cells in series: voltage at a current, and minus its slope."""

    light_a: Array
    saturation_a: Array
    nvt_v: Array
    series_ohm: Array
    shunt_siemens: Array
    breakdown_siemens: Array
    breakdown_v: Array
    exponent: Array
    way: Array  #: -1 for a turned cell
    joints_ohm: float

    def volt(self, current: Array) -> tuple[Array, Array]:
        """Voltage of the whole column at each current, and minus its slope. [V, ohm]"""
        own = self.way * current[:, None]
        need = self.light_a - own
        junction, slope = self._junction(need)
        each = self.way * (junction - own * self.series_ohm)
        ohm = 1 / slope + self.series_ohm
        return each.sum(axis=1) - current * self.joints_ohm, ohm.sum(axis=1) + self.joints_ohm

    def _swallowed(self, v: Array, of: Picked) -> tuple[Array, Array]:
        """Current the junctions of some cells take, and its slope. [A, S]"""
        n, i0, shunt = self.nvt_v[of], self.saturation_a[of], self.shunt_siemens[of]
        m, end = self.exponent[of], self.breakdown_v[of]
        grown = np.exp(v / n)
        with np.errstate(divide="ignore"):
            top = np.where(m > 1, -end / np.maximum(m - 1, 0.0), np.inf)
        held = np.minimum(v, top)
        ratio = np.maximum(1 - held / end, 1e-300)
        g = self.breakdown_siemens[of]
        bishop = np.where(g > 0, g * ratio**-m, 0.0)
        current = i0 * (grown - 1) + v * shunt + held * bishop
        rising = np.where(v < top, bishop * (1 + m * v / (end * ratio)), 0.0)
        return current, i0 / n * grown + shunt + rising

    def _junction(self, need: Array) -> tuple[Array, Array]:
        """Voltage at which every junction takes what is needed, and its slope; minus infinity for never."""
        of = np.broadcast_to(np.arange(self.light_a.size), need.shape).ravel()
        plain = ((self.shunt_siemens == 0) & (self.breakdown_siemens == 0))[of]
        wanted = need.ravel()
        found = self.nvt_v[of] * np.log1p(np.maximum(wanted / self.saturation_a[of], -1.0))
        rest = np.flatnonzero(~plain)
        if rest.size:
            fences = [self._fence(k, need[:, k]) for k in range(self.light_a.size)]
            low, high, start = (np.stack(each, axis=1).ravel()[rest] for each in zip(*fences, strict=True))
            own = of[rest]

            def less(v: Array, picked: Picked) -> tuple[Array, Array]:
                current, slope = self._swallowed(v, own[picked])
                return -current, slope

            found[rest] = inverse(less, -wanted[rest], low, high, start)
        return found.reshape(need.shape), self._swallowed(found, of)[1].reshape(need.shape)

    def _fence(self, k: int, need: Array) -> tuple[Array, Array, Array]:
        """Bounds and a start for one cell, read from a table of its law. [V, V, V]"""
        table_v = self._table_v(k, float(need.min()), float(need.max()))
        table_a, _ = self._swallowed(table_v, np.full(table_v.size, k))
        place = np.clip(np.searchsorted(table_a, need), 1, table_v.size - 1)
        low, high = table_v[place - 1], table_v[place]
        below, above = table_a[place - 1], table_a[place]
        share = np.clip((need - below) / (above - below), 0, 1)
        return low, high, low + share * (high - low)

    def _table_v(self, k: int, least_a: float, most_a: float) -> Array:
        """Junction voltages that reach from the least to the greatest current one cell takes."""
        n, reach = self.nvt_v[k], max(most_a, 0.0) + 1e-12
        forward = n * np.log1p(reach / self.saturation_a[k] * np.linspace(0, 1.001, _TABLE) ** 4)
        if least_a >= 0:
            return forward
        shunt = 1 / self.shunt_siemens[k] if self.shunt_siemens[k] > 0 else math.inf
        reverse = np.linspace(0, 1, _TABLE) ** 2 * -1.001 * least_a * shunt
        if self.breakdown_siemens[k] > 0:
            reverse = -self.breakdown_v[k] * -np.expm1(-np.linspace(0, 34, 3 * _TABLE))
        return np.concatenate((-reverse[:0:-1], forward)) if np.all(np.isfinite(reverse)) else forward


def column(part: Substring) -> Column:
    """The cells of a substring as columns."""
    names = [field.name for field in fields(Diode)]
    figures = [np.array([getattr(cell, name) for cell in part.cells]) for name in names]
    figures[4] = 1 / figures[4]
    way = np.where(np.isin(np.arange(len(part.cells)), part.turned), -1.0, 1.0)
    return Column(*figures, way, math.fsum(part.joints_ohm))


@dataclass(slots=True, eq=False)
class Part:
    """A substring as a growing table of exact points: current of its cells, whole current, voltage."""

    cells: Column
    beside: Bypass | Turned | Bridge | None
    own_a: Array
    whole_a: Array
    voltage_v: Array

    @classmethod
    def of(cls, substring: Substring, least_a: float, most_a: float) -> Part:
        """A table over all whole currents from least to most, fine both ways."""
        part = cls(column(substring), substring.bypass, np.zeros(0), np.zeros(0), np.zeros(0))
        lights = part.cells.light_a
        near = np.outer(lights, np.concatenate((1 - _NEAR, 1 + _NEAR))).ravel()
        reach = np.array([2 * least_a - 1, 2 * most_a + 1, 10 * least_a - 1e3, 10 * most_a + 1e3])
        part.add(np.concatenate((np.linspace(least_a, most_a, STEPS // 3), near, -near, reach)))
        for _ in range(14):
            if not part.halved(least_a, most_a):
                break
        whole = most_a * np.concatenate((np.linspace(0, 1.5, STEPS)[1:], np.logspace(-12, -3, 100)))
        part.add_stuck(whole + part.limit_a)
        return part

    @property
    def limit_a(self) -> float:
        """What cells without any way back pass and no more; infinite where there are none."""
        cells = self.cells
        stuck = (cells.shunt_siemens == 0) & (cells.breakdown_siemens == 0) & (cells.way > 0)
        return float((cells.light_a + cells.saturation_a)[stuck].min()) if stuck.any() else math.inf

    def add(self, own: Array) -> None:
        """More points, at currents of the cells."""
        volt, _ = self.cells.volt(own)
        whole = own + beside_a(self.beside, volt)
        self._take(*(each[np.isfinite(volt) & np.isfinite(whole)] for each in (own, whole, volt)))

    def add_stuck(self, whole: Array) -> None:
        """Points at whole currents where such cells pass all they can and what lies beside takes the rest."""
        if self.beside is None or math.isinf(self.limit_a):
            return
        beside = whole[whole > self.limit_a] - self.limit_a
        volt = beside_v(self.beside, beside)
        own = self.own_a < self.limit_a * (1 - 1e-15)
        below = volt < (self.voltage_v[own].min() if own.any() else np.inf)
        self._take(np.full(below.sum(), self.limit_a), self.limit_a + beside[below], volt[below])

    def halved(self, least_a: float, most_a: float) -> bool:
        """Put points between neighbours too far apart; whether there were any."""
        seen = np.clip(self.voltage_v, -3.0, None)
        wide = np.abs(np.diff(seen)) > max(seen.max(), 0.1) / STEPS
        wide |= np.diff(np.clip(self.whole_a, least_a, most_a)) > (most_a - least_a) / STEPS
        more = (self.own_a[:-1] + np.diff(self.own_a) / 2)[wide & (self.whole_a[1:] > least_a)]
        more = np.setdiff1d(more, self.own_a)
        if more.size:
            self.add(more)
        return more.size > 0

    def finer(self, low_a: float, high_a: float) -> None:
        """More points between two whole currents."""
        if self.beside is None:
            self.add(np.linspace(low_a, high_a, _PIECES + 1))
            return
        for _ in range(_PASSES):
            first, last = _around(self.whole_a, low_a, high_a)
            self.add(np.linspace(self.own_a[first], self.own_a[last], _PIECES + 1))
        self.add_stuck(np.linspace(low_a, high_a, _PIECES + 1))

    def volt(self, current: Array) -> Array:
        """Voltage by straight lines between points. [V]"""
        return np.interp(current, self.whole_a, self.voltage_v, right=-1e6)

    def _take(self, own: Array, whole: Array, volt: Array) -> None:
        own, whole = np.concatenate((self.own_a, own)), np.concatenate((self.whole_a, whole))
        volt = np.concatenate((self.voltage_v, volt))
        order = np.lexsort((-volt, whole))
        self.own_a, self.whole_a, self.voltage_v = own[order], whole[order], volt[order]


_NEAR = np.concatenate(([0.0], 10.0 ** -np.arange(1.0, 9.0, 0.5)))


def beside_a(beside: Bypass | Turned | Bridge | None, volt: Array) -> Array:
    """Current that flows beside the cells from below to above. [A]"""
    if beside is None:
        return np.zeros_like(volt)
    if isinstance(beside, Bridge):
        return -volt / beside.ohm
    if isinstance(beside, Turned):
        return -beside_a(beside.diode, -volt)
    i0, n, rs = beside.saturation_a, beside.ideality_v, beside.series_ohm
    if rs == 0:
        return np.asarray(i0 * np.expm1(np.minimum(-volt / n, 600.0)))
    return np.asarray(n / rs * wrightomega(np.log(i0 * rs / n) + (i0 * rs - volt) / n).real - i0)


def beside_v(beside: Bypass | Turned | Bridge, current: Array) -> Array:
    """Voltage of a substring when that much flows beside its cells. [V]"""
    if isinstance(beside, Bridge):
        return -current * beside.ohm
    if isinstance(beside, Turned):
        return -beside_v(beside.diode, -current)
    above = np.maximum(1 + current / beside.saturation_a, 0.0)
    return np.asarray(-beside.ideality_v * np.log(above) - current * beside.series_ohm)


@dataclass(slots=True, eq=False)
class Row:
    """A string as a table: its parts, its tail and its blocking diode."""

    string: String
    parts: tuple[Part, ...]
    current_a: Array

    @classmethod
    def of(cls, string: String, most_v: float) -> Row:
        """A string whose table reaches from below zero volts to above a given voltage."""
        most_a = max(cell.light_a for part in string.substrings for cell in part.cells) * (1 + 1e-9) + 1e-6
        back = 0.0 if string.blocking is None else string.blocking.saturation_a
        least_a = -back if back or most_v == 0 else -1e-3 * most_a
        for _ in range(40):
            parts = tuple(Part.of(part, least_a, most_a) for part in string.substrings)
            row = cls(string, parts, np.zeros(0))
            if back or most_v == 0 or row.volt(np.array([least_a]))[0] >= most_v:
                break
            least_a *= 4
        nodes = [np.linspace(least_a, most_a, STEPS), _AROUND[-back < _AROUND] if back else np.zeros(1)]
        nodes += [part.whole_a for part in parts]
        row.current_a = np.unique(np.clip(np.concatenate(nodes), least_a, most_a))
        return row

    def volt(self, current: Array) -> Array:
        """Voltage at a current. [V]"""
        volt = np.sum([part.volt(current) for part in self.parts], axis=0) - current * self.string.tail_ohm
        return volt + beside_v(self.string.blocking, current) if self.string.blocking else volt

    def current(self, volt: Array) -> Array:
        """Current at a voltage, by straight lines between points. [A]"""
        return np.interp(-volt, np.maximum.accumulate(-self.volt(self.current_a)), self.current_a)

    def finer(self, low_a: float, high_a: float) -> None:
        """More points between two currents, in all its parts."""
        for part in self.parts:
            part.finer(low_a, high_a)
        more = np.linspace(low_a, high_a, _PIECES + 1)
        self.current_a = np.unique(np.concatenate((self.current_a, more)))

    def finer_between(self, low_v: float, high_v: float) -> None:
        """More points between two voltages."""
        for _ in range(_PASSES):
            falling = np.maximum.accumulate(-self.volt(self.current_a))
            first, last = _around(falling, -high_v, -low_v)
            self.finer(float(self.current_a[first]), float(self.current_a[last]))


def _around(rising: Array, low: float, high: float) -> tuple[int, int]:
    """Places of the neighbours that hold two values between them."""
    first, last = np.searchsorted(rising, low) - 1, np.searchsorted(rising, high, side="right")
    return max(int(first), 0), min(int(last), rising.size - 1)


_AROUND = np.concatenate([-(10.0 ** np.arange(-16.0, 0.0, 0.1)), [0.0], 10.0 ** np.arange(-16.0, 0.0, 0.1)])
Powers = Callable[[Array], Array]
Finer = Callable[[float, float], None]


def greatest_power_w(network: Network) -> float:
    """The greatest power of a panel, found without skipping anything. [W]"""
    strings = [string for string in network.strings if math.isfinite(string.tail_ohm)]
    with np.errstate(all="ignore"):
        if not strings:
            return 0.0
        return _of_one(strings[0], network) if len(strings) == 1 else _of_many(strings, network)


def _of_one(string: String, network: Network) -> float:
    row = Row.of(string, 0.0)
    points = row.current_a[row.current_a >= 0]

    def power(current: Array) -> Array:
        return current * (row.volt(current) - current * network.lead_ohm)

    return _highest(power, row.finer, points)


def _of_many(strings: list[String], network: Network) -> float:
    most_v = max(_open_v(string) for string in strings)
    rows = [Row.of(string, most_v) for string in strings]
    nodes = np.concatenate([row.volt(row.current_a) for row in rows])
    points = np.unique(
        np.concatenate((np.linspace(0, most_v, 4 * STEPS), nodes[(nodes > 0) & (nodes < most_v)]))
    )

    def power(bus: Array) -> Array:
        current = np.sum([row.current(bus) for row in rows], axis=0)
        return np.asarray((bus - current * network.lead_ohm) * current)

    def finer(low_v: float, high_v: float) -> None:
        for row in rows:
            row.finer_between(low_v, high_v)

    return _highest(power, finer, points)


def _open_v(string: String) -> float:
    """An upper bound of a string's own voltage. [V]"""
    cells = [cell for part in string.substrings for cell in part.cells]
    return sum(cell.ideality_v * math.log1p(cell.light_a / cell.saturation_a) for cell in cells) + 1e-9


def _highest(power: Powers, finer: Finer, at: Array) -> float:
    """The greatest power: around every top worth a look the tables are made finer, again and again."""
    watts = power(at)
    top = np.flatnonzero((watts[1:-1] >= watts[:-2]) & (watts[1:-1] >= watts[2:]) & (watts[1:-1] > 0)) + 1
    worth = top[watts[top] > (1 - _WORTH) * watts.max()]
    near = (at[-1] - at[0]) / STEPS
    chosen: list[int] = []
    for k in worth[np.argsort(-watts[worth])]:
        if len(chosen) < _MOST_TOPS and all(abs(at[k] - at[other]) > near for other in chosen):
            chosen.append(int(k))
    ends = ((min(at[k - 1], at[k] - near), max(at[k + 1], at[k] + near)) for k in chosen)
    return max((_climbed(power, finer, float(low), float(high)) for low, high in ends), default=0.0)


def _climbed(power: Powers, finer: Finer, low: float, high: float) -> float:
    """Power at one top, between its two neighbours."""
    best = 0.0
    for _ in range(_CLOSER):
        finer(low, high)
        fine = np.linspace(low, high, 2 * _PIECES + 1)
        watts = power(fine)
        place, reach = int(np.argmax(watts)), (high - low) * _CLOSER_BY
        best, low, high = float(watts.max()), float(fine[place] - reach), float(fine[place] + reach)
    return best
