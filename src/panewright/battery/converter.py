"""What a controller makes of the panels' power: by a converter (MPPT), or by a switch (direct, PWM).

A converter's efficiency is a row of points over the share of its rated output, straight between them and
level beyond. On a straight way eta = a + b s a share s of the output asks for x = s / eta of the rated output
at the input, so

    s = a x / (1 - b x)

is known without a search. What makers print holds while it works; what it draws from the battery while it
does not stands apart.

A switch passes the panels' own current at the battery's voltage, with its drop and the run's between them.

All figures unasked are common practice, no source: makers' sheets win.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.battery.bank import Bank

Floats = NDArray[np.float64]
Curve = tuple[tuple[float, float], ...]

USUAL_CURVE: Curve = ((0.02, 0.85), (0.05, 0.91), (0.1, 0.945), (0.2, 0.965), (0.5, 0.97), (1.0, 0.96))
USUAL_DROP_V = 0.3
_HELD = 13  # voltages between which a battery's own is found
_BEYOND = 0.03  # of the absorption voltage, above it


@dataclass(frozen=True, slots=True)
class Converter:
    """A controller that seeks the panels' greatest power; `ValueError` for what no converter is."""

    most_a: float  #: into the battery
    nominal_v: float  #: of the battery: with `most_a` the rated output
    curve: Curve = USUAL_CURVE  #: share of the rated output, efficiency
    own_w: float = 1.0  #: drawn from the battery while it gives nothing

    def __post_init__(self) -> None:
        if not (0 < self.most_a < math.inf and 0 < self.nominal_v < math.inf and 0 <= self.own_w < math.inf):
            raise ValueError(
                f"a converter has a current and a voltage above 0, and draws 0 W or more: {self}"
            )
        shares, found = self._columns
        if not shares.size or not (shares > 0).all() or not ((found > 0) & (found <= 1)).all():
            raise ValueError(f"efficiencies are above 0 and up to 1 at shares above 0, got {self.curve}")
        if not (np.diff(shares) > 0).all() or not (np.diff(shares / found) > 0).all():
            raise ValueError(f"shares rise, and more output asks for more input, got {self.curve}")

    @property
    def rated_w(self) -> float:
        """Rated output."""
        return self.most_a * self.nominal_v

    @property
    def _columns(self) -> tuple[Floats, Floats]:
        shares, found = np.array(self.curve, dtype=float).reshape(-1, 2).T
        return shares, found

    def out_w(self, in_w: Floats) -> Floats:
        """What comes of power at its input; its current is bounded where the battery's voltage is known. [W]

        >>> half = Converter(20.0, 12.0, ((0.1, 0.90), (0.5, 0.96), (1.0, 0.94)))
        >>> half.out_w(np.array([0.0, 12.0, 125.0, 125.0 * 2])).round(2).tolist()
        [0.0, 10.8, 120.0, 235.2]
        """
        shares, found = self._columns
        x = np.asarray(in_w, dtype=float) / self.rated_w
        slope, level = np.zeros(shares.size + 1), np.concatenate([found[:1], found])
        slope[1:-1] = np.diff(found) / np.diff(shares)
        level[1:-1] -= slope[1:-1] * shares[:-1]
        k = np.searchsorted(shares / found, x, side="right")
        return np.asarray(self.rated_w * level[k] * x / (1 - slope[k] * x))


@dataclass(frozen=True, slots=True)
class Switch:
    """A controller that joins the panels to the battery; `ValueError` for what none is."""

    most_a: float  #: that it passes
    drop_v: float = USUAL_DROP_V
    own_w: float = 0.2  #: drawn from the battery while nothing comes

    def __post_init__(self) -> None:
        if not (0 < self.most_a < math.inf and 0 <= self.drop_v < math.inf and 0 <= self.own_w < math.inf):
            raise ValueError(f"a switch passes a current above 0 and drops and draws 0 or more, got {self}")


def held_volts(bank: Bank, switch: Switch, run_ohm: float = 0.0) -> tuple[float, ...]:
    """Voltages at the panels' end through which a bank passes behind a switch, rising. [V]

    >>> from panewright.battery.load import Battery
    >>> told = held_volts(Bank(Battery("agm", 12.0), 100.0, 25.0), Switch(20.0))
    >>> len(told), round(told[0], 2), round(told[-1], 2)
    (13, 11.4, 15.13)
    """
    window = bank.window
    top = window.absorption_v * (1 + _BEYOND) + run_ohm * switch.most_a
    return tuple((np.linspace(window.empty_v, top, _HELD) + switch.drop_v).tolist())
