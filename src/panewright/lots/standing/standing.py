"""A lot as it stands: every cell's curve at 1000 W/m2 and 25 degC, and how well it is known.

Element k of every array belongs to the cell `marks[k]`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array

Doubt = Literal[
    "impossible",
    "unit",
    "light",
    "duplicate",
    "again",
    "shunt",
    "reverse",
    "outlier",
    "drift",
    "size",
    "unread",
    "remark",
]


@dataclass(frozen=True, slots=True)
class Suspect:
    """Something about a cell or its reading that the maker should settle; the cell is not thrown away."""

    mark: str
    kind: Doubt
    reason: str  #: in a sentence, with the figures
    rows: tuple[int, ...] = ()  #: numbers of the rows in the maker's file


@dataclass(frozen=True, slots=True)
class Standing:
    """Every cell of a lot at STC."""

    marks: tuple[str, ...]
    cells: Diodes  #: the likeliest figures, arrays (n,), breakdown of the kind with them
    isc_a: Array
    voc_v: Array
    imp_a: Array
    vmp_v: Array
    power_w: Array  #: Pmp of the likeliest figures
    power_sd_w: Array  #: standard deviation of what the readings leave open
    power_low_w: Array  #: Pmp lies between these two with 95 %
    power_high_w: Array
    imp_sd_a: Array
    shunt_sd: Array  #: standard deviation of the logarithm of the shunt: a factor of about exp(shunt_sd)
    readings: Array  #: how many figures were read of the cell; 0: only its lot is known
    suspects: tuple[Suspect, ...] = ()
    said: tuple[str, ...] = ()  #: what was assumed for the whole lot
    breakdown_sd: Array = field(
        default_factory=lambda: np.zeros(0)
    )  #: of its logarithm; empty if nobody asks
    common_share: float = 0.0  #: standard deviation by which all powers may be off together; not in the bands
