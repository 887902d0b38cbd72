"""A reading that is expected: how much, between which bounds, in which light and heat, and why so wide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.bench.predicted import cell_points
from panewright.cell.model import CellModel

Figure = Literal["voc_v", "isc_a", "power_w"]


@dataclass(frozen=True, slots=True)
class Condition:
    """Light and heat; what nobody measured is None."""

    irradiance_w_m2: float | None = None
    cell_c: float | None = None


@dataclass(frozen=True, slots=True)
class Law:
    """How a reading follows light and heat: as a figure of these cells does, so many times."""

    figure: Figure
    models: tuple[CellModel, ...]
    times: float
    light: float = 1.0  #: share of the irradiance for which the cells' figure stands

    def at(self, irradiance_w_m2: float, cell_c: float) -> float:
        """The reading there. [V, A or W]"""
        there_w_m2 = self.light * irradiance_w_m2
        each = [getattr(cell_points(model, there_w_m2, cell_c), self.figure) for model in self.models]
        return float(self.times * sum(each) / len(each))


@dataclass(frozen=True, slots=True)
class Allowed:
    """How far a reading may be off, and why; shares are of the reading, each to about 95 %."""

    meter: float = 0.0  #: class of the instrument
    digit: float = 0.0  #: its last digit, in the reading's unit
    spread: float = 0.0  #: of cells and work
    light: float = 0.0  #: of the irradiance, where it was measured
    heat_k: float = 0.0  #: of the cells' temperature, where it was measured
    source: str = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Expected:
    """One reading, or several alike."""

    key: str  #: stable: the step's key, a stop, and what is read: 'string-column.voc'
    what: str  #: 'Voc of each column'
    unit: str
    value: float
    low: float | None  #: None where nothing is too little
    high: float | None  #: None where nothing is too much
    count: int = 1  #: how many such readings one panel has
    at: Condition = Condition()  #: for which the figures stand
    law: Law | None = None  #: None where light and heat change nothing
    allowed: Allowed = Allowed()
    cure: str = ""  #: what to look for where it is not so

    @property
    def step(self) -> str:
        """Key of the step it is read in."""
        return self.key.partition(".")[0]
