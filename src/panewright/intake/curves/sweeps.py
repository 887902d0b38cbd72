"""Sweeps as a file holds them, in SI: points as they were read, and what the file says of each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

import numpy as np
from numpy.typing import NDArray

from panewright.intake.cells import BadRow
from panewright.intake.curves.blocks import PassedRows
from panewright.intake.curves.mapping import Counted

Column = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Said:
    """What the lines of a file say of a sweep: by the names of quantities, in SI."""

    during: Mapping[str, float] = field(default_factory=dict)  #: light, heats, shunt, cells
    before: Mapping[str, float] = field(default_factory=dict)  #: and isc_a, voc_v
    after: Mapping[str, float] = field(default_factory=dict)
    serial: str = ""
    moment: datetime | None = (
        None  #: when it began, by the clock of the place; None where not both parts are known
    )
    remarks: tuple[str, ...] = ()
    day: date | None = None  #: known without a time of day too


@dataclass(frozen=True, slots=True)
class SweepRead:
    """Points of one sweep, not cleaned. Arrays run alongside each other; None where no column says it."""

    name: str  #: as a person finds it in the file
    row_numbers: NDArray[np.int64]
    voltage_v: Column
    current_a: Column  #: as the file counts it
    time_s: Column | None = None  #: since the first row of its block
    irradiance_w_m2: Column | None = None
    cell_c: Column | None = None
    back_c: Column | None = None
    air_c: Column | None = None
    said: Said = field(default_factory=Said)
    cells_named: bool = True  #: whether what told `cell_c` names the cells, not only a heat
    rising: bool | None = None  #: the way it was swept, where its heading or number says 'up' or 'down'

    def __post_init__(self) -> None:
        beside = [self.row_numbers, self.voltage_v, self.current_a]
        beside += [each for each in (self.time_s, self.irradiance_w_m2) if each is not None]
        beside += [each for each in (self.cell_c, self.back_c, self.air_c) if each is not None]
        if len({len(each) for each in beside}) != 1:
            raise ValueError(f"columns of one sweep are of one length, got {[len(each) for each in beside]}")

    def __len__(self) -> int:
        return len(self.row_numbers)


@dataclass(frozen=True, slots=True)
class SweepsRead:
    """Everything a file gave. Every row under a header is a point, bad, or passed over with its reason."""

    file: str
    sweeps: tuple[SweepRead, ...]
    counted: Counted = "find"  #: which way round currents count, if a person said so
    bad: tuple[BadRow, ...] = ()  #: a point left out, or one field of it: light, heat, time
    passed: tuple[PassedRows, ...] = ()
    notes: tuple[str, ...] = ()  #: what was settled on the way, told to the person
