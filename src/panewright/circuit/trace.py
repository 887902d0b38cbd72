"""The current-voltage curve of a panel as points, every one exact.

Half of the points stand at even steps of voltage, half at even steps of current, so that neither the flat
part nor the steep one is left bare: neighbours are hardly further apart than two steps in either.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.circuit.network import Network
from panewright.circuit.solver.panel import Panel


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
    panel = Panel.of(network)
    by_volt = np.linspace(0.0, panel.volt(0.0), points - points // 2 + 1)[:-1].tolist()
    of_volt = [panel.held(volt)[1] for volt in by_volt]
    by_current = np.linspace(of_volt[0], 0.0, points // 2 + 1)[1:].tolist()
    found = [*zip(by_volt, of_volt, strict=True), *((panel.volt(each), each) for each in by_current)]
    found.sort(key=lambda point: (point[0], -point[1]))
    return Curve(tuple(volt for volt, _ in found), tuple(current for _, current in found))
