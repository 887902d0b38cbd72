"""A measurement that may come next: on which cells, how deep a shade, under which load.

A panel is held at a voltage by a load that regulates, or it feeds a resistor, or it is shorted through the
ammeter, or it is open. What a bench has at hand decides which of these can be asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from panewright.circuit.place import CellAt

Measurement = Literal["strip", "cover", "probe", "dull light", "dark current"]


@dataclass(frozen=True, slots=True)
class Meters:
    """Standard deviations of what is read."""

    current: float = 0.005  #: of a reading
    voltage: float = 0.005  #: of a reading
    least_v: float = 0.005  #: of any voltage
    steady: float = 0.003  #: light from one reading to the next, as a share
    heat_k: float = 2.0  #: how well the cells' temperature is known
    dull: float = 0.15  #: how well dull light is known, as a share


@dataclass(frozen=True, slots=True)
class AtHand:
    """What the bench has beside a meter."""

    load: bool = True  #: holds the panel at any voltage
    supply: bool = True  #: pushes a current, at more volts than the panel has
    resistors_ohm: tuple[float, ...] = ()


METER_ALONE = AtHand(load=False, supply=False)


@dataclass(frozen=True, slots=True)
class Setting:
    """What is done."""

    measurement: Measurement
    cells: tuple[CellAt, ...] = ()  #: shaded, or probed across
    depth: float = 0.0  #: share of the light that the strip takes
    at_v: float = 0.0  #: terminal voltage at which it is read; of dark current the current, in A
    load_ohm: float = 0.0  #: of the resistor that it feeds instead; infinite where it is open
    most_v: float = 0.0  #: of dark current: where the supply stops
    then: tuple[CellAt, ...] = ()  #: where a strip is moved to for the second reading; none: taken off

    @property
    def shorted(self) -> bool:
        """Whether the panel is shorted through the meter."""
        return self.measurement in ("strip", "cover", "probe") and self.at_v <= 0 and self.load_ohm == 0

    @property
    def opened(self) -> bool:
        """Whether the panel is open."""
        return self.load_ohm == inf
