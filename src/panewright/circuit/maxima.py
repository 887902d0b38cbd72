"""Every maximum of a panel's power, and a proof that none higher was overlooked.

Shade and bypass diodes give the power curve several humps, and a search by slope alone may climb the
wrong one. Voltage falls with current, so between two points of the curve the power is nowhere above

    (greater current) x (greater voltage).

The curve is cut into pieces at even steps, both of current and of voltage, and at the light currents of
the substrings. A piece is cut further while its ends say that a hump lies in it (power rises at one end
and falls at the other), or while its bound is more than a hair above the best power found. When nothing is
left to cut, no point of the curve beats the best by more than that hair: one part in ten thousand.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.key_points import KeyPoints
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.circuit.rows import strings_v
from panewright.circuit.solve import bus_a_and_siemens, bus_v, terminal_a
from panewright.circuit.wiring import Wiring, wire

_HAIR = 1e-4  # of the power: no overlooked hump can be higher by more
_FINE = 1e-4  # of the range: a hump is fenced in this closely, then found by interpolation
_INTERPOLATIONS = 3
_FIRST, _PARTS = 48, 16  # pieces to begin with, and pieces a piece is cut into
_ROUNDS = 40


@dataclass(frozen=True, slots=True)
class Walk:
    """Points along the curve from short to open circuit, by a parameter that falls or rises steadily."""

    at: Array  #: current of one string where all are alike, else bus voltage
    volt: Array
    current: Array
    climb_w: Array  #: slope of the power by the parameter

    @property
    def power_w(self) -> Array:
        """Power at every point. [W]"""
        return self.volt * self.current

    def of(self, keep: NDArray[np.intp] | NDArray[np.bool_]) -> Walk:
        """Only some of the points."""
        return Walk(self.at[keep], self.volt[keep], self.current[keep], self.climb_w[keep])


Step = Callable[[Array], Walk]


def key_points(network: Network) -> KeyPoints:
    """Isc, Voc and the greatest power of a panel."""
    return power_maxima(network)[0]


def power_maxima(network: Network) -> tuple[KeyPoints, ...]:
    """All local maxima of a panel's power, the greatest first; each with the panel's Isc and Voc."""
    wired = wire(network)
    isc, voc = float(terminal_a(wired, np.zeros((1, 1)))[0, 0]), _open_v(wired)
    if isc <= 0 or voc <= 0:
        return (KeyPoints(0.0, 0.0, 0.0, 0.0),)
    step, first = _walker(wired, isc, voc)
    walk = _cut(step, step(first))
    tops = _tops(step, walk)
    order = np.argsort(-tops.power_w, kind="stable")
    return tuple(KeyPoints(isc, voc, float(tops.current[k]), float(tops.volt[k])) for k in order)


def _open_v(wired: Wiring) -> float:
    return float(bus_v(wired, np.zeros((1, 1)))[0, 0])


def _walker(wired: Wiring, isc: float, voc: float) -> tuple[Step, Array]:
    """How to get from a parameter to a point of the curve, and the parameters to begin with."""
    if wired.count.size == 1:
        count = float(wired.count[0])
        knees = np.outer(wired.dimmest_a, np.array([0.98, 1.0])).ravel()
        even = np.linspace(0.0, isc / count, _FIRST + 1)
        first = np.concatenate((even, knees[(knees > 0) & (knees < isc / count)]))
        return lambda at: _by_current(wired, count, at), np.sort(first)
    top = voc
    bottom = wired.lead_ohm * isc
    return lambda at: _by_bus(wired, at), np.linspace(bottom, top, 2 * _FIRST + 1)


def _by_current(wired: Wiring, count: float, at: Array) -> Walk:
    """Points of a panel of like strings at currents of one string."""
    volt, ohm = (each[:, 0] for each in strings_v(wired, at[:, None]))
    return Walk(at, volt, at * count, count * (volt - at * ohm))


def _by_bus(wired: Wiring, at: Array) -> Walk:
    """Points of a panel of unlike strings at bus voltages."""
    current, siemens = (each[:, 0] for each in bus_a_and_siemens(wired, at[:, None]))
    volt = at - current * wired.lead_ohm
    return Walk(at, volt, current, current * (1 + wired.lead_ohm * siemens) - volt * siemens)


def _cut(step: Step, walk: Walk) -> Walk:
    """Add points until every hump is fenced in closely and nothing higher can hide."""
    for _ in range(_ROUNDS):
        best = walk.power_w.max()
        bound = np.maximum(walk.current[1:], walk.current[:-1]) * np.maximum(walk.volt[1:], walk.volt[:-1])
        width = np.diff(walk.at)
        wide = width > _FINE * walk.at[-1]
        open_ = (bound > best * (1 + _HAIR)) | _humps(walk)
        places = np.flatnonzero(open_ & wide)
        if places.size == 0:
            break
        inner = np.arange(1, _PARTS) / _PARTS
        more = step((walk.at[places, None] + width[places, None] * inner).ravel())
        walk = _merged(walk, more)
    return walk


def _humps(walk: Walk) -> NDArray[np.bool_]:
    """Pieces at whose lower end the power rises and at whose upper end it falls."""
    return (walk.climb_w[:-1] > 0) & (walk.climb_w[1:] <= 0)


def _merged(one: Walk, other: Walk) -> Walk:
    at = np.concatenate((one.at, other.at))
    order = np.argsort(at, kind="stable")
    both = Walk(
        at,
        np.concatenate((one.volt, other.volt)),
        np.concatenate((one.current, other.current)),
        np.concatenate((one.climb_w, other.climb_w)),
    )
    return both.of(order)


def _tops(step: Step, walk: Walk) -> Walk:
    """The points of locally greatest power, by interpolation of the slope."""
    places = np.flatnonzero(_humps(walk))
    low, high = walk.of(places), walk.of(places + 1)
    for _ in range(_INTERPOLATIONS):
        share = low.climb_w / (low.climb_w - high.climb_w)
        tops = step(low.at + np.clip(share, 0, 1) * (high.at - low.at))
        rising = tops.climb_w > 0
        low, high = _either(rising, tops, low), _either(rising, high, tops)
    return tops


def _either(choose: NDArray[np.bool_], one: Walk, other: Walk) -> Walk:
    return Walk(
        np.where(choose, one.at, other.at),
        np.where(choose, one.volt, other.volt),
        np.where(choose, one.current, other.current),
        np.where(choose, one.climb_w, other.climb_w),
    )
