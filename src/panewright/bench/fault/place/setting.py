"""A measurement that may come next: on which cells, how deep a shade, at which voltage."""

from __future__ import annotations

from dataclasses import dataclass
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
class Setting:
    """What is done."""

    measurement: Measurement
    cells: tuple[CellAt, ...] = ()  #: shaded, or probed across
    depth: float = 0.0  #: share of the light that the strip takes
    at_v: float = 0.0  #: terminal voltage at which it is read; of dark current the current, in A
