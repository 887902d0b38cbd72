"""Panels that drive a heater, a fan or a pump without a battery, hour by hour.

Joined straight, both share voltage and current: the load's rising current meets the strings' falling one. A
booster holds the strings near one voltage and turns volts that the load does not want into amperes: it starts
a pump in dim light, and stands aside where the load wants more volts than it holds. A converter (MPPT) takes
the greatest power.

What does not turn pulls as a winding of its resistance; it starts where the current overcomes the friction
of standing, and stops where there is no speed at which it keeps up with the friction of turning. Strings are
known at told voltages (`told_volts`), between them by a cubic that keeps their fall. An hour is its mean.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from panewright.array.motor import Line, Turning
from panewright.array.year import Year
from panewright.battery.converter import Converter
from panewright.sky.hours import MONTH_DAYS, Floats, Hours

_TOLD = 41  # voltages at which strings are known
_HALVINGS = 60
_WH = 1000.0
_SLIGHT = 1e-9
Marks = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Booster:
    """A box that turns volts into amperes while the strings stay at one voltage."""

    held_v: float  #: of the strings
    most_a: float  #: to the load
    efficiency: float = 0.92  #: common practice, no source

    def __post_init__(self) -> None:
        if not (0 < self.held_v < math.inf and 0 < self.most_a < math.inf and 0 < self.efficiency <= 1):
            raise ValueError(f"a booster holds a voltage, passes a current and wins nothing, got {self}")


Join = Booster | Converter | None  #: None joins straight


@dataclass(frozen=True)
class Driven:
    """What a load gets and does in the mean of every hour."""

    hours: Hours
    volt: Floats
    amp: Floats
    speed_rad_s: Floats  #: 0 for a heater
    flow_m3_h: Floats  #: water or air; 0 for a heater
    stalled: Marks  #: it is light, and what should turn stands
    over: Marks  #: it gets more volts than it bears: only where it is joined straight
    greatest_w: Floats  #: what the strings could give

    @property
    def power_w(self) -> Floats:
        """Into the load."""
        return self.volt * self.amp

    @property
    def used_share(self) -> float:
        """Of what the strings could give."""
        return float(self.power_w.sum() / self.greatest_w.sum()) if self.greatest_w.sum() > 0 else 0.0

    def month_kwh(self) -> Floats:
        """Energy into the load by month."""
        return np.asarray(self.hours.by_month(self.power_w) / _WH)

    def day_m3(self) -> Floats:
        """Flow of a day in each month."""
        return np.asarray(self.hours.by_month(self.flow_m3_h) / np.array(MONTH_DAYS))


def told_volts(open_v: float) -> tuple[float, ...]:
    """Voltages at which a year is to tell the strings' current, up to record open circuit. [V]

    >>> len(told_volts(25.0)), told_volts(25.0)[0], told_volts(25.0)[-1]
    (41, 0.0, 25.0)
    """
    return tuple((open_v * np.sin(np.linspace(0.0, np.pi / 2, _TOLD))).tolist())


def driven(year: Year, line: Line, join: Join = None) -> Driven:
    """A load at one input of a year; `ValueError` where the year has several, or tells no currents."""
    if year.input_w.shape[1] != 1 or year.held_v.shape[1] < 2:
        raise ValueError("a load hangs at one input, whose currents are told: see `driven.told_volts`")
    strings, greatest = _Strings(year.held_v[0], year.held_a[:, 0]), year.input_w[:, 0]
    gives = _power_w(strings, greatest, join)
    at, may_start = _straight(strings, line)
    if gives is not None:
        by_box, starts = _boxed(gives, line, join)
        aside = isinstance(join, Booster) and line.volt(by_box) > join.held_v
        at, may_start = np.where(aside, at, by_box), may_start & aside | starts
    works = _kept_on(at > 0, may_start)
    at = np.where(works, at, 0.0)
    volt, amp = np.where(works, line.volt(at), 0.0), np.where(works, line.amp(at), 0.0)
    speed, flow = (at, line.load.flow(at)) if isinstance(line, Turning) else (np.zeros_like(at),) * 2
    over = volt > line.most_v * (1 + _SLIGHT)
    return Driven(year.hours, volt, amp, speed, flow, (greatest > 0) & ~works, over, greatest)


class _Strings:
    """Current of the strings at any voltage in every hour."""

    def __init__(self, volts: Floats, amps: Floats) -> None:
        self.volts, self.count = volts, len(amps)
        self.pieces = PchipInterpolator(volts, amps, axis=1).c  # power, piece, hour
        self.hour = np.arange(self.count)

    def amp(self, volt: Floats) -> Floats:
        """At one voltage for each hour; none beyond the last that is told. [A]"""
        k = np.clip(np.searchsorted(self.volts, volt, side="right") - 1, 0, len(self.volts) - 2)
        x, found = volt - self.volts[k], np.zeros(self.count)
        for power in self.pieces:
            found = found * x + power[k, self.hour]
        return np.where(volt > self.volts[-1], 0.0, np.maximum(found, 0.0))


def _power_w(strings: _Strings, greatest: Floats, join: Join) -> Floats | None:
    """What a box brings to the load; None where there is none. [W]"""
    if join is None:
        return None
    if isinstance(join, Converter):
        return join.out_w(greatest)
    held = np.full(strings.count, join.held_v)
    return np.asarray(join.efficiency * join.held_v * strings.amp(held))


def _straight(strings: _Strings, line: Line) -> tuple[Floats, Marks]:
    """The load's figure where both currents meet, and whether it can start there."""
    top = np.full(strings.count, _reach(line, strings.volts[-1]))
    at = _root(lambda x: strings.amp(line.volt(x)) - line.amp(x), top)
    still = _root(
        lambda amps: strings.amp(line.still_ohm * amps) - amps, strings.amp(np.zeros(strings.count))
    )
    return at, (still >= line.start_a) & (still > 0)


def _boxed(gives: Floats, line: Line, join: Join) -> tuple[Floats, Marks]:
    """The load's figure where it takes all that a box brings, or all it may; and whether it can start."""
    most_a = join.most_a if join is not None else math.inf
    top = np.full(gives.size, line.most)
    at = _root(lambda x: np.minimum(gives - line.volt(x) * line.amp(x), most_a - line.amp(x)), top)
    still = np.minimum(np.sqrt(gives / line.still_ohm), most_a)
    return at, (still >= line.start_a) & (gives > 0)


def _reach(line: Line, volt: float) -> float:
    """A figure at which the load's voltage lies over the strings'."""
    at = line.most
    while float(line.volt(np.array(at))) < volt:
        at *= 2
    return at


def _root(over: Callable[[Floats], Floats], top: Floats) -> Floats:
    """Where what falls from above 0 crosses it; the top where it does not, 0 where it never is above."""
    low, high = np.zeros_like(top), top.copy()
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        above = over(middle) > 0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    return np.where(over(np.zeros_like(top)) > 0, low, 0.0)


def _kept_on(may_run: Marks, may_start: Marks) -> Marks:
    """What runs keeps on while it may, and begins only where it may start."""
    works, on = np.zeros(may_run.size, dtype=bool), False
    for h in range(may_run.size):
        on = bool(may_run[h]) and (on or bool(may_start[h]))
        works[h] = on
    return works
