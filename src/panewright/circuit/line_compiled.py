"""A panel's line by compiled functions: for a server, where someone waits for the next picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cell.diode import Diode
from panewright.circuit.line import Line
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.solver.panel import Panel
from panewright.circuit.trials import Trials, currents_a, most_power, standing, voltages_v


@dataclass(frozen=True, slots=True)
class Compiled:
    """Answers by machine code."""

    trials: Trials
    panel: Panel  #: the same as written, told by the compiled answer where to look

    def amps(self, volts: Sequence[float]) -> list[float]:
        """Current at each terminal voltage. [A]"""
        found: list[float] = currents_a(self.trials, np.array(volts))[0].tolist()
        return found

    def volts(self, amps: Sequence[float]) -> list[float]:
        """Terminal voltage at each current. [V]"""
        found: list[float] = voltages_v(self.trials, np.array(amps))[0].tolist()
        return found

    def peak(self) -> tuple[float, float]:
        """Current and voltage of the greatest power. [A, V]"""
        peaks = most_power(self.trials)
        return float(peaks.current_a[0]), float(peaks.voltage_v[0])

    def held(self, volt: float) -> tuple[Panel, float]:
        """The panel as it stands at a terminal voltage, and its bus voltage. [V]

        Every figure is that of the functions as written; they begin where the compiled ones ended.
        """
        found, hand, string = standing(self.trials, volt), self.panel.hand, self.panel.laid.string
        parts = self.panel.laid.sheet.first_part
        for place, (current, beside) in enumerate(found):
            hand.near_a[string[place]] = current
            hand.seen[string[place]][2] = 0.0  # nothing to foresee: it is there
            for k, each in enumerate(beside, parts[string[place]]):
                hand.guess_a[k] = each
        return self.panel, self.panel.held(volt)[0]


def as_compiled(network: Network) -> Line:
    """The line of a network, by compiled functions."""
    return Compiled(Trials.once(network), Panel.of(network))


def load() -> None:
    """Load the compiled functions; on a machine that has not seen them this compiles, for some minutes."""
    line = as_compiled(_SMALL)
    line.peak()
    line.amps([0.0])
    line.volts([0.0])


_SMALL = Network((String((Substring((Diode(9.0, 1e-9, 0.026, 0.005, 20.0),), (0.0,)),)),))
