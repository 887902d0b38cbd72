"""The current-voltage curve of a panel as points, every one exact.

Half of the points stand at even steps of voltage, half at even steps of current, so that neither the flat
part nor the steep one is left bare: neighbours are hardly further apart than two steps in either. Where all
strings are alike, voltage follows from current without a search; the points meant for even voltages are then
put at currents read off the curve found so far, so they are exact but only nearly even.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.circuit.solve import bus_v, terminal_a
from panewright.circuit.wiring import Wiring, wire

_EVEN = 41  # currents looked at first
_NEAR = 1 - 0.05 * 0.4 ** np.arange(13)  # and those close under a flat part
_PASSES = 1
_MOST_STEPS = 1.1  # of voltage between neighbours; where the flat part is level the search is the better way


@dataclass(frozen=True, slots=True)
class Curve:
    """Points from short circuit to open circuit."""

    voltage_v: tuple[float, ...]
    current_a: tuple[float, ...]

    @property
    def power_w(self) -> tuple[float, ...]:
        """Power at every point. [W]"""
        return tuple(v * i for v, i in zip(self.voltage_v, self.current_a, strict=True))


def trace(network: Network, points: int = 201) -> Curve:
    """The curve of a panel from short to open circuit."""
    if points < 3:
        raise ValueError(f"a curve has 3 points or more, got {points}")
    wired = wire(network)
    isc = float(terminal_a(wired, np.zeros((1, 1)))[0, 0])
    voc = float(bus_v(wired, np.zeros((1, 1)))[0, 0])
    by_volt = np.linspace(0.0, voc, points - points // 2 + 1)[:-1, None]
    by_current = np.linspace(isc, 0.0, points // 2 + 1)[1:, None]
    near_v, near_a = _near_even(wired, by_volt, isc) if wired.count.size == 1 else (by_volt, None)
    if near_a is None or np.diff(np.append(near_v, voc)).max() > _MOST_STEPS * voc / (points - points // 2):
        near_v, near_a = by_volt, terminal_a(wired, by_volt)
    volt, current = _at_currents(wired, by_current)
    volt, current = np.concatenate((near_v, volt)).ravel(), np.concatenate((near_a, current)).ravel()
    order = np.lexsort((-current, volt))
    return Curve(tuple(volt[order].tolist()), tuple(current[order].tolist()))


def _at_currents(wired: Wiring, current: Array) -> tuple[Array, Array]:
    return bus_v(wired, current) - current * wired.lead_ohm, current


def _near_even(wired: Wiring, wanted_v: Array, isc: float) -> tuple[Array, Array]:
    """Points whose voltages lie near the wanted ones; the first is short circuit. [V, A]"""
    dim = min(float(wired.dimmest_a.min() * wired.count[0]), isc)
    dense = np.concatenate((np.linspace(0.0, isc, _EVEN), isc * _NEAR, dim * _NEAR))
    volt, current = _at_currents(wired, np.sort(dense)[:, None])
    for _ in range(_PASSES):
        more = _read_off(wanted_v, volt, current, isc)
        volt, current = _at_currents(wired, np.sort(np.concatenate((current, more)), axis=0))
    volt, current = _at_currents(wired, _read_off(wanted_v, volt, current, isc))
    volt[0] = 0.0  # short circuit was found to the last digit
    return volt, current


def _read_off(wanted_v: Array, volt: Array, current: Array, isc: float) -> Array:
    """Currents at wanted voltages, by straight lines between points of rising current. [A]"""
    found = np.interp(wanted_v.ravel(), volt.ravel()[::-1], current.ravel()[::-1])
    found[0] = isc
    return np.clip(found, 0.0, isc)[:, None]
