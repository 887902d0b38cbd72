"""Terminal voltage of a panel at a current, current at a voltage, both under a resistance; all exact.

Voltage falls with current everywhere, so each question has one answer. Strings in parallel share one bus
voltage U, and the leads carry the whole current: V = U - I R.

- Current given, strings unlike: were the current shared evenly, every string would have a voltage of its
  own; the bus lies between the least and the greatest of these.
- Voltage given, strings unlike: U lies between V and V + R I(V).
- A load of resistance r alone is the voltage 0 behind R + r.
"""

from __future__ import annotations

from typing import overload

import numpy as np
from numpy.typing import ArrayLike

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.circuit.solver.bus import MOST_V
from panewright.circuit.solver.panel import Panel

_MOST = 1e6  # amperes or volts: no panel is asked for more


@overload
def voltage_v(network: Network, current: float) -> float: ...
@overload
def voltage_v(network: Network, current: Array) -> Array: ...
def voltage_v(network: Network, current: ArrayLike) -> float | Array:
    """Terminal voltage of a panel that gives `current`; minus infinity where none drives it. [V]"""
    panel, asked = Panel.of(network), finite(current, "currents", "A")
    volt = np.array([panel.volt(each) for each in asked.ravel().tolist()])
    return _as_asked(asked, np.where(volt <= -MOST_V, -np.inf, volt))


@overload
def current_a(network: Network, voltage: float) -> float: ...
@overload
def current_a(network: Network, voltage: Array) -> Array: ...
def current_a(network: Network, voltage: ArrayLike) -> float | Array:
    """Current of a panel held at a terminal voltage. [A]"""
    panel, asked = Panel.of(network), finite(voltage, "voltages", "V")
    current = np.array([panel.held(each)[1] for each in asked.ravel().tolist()])
    refuse_far(asked.ravel(), current)
    return _as_asked(asked, current)


def at_resistance(network: Network, ohm: float) -> tuple[float, float]:
    """Voltage and current of a panel that feeds nothing but a resistance. [V, A]"""
    if not 0 <= ohm < np.inf:
        raise ValueError(f"a load has a resistance of 0 ohm or more, got {ohm:g}")
    panel = Panel.of(network)
    bus, current = panel.held(0.0, float(ohm))
    volt = bus - current * panel.laid.sheet.lead_ohm
    return volt, (volt / float(ohm) if ohm > 1 else current)  # whichever the other's last digits magnify less


def refuse_far(volts: Array, amps: Array) -> None:
    """An error where the current that a voltage asks for is none that a panel has."""
    if np.any(far := ~(np.abs(amps) <= _MOST)):
        raise ValueError(f"asked for {volts[far][0]:g} V; no current brings this panel there")


def finite(asked: ArrayLike, name: str, unit: str) -> Array:
    """What was asked, as numbers that a panel can have; a `ValueError` where they are none."""
    if np.iscomplexobj(asked):
        raise ValueError(f"{name} must be real numbers, got {asked!r}")
    numbers = np.asarray(asked, dtype=float)
    if not (np.abs(numbers) <= _MOST).all():
        raise ValueError(f"{name} must be numbers within {_MOST:g} {unit}, got {asked!r}")
    return numbers


def _as_asked(asked: Array, answer: Array) -> float | Array:
    return float(answer[0]) if asked.ndim == 0 else answer.reshape(asked.shape)
