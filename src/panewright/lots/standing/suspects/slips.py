"""Figures in a wrong unit: readings, light or heat that fit their lot once taken in another unit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.lots.standing.figures import COUNT, Kin
from panewright.lots.standing.seen import predicted
from panewright.lots.standing.standing import Doubt, Suspect
from panewright.lots.standing.table import AT, IMP, ISC, PMP, REVERSE, SHUNT_OHM, VMP, VOC, Table
from panewright.lots.standing.trust import Trust

_GROSS = np.log(4.0)  # so far off its lot no sound cell is
_NEAR = 0.35  # of the logarithm: fits a power of ten
_LIT = (ISC, VOC, AT, IMP, VMP, PMP)
_NAMES = {ISC: "Isc", VOC: "Voc", AT: "the current under load", IMP: "Imp", VMP: "Vmp", PMP: "Pmp"}
_UNITS = {ISC: "A", VOC: "V", AT: "A", IMP: "A", VMP: "V", PMP: "W"}
_HOTTEST_C, _COLDEST_C = 110.0, -45.0
_FAR_K, _FIT_K = 25.0, 8.0


@dataclass(frozen=True, slots=True)
class Found:
    """Suspects, and which figures (rows, columns) the estimate leaves aside for them."""

    suspects: tuple[Suspect, ...]
    aside: NDArray[np.bool_]


def slips(table: Table, kin: Kin, trust: Trust, row_numbers: NDArray[np.int64]) -> Found:
    """Slips of units in one lot's table."""
    moments, doubtful = _moments(table, row_numbers)
    aside = np.zeros(table.value.shape, dtype=bool)
    aside[doubtful] = True
    aside[:, [SHUNT_OHM, REVERSE]] = False
    off, middle = _off(table.without(aside), kin, trust)
    found = list(moments)
    for column in _LIT:
        if abs(middle[column]) > _GROSS:
            found.append(_whole_column(column, float(np.exp(middle[column]))))
            aside[:, column] = True
            continue
        wrong = np.abs(off[:, column]) > _GROSS
        aside[:, column] |= wrong
        found += (_told(table, row_numbers, (int(row), column), off) for row in np.flatnonzero(wrong))
    return Found(tuple(found), aside)


def _off(table: Table, kin: Kin, trust: Trust) -> tuple[Array, Array]:
    """Logarithm of each reading over the kind's in that light, about its column's middle; the middles."""
    sheet = predicted(np.zeros((len(table.marks), COUNT)), table, kin, trust)
    with np.errstate(all="ignore"):
        expected = table.value - sheet.off * table.sd
        loaded = expected[:, AT] > 0.3 * kin.stc.light_a * table.light_w_m2 / 1000
        expected[~loaded, AT] = np.nan  # close to the knee a sound cell may be far off its kind
        off = np.log(table.value / expected)
    read = np.isfinite(off)
    columns = zip(off.T, read.T, strict=True)
    middle = np.array([np.median(each[here]) if here.any() else 0.0 for each, here in columns])
    return np.where(read, off - middle, 0.0), middle


def _whole_column(column: int, times: float) -> Suspect:
    """A figure that all of the lot has in another unit, or of another kind of cell."""
    reason = (
        f"{_NAMES[column]} of the whole lot is {times:.3g} times what this kind of cell shows: another unit, "
        "or another kind? The column is left aside."
    )
    return Suspect("", "unit", reason)


def _told(table: Table, numbers: NDArray[np.int64], place: tuple[int, int], off: Array) -> Suspect:
    """One reading far off its lot, with the unit that would explain it."""
    row, column = place
    value, unit = float(table.value[place]), _UNITS[column]
    usual = value / float(np.exp(off[place]))
    tens = round(float(off[place]) / float(np.log(10)))
    words = f"{_NAMES[column]} reads {value:.4g} {unit} where its lot reads about {usual:.3g} {unit}"
    mark, rows = table.marks[table.cell[row]], (int(numbers[table.row[row]]),)
    if tens and abs(off[place] - tens * np.log(10)) < _NEAR:
        return Suspect(mark, "unit", f"{words}: {_factor(tens)}. It is left aside.", rows)
    return Suspect(mark, "impossible", f"{words}: no cell of one lot is so far off. It is left aside.", rows)


def _factor(tens: int) -> str:
    """A power of ten in words."""
    if abs(tens) == 3:
        return "a thousand times as much, as in thousandths" if tens > 0 else "a thousandth, as in thousands"
    much = f"{10**tens:,} times as much" if tens > 0 else f"1/{10**-tens:,} of it"
    return f"{much}; a slipped point?"


def _moments(table: Table, numbers: NDArray[np.int64]) -> tuple[list[Suspect], NDArray[np.bool_]]:
    """Rows whose light or heat is in another unit, or cannot be."""
    light = np.log10(table.light_w_m2 / np.median(table.light_w_m2))
    suns = (np.round(np.abs(light)) >= 2) & (np.abs(light - np.round(light)) < _NEAR)  # a tenth may be dusk
    heat, middle = table.cell_c, float(np.median(table.cell_c))
    far = np.abs(heat - middle) > _FAR_K
    fahrenheit = far & (np.abs((heat - 32) / 1.8 - middle) < _FIT_K)
    kelvin = far & (np.abs(heat - 273.15 - middle) < _FIT_K)
    nowhere = ((heat > _HOTTEST_C) | (heat < _COLDEST_C)) & ~fahrenheit & ~kelvin
    found = [
        *_each(table, numbers, "unit", (suns, "light", table.light_w_m2, "W/m2, not in its lot's unit")),
        *_each(table, numbers, "unit", (fahrenheit, "heat", heat, "degC, as in degrees Fahrenheit")),
        *_each(table, numbers, "unit", (kelvin, "heat", heat, "degC, as in kelvin")),
        *_each(table, numbers, "light", (nowhere, "heat", heat, "degC, where no cell is measured")),
    ]
    return found, suns | fahrenheit | kelvin | nowhere


def _each(
    table: Table, numbers: NDArray[np.int64], kind: Doubt, told: tuple[NDArray[np.bool_], str, Array, str]
) -> Iterator[Suspect]:
    """A suspect for each of these rows."""
    which, name, figure, why = told
    for row in np.flatnonzero(which):
        reason = f"The {name} reads {figure[row]:.4g} {why}. The row's readings in it are left aside."
        yield Suspect(table.marks[table.cell[row]], kind, reason, (int(numbers[table.row[row]]),))
