"""Light that misses the cells, and how much of it a white back sends back to them.

A white sheet bonded behind the cells scatters evenly (Lambert). What leaves it steeper than the critical
angle is thrown back by the face of the cover, whole, and comes down some way off: on a cell, or on another
gap.

    ------------------------------------------  face of the cover
        /\\                          up = cover + encapsulant before the sheet
       /  \\
    --/    \\------  cells            back = encapsulant between cells and sheet
     /      \\
    =========================================  white sheet

Lambert's light has sin^2 of its angle spread evenly from 0 to 1, so 1 - 1/n^2 of it is beyond the critical
angle (sin = 1/n), and moves s = h tan(angle) cos(turn) across the gap on a height h, all turns alike. Of
that, what hits the cells' own edges from below on its way up is lost, and so is what comes down on other
gaps than its own; what comes down in its own is lost too. Light inside the critical angle is lost but for a
few per cent which are not counted. So the figure errs to the low side.

A sheet that lies loose has air before it. What it scatters back enters the encapsulant inside the critical
angle and leaves through the cover: next to nothing comes back to the cells, and nothing is counted.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.glass.light.spectrum import Array

WHITE, WHITE_RANGE = 0.75, (0.60, 0.85)  #: share a white back sheet scatters where silicon sees; memory
_STEPS = 24  # of place, angle and turn; more change the share by one part in fifty at most


@dataclass(frozen=True, slots=True)
class Opening:
    """A strip of the field that no cell covers, much longer than wide."""

    area_mm2: float
    width_mm: float
    sides: int  #: 2 between cells, 1 along the rim of the field


@dataclass(frozen=True, slots=True)
class Behind:
    """What lies between the face of the cover and the white sheet."""

    up_mm: float  #: from the sheet to the face
    back_mm: float  #: of it, from the sheet to the cells' backs
    down_mm: float  #: from the face to the cells
    index: float  #: of the encapsulant
    white: float = WHITE

    def __post_init__(self) -> None:
        if not 0 <= self.back_mm < self.up_mm or self.down_mm <= 0 or self.index < 1:
            raise ValueError(f"a sheet lies behind cells under a cover, bonded to both, got {self}")
        if not 0 <= self.white <= 1:
            raise ValueError(f"a sheet scatters between nothing and all light, got {self.white:g}")


def trapped(index: float) -> float:
    """Share of evenly scattered light that the face of a cover throws back whole. [-]

    >>> round(trapped(1.5), 4)
    0.5556
    """
    return 1 - 1 / index**2


def landing(opening: Opening, behind: Behind) -> float:
    """Of what an opening scatters beyond the critical angle, the share that lands on cells beside it. [-]"""
    middle = (np.arange(_STEPS) + 0.5) / _STEPS
    steep = 1 / behind.index**2
    sin2 = steep + (1 - steep) * middle
    across = np.sqrt(sin2 / (1 - sin2))[:, None] * np.cos(math.pi * middle)
    place = (middle * opening.width_mm)[:, None, None]
    leaves = place + behind.back_mm * across
    lands = place + (behind.up_mm + behind.down_mm) * across
    return float(np.mean(_free(leaves, opening) & _on_cell(lands, opening)))


def _free(at: Array, opening: Opening) -> NDArray[np.bool_]:
    """Whether light passes the edges of the cells; past the rim of the field there is none."""
    return np.asarray((at <= opening.width_mm) & ((at >= 0) | (opening.sides == 1)))


def _on_cell(at: Array, opening: Opening) -> NDArray[np.bool_]:
    return np.asarray((at > opening.width_mm) | ((at < 0) & (opening.sides == 2)))


def sent_back(openings: Iterable[Opening], behind: Behind, cells_mm2: float, silicon_share: float) -> float:
    """Light that reaches the cells by way of the openings, as a share of what reaches them straight. [-]

    `silicon_share` is the part of the field, within its rim, that cells cover.
    """
    caught = sum(opening.area_mm2 * landing(opening, behind) for opening in openings)
    return behind.white * trapped(behind.index) * silicon_share * caught / cells_mm2
