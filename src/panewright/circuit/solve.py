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
from panewright.circuit.solver.string import MOST_A


@overload
def voltage_v(network: Network, current: float) -> float: ...
@overload
def voltage_v(network: Network, current: Array) -> Array: ...
def voltage_v(network: Network, current: ArrayLike) -> float | Array:
    """Terminal voltage of a panel that gives `current`; minus infinity where none drives it. [V]"""
    panel, asked = Panel.of(network), np.asarray(current, dtype=float)
    volt = np.array([panel.volt(each) for each in asked.ravel().tolist()])
    return _as_asked(asked, np.where(volt <= -MOST_V, -np.inf, volt))


@overload
def current_a(network: Network, voltage: float) -> float: ...
@overload
def current_a(network: Network, voltage: Array) -> Array: ...
def current_a(network: Network, voltage: ArrayLike) -> float | Array:
    """Current of a panel held at a terminal voltage. [A]"""
    panel, asked = Panel.of(network), np.asarray(voltage, dtype=float)
    current = np.array([panel.held(each)[1] for each in asked.ravel().tolist()])
    if np.any(far := np.abs(current) >= MOST_A):
        raise ValueError(f"asked for {asked.ravel()[far][0]:g} V; no current brings this panel there")
    return _as_asked(asked, current)


def at_resistance(network: Network, ohm: float) -> tuple[float, float]:
    """Voltage and current of a panel that feeds nothing but a resistance. [V, A]"""
    if not 0 <= ohm < np.inf:
        raise ValueError(f"a load has a resistance of 0 ohm or more, got {ohm:g}")
    current = Panel.of(network).held(0.0, ohm)[1]
    return current * ohm, current


def _as_asked(asked: Array, answer: Array) -> float | Array:
    return float(answer[0]) if asked.ndim == 0 else answer.reshape(asked.shape)
