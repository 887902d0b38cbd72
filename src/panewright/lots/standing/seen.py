"""What the readings of every cell ask of its figures: how far off, and which way to go.

The errors of a row's light and heat move all that was read in it at once; so does a flat top, where Imp is
read too high and Vmp too low, and the error of the voltage under load. With H the slopes over the readings'
own deviations and L those of the common errors, each over its own, what a row knows is

    H' (1 - L (1 + L'L)^-1 L') H.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.lots.standing import points
from panewright.lots.standing.figures import COUNT, Kin, cells_of, in_theta
from panewright.lots.standing.moment import by_light_and_heat, diodes_at
from panewright.lots.standing.points import Reading
from panewright.lots.standing.table import (
    AT,
    COLUMNS,
    DARK,
    IMP,
    ISC,
    PMP,
    REVERSE,
    SHUNT_OHM,
    VMP,
    VOC,
    Index,
    Table,
)
from panewright.lots.standing.trust import Trust

COMMON = 4  # light, heat, flat top, voltage under load


@dataclass(frozen=True, slots=True)
class Seen:
    """Of every cell: the misfit's half square, its slope (n, 6), what is known (n, 6, 6)."""

    misfit: Array
    pull: Array
    known: Array


@dataclass(slots=True)
class Sheet:
    """Predicted readings (rows, columns) with slopes, over their deviations, filled column by column."""

    off: Array
    slopes: Array  #: (rows, columns, 6)
    common: Array  #: (rows, columns, 4)


def seen(theta: Array, table: Table, kin: Kin, trust: Trust) -> Seen:
    """What the table says to cells of these figures."""
    return gathered(predicted(theta, table, kin, trust), table)


def gathered(sheet: Sheet, table: Table) -> Seen:
    """A sheet's rows put together cell by cell."""
    bound = np.eye(COMMON) + np.matmul(sheet.common.transpose(0, 2, 1), sheet.common)
    both = np.concatenate([sheet.slopes, sheet.off[:, :, None]], axis=2)
    through = np.matmul(sheet.common.transpose(0, 2, 1), both)
    square = np.matmul(both.transpose(0, 2, 1), both)
    square -= np.matmul(through.transpose(0, 2, 1), np.linalg.solve(bound, through))
    total = table.summed(square)
    return Seen(0.5 * total[:, COUNT, COUNT], total[:, :COUNT, COUNT], total[:, :COUNT, :COUNT])


def predicted(theta: Array, table: Table, kin: Kin, trust: Trust) -> Sheet:
    """How far every reading is off what such cells would show, over its deviation, and its slopes."""
    rows = table.cell.size
    sheet = Sheet(
        np.zeros((rows, len(COLUMNS))),
        np.zeros((rows, len(COLUMNS), COUNT)),
        np.zeros((rows, len(COLUMNS), COMMON)),
    )
    stc = cells_of(theta, kin)
    lit = diodes_at(kin.model, stc.at(table.cell), table.light_w_m2, table.cell_c)
    for columns, which in _groups(table):
        if not which.size:
            continue
        dark = columns[0] in DARK
        cells = stc.at(table.cell[which]) if dark else lit.at(which)
        _fill(sheet, columns, which, _read(columns, which, cells, (table, trust)), (theta, table, kin))
        if not dark:
            _share(sheet, columns, which, (table, trust))
    for each in (sheet.off, sheet.slopes, sheet.common):
        each[~np.isfinite(each)] = 0.0  # where the law ends it says nothing
    return sheet


def _groups(table: Table) -> list[tuple[tuple[int, ...], Index]]:
    """Columns that are found together, and the rows that have one of them."""
    used = table.used
    groups = ((ISC,), (VOC,), (AT,), (IMP, VMP, PMP), (SHUNT_OHM,), (REVERSE,))
    return [(columns, np.flatnonzero(used[:, columns].any(axis=1))) for columns in groups]


def _read(
    columns: tuple[int, ...], which: Index, cells: Diodes, asked: tuple[Table, Trust]
) -> tuple[tuple[Reading, ...], Array | None]:
    """The readings of these columns, and how steeply a current under load falls with its voltage."""
    table, trust = asked
    first = columns[0]
    if first == ISC:
        return (points.at_voltage(cells, np.zeros(which.size), trust.meter_ohm)[0],), None
    if first == VOC:
        return (points.at_open(cells),), None
    if first == AT:
        reading, steep = points.at_voltage(cells, table.at_v[which])
        return (reading,), steep * table.at_v[which] * trust.voltage_share
    if first == IMP:
        imp, vmp = points.at_peak(cells)
        slopes = imp.by_log * vmp.value[:, None] + vmp.by_log * imp.value[:, None]
        return (imp, vmp, Reading(imp.value * vmp.value, slopes)), None
    if first == SHUNT_OHM:
        return (points.shunt_read(cells),), None
    return (points.backwards(cells, table.reverse_v[which]),), None


def _fill(
    sheet: Sheet,
    columns: tuple[int, ...],
    which: Index,
    found: tuple[tuple[Reading, ...], Array | None],
    asked: tuple[Array, Table, Kin],
) -> None:
    """Put predicted readings in their columns, where something was read."""
    theta, table, kin = asked
    own = theta[table.cell[which]]
    for column, reading in zip(columns, found[0], strict=True):
        sd = np.where(table.used[which, column], table.sd[which, column], np.inf)
        if column in DARK:
            off = np.log(np.nan_to_num(table.value[which, column], nan=1.0) / reading.value)
            size = reading.value[:, None]
        else:
            off = np.nan_to_num(table.value[which, column]) - reading.value
            size = np.ones((which.size, 1))
        sheet.off[which, column] = off / sd
        sheet.slopes[which, column] = in_theta(reading.by_log, own, kin) / size / sd[:, None]
        if column not in DARK:
            light, heat = by_light_and_heat(reading.by_log, kin.model, table.cell_c[which])
            sheet.common[which, column, 0] = light * table.light_sd[which] / sd
            sheet.common[which, column, 1] = heat * table.heat_sd[which] / sd
        if column == AT and found[1] is not None:
            sheet.common[which, column, 3] = found[1] / sd


def _share(sheet: Sheet, columns: tuple[int, ...], which: Index, asked: tuple[Table, Trust]) -> None:
    """The flat top: Imp too high by a share, Vmp too low by as much."""
    table, trust = asked
    for column, sign in ((IMP, 1.0), (VMP, -1.0)):
        if column in columns:
            sd = np.where(table.used[which, column], table.sd[which, column], np.inf)
            sheet.common[which, column, 2] = (
                sign * trust.top_share * np.nan_to_num(table.value[which, column]) / sd
            )
