"""Terminal voltage of a panel at a current, and current at a voltage, both exact.

Voltage falls with current everywhere, so each question has one answer. Strings in parallel share one bus
voltage U, and the leads carry the whole current: V = U - I R.

- Current given, strings unlike: were the current shared evenly, every string would have a voltage of its
  own; the bus lies between the least and the greatest of these.
- Voltage given, strings unlike: U lies between V and V + R I(V).

Without blocking diodes a weak string may be driven backwards by the others: its current is then negative.
"""

from __future__ import annotations

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from panewright.cell.root import Array, root
from panewright.circuit.network import Network
from panewright.circuit.rows import MOST_A, strings_a, strings_v
from panewright.circuit.wiring import Wiring, wire

_LEAST_V = -1e6  # a string without any reverse path falls without end; the bus is not looked for below


@overload
def voltage_v(network: Network, current: float) -> float: ...
@overload
def voltage_v(network: Network, current: Array) -> Array: ...
def voltage_v(network: Network, current: ArrayLike) -> float | Array:
    """Terminal voltage of a panel that gives `current`; minus infinity where none drives it. [V]"""
    wired, asked = wire(network), _column(current)
    volt = bus_v(wired, asked)
    return _as_asked(current, volt - asked * wired.lead_ohm)


@overload
def current_a(network: Network, voltage: float) -> float: ...
@overload
def current_a(network: Network, voltage: Array) -> Array: ...
def current_a(network: Network, voltage: ArrayLike) -> float | Array:
    """Current of a panel held at a terminal voltage. [A]"""
    current = terminal_a(wire(network), asked := _column(voltage))
    if np.any(far := np.abs(current) >= MOST_A):
        raise ValueError(f"asked for {asked[far][0]:g} V; no current brings this panel there")
    return _as_asked(voltage, current)


def bus_a(wired: Wiring, bus: Array) -> Array:
    """Current of all strings together at a bus voltage; one row for each point. [A]"""
    return _together(wired, strings_a(wired, bus))


def bus_a_and_siemens(wired: Wiring, bus: Array) -> tuple[Array, Array]:
    """The same with -dI/dV. [A, S]"""
    each = strings_a(wired, bus)
    return _together(wired, each), _together(wired, 1 / strings_v(wired, each)[1])


def bus_v(wired: Wiring, current: Array) -> Array:
    """Bus voltage at a whole current; one row for each point. [V]"""
    even = np.broadcast_to(current / wired.count.sum(), (current.shape[0], wired.count.size))
    each, ohm = strings_v(wired, even)
    if wired.count.size == 1:
        return each
    low = np.maximum(each.min(axis=1, keepdims=True), _LEAST_V)
    high = np.maximum(each.max(axis=1, keepdims=True), _LEAST_V)

    def surplus(bus: Array) -> tuple[Array, Array]:
        got, siemens = bus_a_and_siemens(wired, bus)
        return current - got, siemens

    with np.errstate(all="ignore"):
        start = (each / ohm).sum(axis=1, keepdims=True) / (1 / ohm).sum(axis=1, keepdims=True)
    bus = root(surplus, low, high, np.where(np.isfinite(start), start, high))
    return np.where(bus <= _LEAST_V, -np.inf, bus)


def terminal_a(wired: Wiring, volt: Array) -> Array:
    """Current at a terminal voltage; one row for each point. [A]"""
    if wired.lead_ohm == 0:
        return bus_a(wired, volt)
    current, siemens = bus_a_and_siemens(wired, volt)
    far = volt + wired.lead_ohm * current

    def surplus(bus: Array) -> tuple[Array, Array]:
        got, slope = bus_a_and_siemens(wired, bus)
        return bus - wired.lead_ohm * got - volt, 1 + wired.lead_ohm * slope

    start = volt + wired.lead_ohm * current / (1 + wired.lead_ohm * siemens)
    return bus_a(wired, root(surplus, np.minimum(volt, far), np.maximum(volt, far), start))


def _together(wired: Wiring, each: Array) -> Array:
    return np.asarray((each * wired.count).sum(axis=1, keepdims=True))


def _column(asked: ArrayLike) -> Array:
    return np.asarray(asked, dtype=float).reshape(-1, 1)


def _as_asked(asked: ArrayLike, answer: Array) -> float | Array:
    return float(answer[0, 0]) if np.ndim(asked) == 0 else answer.reshape(np.shape(asked))
