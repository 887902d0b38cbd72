"""Who answers what a panel gives: the functions as they are written, or compiled.

Both give the same to the digits that `trials` states. Compiled answers come in a hundredth of the time, but
loading the compiler takes seconds, and its first work on a machine minutes: only what stays loaded, and asks
again and again, has a use for it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from panewright.circuit.network import Network
from panewright.circuit.solver.panel import Panel

_LEVEL = 1e-10  # of the current: how near to the very top


class Line(Protocol):
    """A panel's line of current against voltage, as far as it is asked for."""

    def amps(self, volts: Sequence[float]) -> list[float]:
        """Current at each terminal voltage. [A]"""
        ...

    def volts(self, amps: Sequence[float]) -> list[float]:
        """Terminal voltage at each current. [V]"""
        ...

    def peak(self) -> tuple[float, float]:
        """Current and voltage of the greatest power; none higher was overlooked. [A, V]"""
        ...

    def held(self, volt: float) -> tuple[Panel, float]:
        """The panel as it stands while it is held at a terminal voltage, and its bus voltage. [V]"""
        ...


LineOf = Callable[[Network], Line]


@dataclass(frozen=True, slots=True)
class AsWritten:
    """Answers by the interpreter."""

    panel: Panel

    def amps(self, volts: Sequence[float]) -> list[float]:
        """Current at each terminal voltage. [A]"""
        return [self.panel.held(volt)[1] for volt in volts]

    def volts(self, amps: Sequence[float]) -> list[float]:
        """Terminal voltage at each current. [V]"""
        return [self.panel.volt(current) for current in amps]

    def peak(self) -> tuple[float, float]:
        """Current and voltage of the greatest power. [A, V]"""
        pool, best = self.panel.greatest(_LEVEL)
        return float(pool.current[best]), float(pool.volt[best])

    def held(self, volt: float) -> tuple[Panel, float]:
        """The panel as it stands at a terminal voltage, and its bus voltage. [V]"""
        return self.panel, self.panel.held(volt)[0]


def as_written(network: Network) -> Line:
    """The line of a network, by the functions as they are written."""
    return AsWritten(Panel.of(network))
