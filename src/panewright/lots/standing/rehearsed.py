"""The bands, tried on cells of which the truth is known, and stretched till they hold what they promise.

Cells are drawn from the lot as it is held to be, its mean no better known than it is. They are read in the
same light and heat and with the same errors as the lot was, and estimated in the same way. How far the truth
then lies off, counted in the reckoned band, tells by how much the band is to be stretched each way. So what
no straight reckoning sees (the knee of the curve, resistances that spread by factors) is in the band too.

Cells of which other figures were read are rehearsed apart.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.peak import peak
from panewright.cell.root import Array
from panewright.lots.standing.band import TAIL, Band, band
from panewright.lots.standing.figures import COUNT, Kin, cells_of
from panewright.lots.standing.likeliest import Likeliest, Lot, likeliest
from panewright.lots.standing.seen import COMMON, predicted
from panewright.lots.standing.table import DARK, Index, Table
from panewright.lots.standing.trust import Trust

_DRAWN = 3000  # cells of each sort
_SORTS = 4  # the commonest; all others are one more
_SEED = 2


@dataclass(frozen=True, slots=True)
class _Stretch:
    """By how much a band is wider than reckoned, downwards and upwards; and its standard deviation."""

    down: float
    up: float
    sd: float


def whole_covariance(found: Likeliest, lot: Lot) -> Array:
    """Covariance of every cell's figures, what is not known of the lot's mean with it (n, 6, 6)."""
    by_mean = found.covariance @ np.linalg.inv(lot.covariance)
    return np.asarray(found.covariance + by_mean @ lot.mean_covariance @ by_mean.transpose(0, 2, 1))


def rehearsed(reckoned: Band, power_w: Array, asked: tuple[Table, Kin, Trust, Lot]) -> Band:
    """Reckoned bands, stretched."""
    low, high, sd = (np.empty_like(power_w) for _ in range(3))
    for cells in _sorts(asked[0]):
        stretch = _stretch(cells, asked)
        low[cells] = power_w[cells] - stretch.down * (power_w[cells] - reckoned.low_w[cells])
        high[cells] = power_w[cells] + stretch.up * (reckoned.high_w[cells] - power_w[cells])
        sd[cells] = stretch.sd * reckoned.power_sd_w[cells]
    return Band(sd, np.clip(low, 0.0, power_w), np.maximum(high, power_w), reckoned.imp_sd_a)


def _sorts(table: Table) -> list[Index]:
    """Cells sorted by what was read of them."""
    read = table.summed(table.used.astype(float)).astype(np.int64)
    _, sort, count = np.unique(read, axis=0, return_inverse=True, return_counts=True)
    common = np.argsort(-count, kind="stable")[:_SORTS]
    sort = np.where(np.isin(sort.ravel(), common), sort.ravel(), -1)
    return [np.flatnonzero(sort == each) for each in np.unique(sort)]


def _stretch(cells: Index, asked: tuple[Table, Kin, Trust, Lot]) -> _Stretch:
    """How far the truth lies off the middle, in the reckoned band."""
    table, kin, trust, lot = asked
    dice = np.random.default_rng(_SEED)
    some = cells if cells.size <= _DRAWN else cells[np.linspace(0, cells.size - 1, _DRAWN).astype(np.intp)]
    many = table.only(some).times(-(-_DRAWN // some.size))
    true, read = _drawn(many, (kin, trust, lot), dice)
    found = likeliest(read, kin, trust, lot)
    power = peak(cells_of(found.theta, kin)).power_w
    reckoned = band(found.theta, whole_covariance(found, lot), kin)
    off = peak(cells_of(true, kin)).power_w - power
    room = np.maximum(np.where(off < 0, power - reckoned.low_w, reckoned.high_w - power), 1e-12)
    told = np.isfinite(off)
    if not told.any():
        return _Stretch(1.0, 1.0, 1.0)
    down, up = np.quantile((off / room)[told], [TAIL, 1 - TAIL])
    sd = float(np.sqrt(np.mean((off / np.maximum(reckoned.power_sd_w, 1e-12))[told] ** 2)))
    return _Stretch(max(-float(down), 0.0), max(float(up), 0.0), sd)


def _drawn(table: Table, asked: tuple[Kin, Trust, Lot], dice: np.random.Generator) -> tuple[Array, Table]:
    """Cells of the lot, and what would be read of them where the table has a reading."""
    kin, trust, lot = asked
    count = len(table.marks)
    whole = np.linalg.cholesky(lot.covariance + lot.mean_covariance)
    rows, own, shared = table.cell.size, table.value.shape[1], COMMON
    odds = _even(dice, (count, COUNT))
    noise = _even(dice, (rows, own + shared))
    if rows == count:  # one reading a cell: nothing of it hangs on the cell by chance either
        odds, noise = np.split(_even(dice, (rows, COUNT + own + shared)), [COUNT], axis=1)
    true = lot.mean + odds @ whole.T
    sheet = predicted(true, table, kin, trust)
    common = (sheet.common @ noise[:, own:, None])[:, :, 0]
    off = noise[:, :own] + common - sheet.off
    value = table.value + off * table.sd
    value[:, DARK] = table.value[:, DARK] * np.exp((off * table.sd)[:, DARK])
    return true, replace(table, value=value)


def _even(dice: np.random.Generator, shape: tuple[int, int]) -> Array:
    """Normal deviates whose means are zero and whose covariance is one, to the last digit."""
    odds = dice.standard_normal(shape)
    odds -= odds.mean(axis=0)
    root = np.linalg.cholesky(odds.T @ odds / len(odds))
    return np.asarray(np.linalg.solve(root, odds.T).T, dtype=np.float64)
