"""Rows that no silicon cell can show. A quick look finds the rows that may be; `curve.readings` says why."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from panewright.cell.curve import current_a
from panewright.cell.diodes import Diodes
from panewright.cell.model import CellModel
from panewright.cell.nameplate import MOST_A_PER_MM2, MOST_VOC_V
from panewright.cell.root import Array
from panewright.cell.three_points import LEAST_N, THERMAL_25_V
from panewright.curve.readings import Loaded, Readings, impossible
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.suspects.slips import Found
from panewright.lots.standing.table import AT, IMP, ISC, REVERSE, SHUNT_OHM, VMP, VOC, Table
from panewright.lots.standing.trust import Trust
from panewright.units import KELVIN

_ERRORS = 4.0  # a reading is only impossible where so many of its own deviations do not explain it


def impossible_rows(table: Table, kind: CellModel, trust: Trust, row_numbers: NDArray[np.int64]) -> Found:
    """Rows that no cell of this area can show."""
    found, aside = [], np.zeros(table.value.shape, dtype=bool)
    for row in np.flatnonzero(_maybe(table, kind)):
        reasons = _reasons(table, int(row), kind, trust)
        if reasons:
            aside[row] = True
            words = f"{reasons[0][0].upper()}{reasons[0][1:].rstrip('.')}. The row is left aside."
            number = int(row_numbers[table.row[row]])
            found.append(Suspect(table.marks[table.cell[row]], "impossible", words, (number,)))
    aside[:, [SHUNT_OHM, REVERSE]] = False
    return Found(tuple(found), aside)


def _maybe(table: Table, kind: CellModel) -> NDArray[np.bool_]:
    """Rows that come near the bounds."""
    value = table.value
    with np.errstate(all="ignore"):
        maybe = value[:, ISC] > MOST_A_PER_MM2 * kind.area_mm2 * table.light_w_m2 / 1000
        maybe |= value[:, VOC] > MOST_VOC_V
        for volt, amp in ((table.at_v, value[:, AT]), (value[:, VMP], value[:, IMP])):
            maybe |= _outside(volt, amp, table)
    return np.asarray(maybe)


def _outside(volt: Array, amp: Array, table: Table) -> NDArray[np.bool_]:
    """Loaded readings beyond the best curve through Isc and Voc, or under the straight line between them."""
    isc, voc = table.value[:, ISC], table.value[:, VOC]
    told = np.isfinite(isc) & np.isfinite(voc) & np.isfinite(amp) & np.isfinite(volt)
    outside = np.zeros(volt.size, dtype=bool)
    x = LEAST_N * THERMAL_25_V * (table.cell_c[told] + KELVIN) / (25 + KELVIN)
    one, none = np.ones(x.size), np.zeros(x.size)
    saturation = isc[told] * np.exp(-voc[told] / x)
    best = Diodes(isc[told], saturation, x, none, one * np.inf, none, -15 * one, 3 * one)
    most, chord = current_a(best, volt[told]), isc[told] * (1 - volt[told] / voc[told])
    beyond = (volt[told] >= voc[told]) | (amp[told] >= isc[told])
    outside[told] = beyond | (amp[told] > most) | (amp[told] <= chord)
    return outside


def _reasons(table: Table, row: int, kind: CellModel, trust: Trust) -> tuple[str, ...]:
    """Why no cell shows this row, even with the errors of its readings on its side."""
    value, sd = table.value[row], table.sd[row]
    amps = 1 + _ERRORS * float(np.hypot(trust.current_share, trust.light_share))
    volts = 1 + _ERRORS * trust.voltage_share
    isc = value[ISC] if np.isfinite(value[ISC]) else 0.5 * kind.stc.light_a * table.light_w_m2[row] / 1000
    voc = value[VOC] if np.isfinite(value[VOC]) else 0.6
    light, heat = float(table.light_w_m2[row]), float(table.cell_c[row])
    plain = impossible(Readings(isc / amps, voc / volts, light, heat), kind.area_mm2)
    if plain or not (np.isfinite(value[ISC]) and np.isfinite(value[VOC])):
        return plain
    found: tuple[str, ...] = ()
    for volt, amp, column in ((table.at_v[row], value[AT], AT), (value[VMP], value[IMP], IMP)):
        if np.isfinite(volt) and np.isfinite(amp):
            above = Readings(isc * amps, voc * volts, light, heat, Loaded(float(volt), float(amp)))
            more = Loaded(float(volt), float(amp + sd[column]))
            below = Readings(isc / amps, voc / volts, light, heat, more)
            both = impossible(above, kind.area_mm2 * 2), impossible(below, kind.area_mm2 * 2)
            found += both[0] if both[0] and both[1] else ()
    return found
