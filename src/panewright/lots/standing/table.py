"""Rows of readings as arrays, cell by cell: what was read, how far each figure may be off, in which light."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.cell.key_points import key_points
from panewright.cell.model import CellModel
from panewright.cell.root import Array
from panewright.intake.cells import CellRows
from panewright.lots.standing.trust import Moment, Trust
from panewright.lots.standing.usual import BREAKDOWN_SPREAD

#: the figures that the estimate takes, as columns of a table
COLUMNS = ("isc_a", "voc_v", "at_a", "imp_a", "vmp_v", "pmp_w", "shunt_ohm", "reverse_a")
ISC, VOC, AT, IMP, VMP, PMP, SHUNT_OHM, REVERSE = range(8)
_CLOSE = 0.95  # of the breakdown voltage
DARK = (SHUNT_OHM, REVERSE)  #: read in the dark, or taken so; their logarithms are weighed
_DARK = (
    "Nobody knows in which light the cells were read. Their middle is set to the nameplate of their kind, as "
    "in {:.0f} W/m2: which cell is better than another is known; how good the lot is, is not."
)

Index = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Level:
    """What no row tells, so that all cells together may stand too high or too low."""

    lit: bool = (
        True  #: whether the light is known of a row or more; else the lot's middle is set to its kind's
    )
    warm: bool = True  #: whether the heat is


@dataclass(frozen=True, slots=True)
class Table:
    """Readings, sorted by cell; row k belongs to cell `cell[k]`."""

    marks: tuple[str, ...]  #: of the cells, in the order in which the file tells them first
    cell: Index
    row: Index  #: where the row stands in the rows as read
    light_w_m2: Array
    cell_c: Array
    light_sd: Array  #: as a share
    heat_sd: Array  #: [K]
    at_v: Array  #: the voltage of the current under load
    reverse_v: Array
    value: Array  #: (rows, columns), nan where nothing was read
    sd: Array  #: one standard deviation of each; of a shunt and a reverse current, of its logarithm
    level: Level  #: what nobody said of all rows

    @property
    def used(self) -> NDArray[np.bool_]:
        """Which figures count (rows, columns)."""
        return np.isfinite(self.value)

    def only(self, cells: Index) -> Table:
        """The rows of some cells, given in rising order; the cells are counted from 0 again."""
        place = np.full(len(self.marks), -1)
        place[cells] = np.arange(cells.size)
        kept = place[self.cell] >= 0
        rest: dict[str, Any] = {name: getattr(self, name)[kept] for name in _ALONG}
        rest["cell"] = place[rest["cell"]]
        return replace(self, marks=tuple(self.marks[k] for k in cells), **rest)

    def times(self, count: int) -> Table:
        """The same rows so many times over, each time of other cells."""
        many: dict[str, Any] = {name: np.concatenate([getattr(self, name)] * count) for name in _ALONG}
        many["cell"] += np.repeat(np.arange(count) * len(self.marks), self.cell.size)
        return replace(self, marks=self.marks * count, **many)

    def without(self, wrong: NDArray[np.bool_]) -> Table:
        """The same table, some of its figures (rows, columns) left out."""
        return replace(self, value=np.where(wrong, np.nan, self.value))

    def summed(self, by_row: Array) -> Array:
        """Sums over the rows of each cell."""
        first = np.searchsorted(self.cell, np.arange(len(self.marks)))
        return np.asarray(np.add.reduceat(by_row, first, axis=0))


#: of a table: what has an entry for each row
_ALONG = tuple(each.name for each in fields(Table) if each.name not in ("marks", "level"))


def table_of(rows: CellRows, kind: CellModel, trust: Trust, moment: Moment) -> tuple[Table, tuple[str, ...]]:
    """Rows as a table, and what had to be assumed of their light and heat."""
    if not rows.marks:
        raise ValueError("a lot has a row or more")
    read = {name: np.asarray(figure, dtype=float) for name, figure in rows.figures.items()}
    marks, cell = _numbered(rows.marks)
    light, heat, said = _lit(read, len(rows.marks), kind, moment)
    unread = ~(_of(read, "irradiance_w_m2", light.size) > 0) & (moment.irradiance_w_m2 is None)
    cold = ~np.isfinite(_of(read, "cell_c", light.size)) & (moment.cell_c is None)
    value = _values(read, light, kind.area_mm2)
    order = np.argsort(cell, kind="stable")
    columns = {
        "cell": cell,
        "row": np.arange(light.size),
        "light_w_m2": light,
        "cell_c": heat,
        "light_sd": np.where(
            unread, np.maximum(trust.unread_light_share, trust.light_share), trust.light_share
        ),
        "heat_sd": np.where(cold, np.maximum(trust.unread_heat_k, trust.heat_k), trust.heat_k),
        "at_v": _of(read, "at_v", light.size),
        "reverse_v": _of(read, "reverse_v", light.size),
        "value": value,
        "sd": _deviations(value, trust, _by_breakdown(_of(read, "reverse_v", light.size), kind)),
    }
    level = Level(not unread.all(), not cold.all())
    return Table(marks, **{name: each[order] for name, each in columns.items()}, level=level), said


def _numbered(marks: tuple[str, ...]) -> tuple[tuple[str, ...], Index]:
    """The cells in the order in which they come first, and each row's cell."""
    place: dict[str, int] = {}
    cell = np.array([place.setdefault(mark, len(place)) for mark in marks], dtype=np.intp)
    return tuple(place), cell


def _of(read: Mapping[str, Array], name: str, rows: int) -> Array:
    return read.get(name, np.full(rows, np.nan))


def _values(read: Mapping[str, Array], light: Array, area_mm2: float) -> Array:
    """The columns; of Imp, Vmp and their product two tell all; fill factor and efficiency become Pmp."""
    value = np.stack([_of(read, name, light.size) for name in COLUMNS], axis=1)
    fill = _of(read, "fill_factor", light.size) * value[:, ISC] * value[:, VOC]
    sun = _of(read, "efficiency", light.size) * light * area_mm2 * 1e-6
    for other in (fill, sun):
        value[:, PMP] = np.where(np.isfinite(value[:, PMP]), value[:, PMP], other)
    both = np.isfinite(value[:, IMP]) & np.isfinite(value[:, VMP])
    value[both, PMP] = np.nan
    value[~np.isfinite(_of(read, "at_v", light.size)), AT] = np.nan
    value[~np.isfinite(_of(read, "reverse_v", light.size)), REVERSE] = np.nan
    return np.where(value > 0, value, np.nan)


def _deviations(value: Array, trust: Trust, by_breakdown: Array) -> Array:
    """One standard deviation of each figure, read in the dark of its logarithm: those differ by factors."""
    amp, volt = trust.current_share, trust.voltage_share
    share = np.array([amp, volt, amp, amp, volt, np.hypot(amp, volt), trust.shunt_share, trust.reverse_share])
    digit = np.zeros(len(COLUMNS))
    digit[[ISC, AT, IMP]] = trust.current_digit_a
    digit[[VOC, VMP]] = trust.voltage_digit_v
    size = np.nan_to_num(value, nan=1.0)
    size[:, list(DARK)] = 1.0
    sd = np.asarray(np.hypot(share * size, digit))
    sd[:, REVERSE] = np.hypot(sd[:, REVERSE], by_breakdown)
    return sd


def _by_breakdown(reverse_v: Array, kind: CellModel) -> Array:
    """What the cell's own breakdown leaves open of the logarithm of a reverse current: close to it, all."""
    near = np.minimum(np.nan_to_num(reverse_v) / -kind.stc.breakdown_v, _CLOSE)
    return np.asarray(kind.stc.breakdown_exponent * near / (1 - near) * BREAKDOWN_SPREAD)


def _lit(
    read: Mapping[str, Array], rows: int, kind: CellModel, moment: Moment
) -> tuple[Array, Array, tuple[str, ...]]:
    """Light and heat of every row, and what was assumed."""
    said: list[str] = []
    heat, told = _filled(_of(read, "cell_c", rows), moment.cell_c, 25.0, "cell's heat", "degC")
    said += told
    light = _of(read, "irradiance_w_m2", rows)
    light = np.where(light > 0, light, np.nan)
    usual = _light_by_lot(read, rows, kind)
    dark = not np.isfinite(light).any() and moment.irradiance_w_m2 is None
    light, told = _filled(light, moment.irradiance_w_m2, usual, "light", "W/m2")
    if dark:
        told = [_DARK.format(usual)]
    return light, heat, (*said, *told)


def _filled(
    figure: Array, stated: float | None, usual: float, name: str, unit: str
) -> tuple[Array, list[str]]:
    """Every row's figure: as read, else as stated, else the middle of the other rows, else the usual."""
    missing = ~np.isfinite(figure)
    if not missing.any():
        return figure, []
    if stated is not None:
        return np.where(missing, stated, figure), []
    if missing.all():
        return np.full(figure.size, usual), [f"No row tells the {name}: {usual:g} {unit} is assumed."]
    middle = float(np.median(figure[~missing]))
    said = (
        f"Rows that do not tell the {name}: {missing.sum()}; the others' middle is taken, {middle:g} {unit}."
    )
    return np.where(missing, middle, figure), [said]


def _light_by_lot(read: Mapping[str, Array], rows: int, kind: CellModel) -> float:
    """The light in which the lot's middle current, else power, would be the kind's. [W/m2]"""
    top = key_points(kind.stc)
    ours = {"isc_a": top.isc_a, "imp_a": top.imp_a, "at_a": top.imp_a, "pmp_w": top.power_w}
    for name, of_kind in ours.items():
        figure = _of(read, name, rows)
        figure = figure[np.isfinite(figure) & (figure > 0)]
        if figure.size:
            return float(1000 * np.median(figure) / of_kind)
    return 1000.0
