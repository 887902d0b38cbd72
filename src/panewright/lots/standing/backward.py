"""How a cell behaves backwards: its own leak and its own breakdown voltage, by its readings in reverse.

Dark, at a voltage v put on backwards, a cell passes (Bishop, as in `cell/diode.py`)

    I = v / Rsh + G v (1 - v / B) ** -m

One reading tells a curve through (G, B), several tell both. The logarithm of a reading errs by
`reverse_share`, so that one far too high is as loud as one far too low. B is walked along; at each of its
places the likeliest G is found and what else it may be is summed over. What is usual of
both stands in `usual`, first about the kind, then about the middle of the lot's own cells, so that a few soft
ones do not count. A cell that bore a voltage breaks down beyond it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.lots.standing.figures import LEAK, Kin
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.table import REVERSE, Index, Table
from panewright.lots.standing.trust import Trust
from panewright.lots.standing.usual import BREAKDOWN_SPREAD, Usual

_WALK = np.linspace(-1.6, 1.2, 113)  # of ln B over the kind's
_STEP = float(_WALK[1] - _WALK[0]) / 12**0.5  # what lies between two places of the walk
_STEPS, _REACH = 8, 2.0  # of ln G at a held B: Newton's steps in Gauss's form, and the longest
_NEVER = 1e9  # a misfit beyond belief
_FAR, _TIMES = 4.5, 3.0  # a soft cell takes so many deviations and so many times more than its lot
_ENOUGH = 5  # cells of which a middle is taken

Rows = dict[int, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Backward:
    """Cells with their own breakdown, and how well the logarithm of its voltage is known."""

    cells: Diodes
    breakdown_sd: Array
    read: Array  #: readings in reverse of each cell


@dataclass(frozen=True, slots=True)
class _Read:
    """Readings in reverse, one a row, and what of each the cell's shunt takes."""

    cell: Index
    volt: Array
    amp: Array
    shunt_a: Array
    sd: Array  #: of the logarithm of what is read
    shunt_sd: Array  #: of the logarithm of the shunt's part


def backward(table: Table, cells: Diodes, shunt_sd: Array, asked: tuple[Kin, Trust, Usual]) -> Backward:
    """Leak and breakdown of every cell; those of which nothing was read are as the lot is.

    `shunt_sd` is how well the logarithm of each shunt is known.
    """
    kin, trust, usual = asked
    read = np.flatnonzero(table.used[:, REVERSE])
    count = np.bincount(table.cell[read], minlength=len(table.marks)).astype(float)
    sd = np.full(len(table.marks), BREAKDOWN_SPREAD)
    if not read.size or not kin.stc.breakdown_siemens > 0:
        return Backward(cells, sd, count)
    rows = _readings(table, cells, shunt_sd, trust.reverse_share)
    spread = float(np.hypot(usual.level[LEAK], usual.spread[LEAK]))
    first = _walked(rows, kin.stc, np.zeros(2), (len(count), spread))
    told = count > 0
    middle = np.zeros(2)
    if told.sum() >= _ENOUGH:
        middle, spread = np.median(first[told, :2], axis=0), usual.spread[LEAK]
    found = _walked(rows, kin.stc, middle, (len(count), spread))
    found[~told] = (*middle, BREAKDOWN_SPREAD)
    own = replace(
        cells,
        breakdown_siemens=kin.stc.breakdown_siemens * np.exp(found[:, 0]),
        breakdown_v=cells.breakdown_v * np.exp(found[:, 1]),
    )
    return Backward(own, found[:, 2], count)


def _readings(table: Table, cells: Diodes, shunt_sd: Array, share: float) -> _Read:
    read = np.flatnonzero(table.used[:, REVERSE])
    cell, volt = table.cell[read], table.reverse_v[read]
    shunt = volt / cells.shunt_ohm[cell]
    return _Read(cell, volt, table.value[read, REVERSE], shunt, np.full(read.size, share), shunt_sd[cell])


def _walked(rows: _Read, stc: Diode, middle: Array, usual: tuple[int, float]) -> Array:
    """Mean of ln G and ln B over their kind's, and the deviation of ln B (n, 3)."""
    n, spread = usual
    room = 1 - rows.volt[:, None] / (-stc.breakdown_v * np.exp(_WALK))
    whole = stc.breakdown_siemens * rows.volt[:, None] * np.maximum(room, 1e-6) ** -stc.breakdown_exponent
    leak = np.full((n, _WALK.size), middle[0])
    for _ in range(_STEPS):
        told, pull, misfit = _seen(rows, whole, leak)
        firm = told + 1 / spread**2
        step = (pull - (leak - middle[0]) / spread**2) / firm
        leak += np.clip(step, -_REACH, _REACH)
    broken = _summed(rows, np.where(room > 0, 0.0, _NEVER), n)
    misfit += broken + ((leak - middle[0]) / spread) ** 2 + ((_WALK - middle[1]) / BREAKDOWN_SPREAD) ** 2
    misfit += np.log(firm)  # all that G may be is summed over
    odds = np.exp(-0.5 * (misfit - misfit.min(axis=1, keepdims=True)))
    odds /= odds.sum(axis=1, keepdims=True)
    g, b = (odds * leak).sum(axis=1), (odds * _WALK).sum(axis=1)
    wide = np.hypot(_STEP, np.sqrt((odds * (_WALK - b[:, None]) ** 2).sum(axis=1)))
    return np.stack([g, b, wide], axis=1)


def _seen(rows: _Read, whole: Array, leak: Array) -> tuple[Array, Array, Array]:
    """What is known of ln G at each place of the walk, how readings pull, and their misfit (n, places)."""
    leak_a = whole * np.exp(leak[rows.cell])
    share = leak_a / (leak_a + rows.shunt_a[:, None])
    variance = rows.sd[:, None] ** 2 + ((1 - share) * rows.shunt_sd[:, None]) ** 2
    off = np.log(rows.amp[:, None] / (leak_a + rows.shunt_a[:, None]))
    sums = share**2 / variance, share * off / variance, off**2 / variance + np.log(variance)
    told, pull, misfit = (_summed(rows, each, len(leak)) for each in sums)
    return told, pull, misfit


def _summed(rows: _Read, by_row: Array, cells: int) -> Array:
    """Sums over the readings of each cell."""
    total = np.zeros((cells, by_row.shape[1]))
    np.add.at(total, rows.cell, by_row)
    return total


def soft(table: Table, found: Backward, share: float, rows: Rows) -> Iterator[Suspect]:
    """Cells that pass far more backwards than the middle of their lot does; each reading errs by `share`."""
    read = np.flatnonzero(table.used[:, REVERSE])
    if not read.size:
        return
    cell, volt, amp = table.cell[read], table.reverse_v[read], table.value[read, REVERSE]
    usual = _as_the_lot(found, volt)
    off = np.bincount(cell, np.log(amp / usual), len(table.marks)) / np.maximum(found.read, 1)
    told = found.read > 0
    middle = float(np.median(off[told]))
    apart = 1.4826 * float(np.median(np.abs(off[told] - middle)))  # as a standard deviation (MAD)
    error = max(share, 1e-9) / np.sqrt(np.maximum(found.read, 1))
    far = np.where(told, (off - middle) / np.hypot(apart, error), 0.0)
    for each in np.flatnonzero((far > _FAR) & (off - middle > np.log(_TIMES))):
        k = int(np.flatnonzero(cell == each)[np.argmax(volt[cell == each])])
        reason = (
            f"At {volt[k]:.3g} V backwards it passes {amp[k]:.2g} A where its lot passes about "
            f"{usual[k] * np.exp(middle):.2g} A: {amp[k] * volt[k]:.2g} W in the shade. It is "
            f"taken to break down at {-found.cells.breakdown_v[each]:.2g} V, known to "
            f"{found.breakdown_sd[each]:.0%}."
        )
        yield Suspect(table.marks[each], "reverse", reason, rows.get(int(each), ()))


def _as_the_lot(found: Backward, volt: Array) -> Array:
    """What the middle cell of the lot passes at these voltages. [A]"""
    told, cells = found.read > 0, found.cells
    names = ("shunt_ohm", "breakdown_siemens", "breakdown_v", "breakdown_exponent")
    middle = [float(np.median(getattr(cells, name)[told])) for name in names]
    shunt, siemens, broken, exponent = middle
    room = np.maximum(1 + volt / broken, 0.02)  # past the middle's breakdown it says only: much
    return np.asarray(volt / shunt + siemens * volt * room**-exponent)
