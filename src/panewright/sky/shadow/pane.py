"""A panel where it stands, with its cells: what shadows fall on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.errors import Problem, SkyError
from panewright.sky.hours import Floats
from panewright.sky.place import Plane
from panewright.sky.shadow.things import axes

Rectangle = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Pane:
    """A panel by its lower left corner seen from its face."""

    corner_m: tuple[float, float, float]  #: east, north, up
    plane: Plane
    cells_m: tuple[Rectangle, ...]  #: left, lower, right, upper from that corner, in the order of its circuit

    def __post_init__(self) -> None:
        if not self.cells_m or not all(x < a and y < b for x, y, a, b in self.cells_m):
            cure = "Give left, lower, right and upper edge of each, in metres from the lower left corner."
            raise SkyError([Problem("A panel has cells with a width and a height.", cure)])

    @property
    def frame(self) -> Floats:
        """Its corner, then to the right, up its slope, its normal: four rows."""
        return np.array([self.corner_m, *axes(self.plane)])
