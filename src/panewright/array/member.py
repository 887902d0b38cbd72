"""A finished panel where it stands in an array."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.circuit.chords.law import Law
from panewright.climate.hourly import Behind
from panewright.sky.face import Face
from panewright.sky.monthly import USUAL_DIRT
from panewright.sky.shadow.pane import Pane


@dataclass(frozen=True)
class Member:
    """One panel: what it gives in any light and heat, where it stands, what keeps it cool and clean."""

    serial: str
    law: Law
    pane: Pane
    rated_w: float  #: at 1000 W/m2 and 25 degC
    behind: Behind = "open"
    face: Face = "physical"
    dirt: tuple[float, ...] = USUAL_DIRT  #: shares of the light lost, January first
    left: float = 1.0  #: share of its power that age has left it

    def __post_init__(self) -> None:
        cells = int(self.law.first_cell[-1])
        if cells != len(self.pane.cells_m):
            raise ValueError(
                f"{self.serial} has {cells} cells in its circuit, {len(self.pane.cells_m)} on it"
            )
        if not (0 < self.left <= 1 and self.rated_w > 0):
            raise ValueError(f"{self.serial} has a rating above 0 W and a share left above 0, got {self}")
