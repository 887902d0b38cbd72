"""The cells of a substring eight abreast: what `substring.cells_at` tells one by one, for compiled functions.

The figures of eight cells and all that is reckoned of them lie side by side in one row of a table, `WIDE`
numbers each. Loops of that length over numbers at fixed distances become instructions that do all eight at
once. Where a substring's cells do not fill its last row, a cell is repeated there and counts nothing.
"""

from __future__ import annotations

from math import inf

from panewright.circuit.solver.backward import SETTLED_LOG, nearer_y, start_y
from panewright.circuit.solver.forward import ROUNDS, SETTLED, SMALL, nearer, start_v
from panewright.circuit.solver.hand import WIDE, Work
from panewright.circuit.solver.junction import forward, reverse, top_share
from panewright.circuit.solver.sheet import Cells, Column, Sheet

_LIGHT, _SIGN, _AMOUNT, _SERIES = 0 * WIDE, 1 * WIDE, 2 * WIDE, 3 * WIDE
_I0, _PER_I0, _N, _PER_N = 4 * WIDE, 5 * WIDE, 6 * WIDE, 7 * WIDE
_GSH, _G, _VBR, _PER_VBR, _M = 8 * WIDE, 9 * WIDE, 10 * WIDE, 11 * WIDE, 12 * WIDE
_NEED, _VOLT, _EACH, _BEND = 13 * WIDE, 14 * WIDE, 15 * WIDE, 16 * WIDE
_PART_V, _PART_OHM, _PART_BEND = 17 * WIDE, 18 * WIDE, 19 * WIDE
_TOP, _Y, _BACKWARD = 20 * WIDE, 21 * WIDE, 22 * WIDE  # of the last, one number: how many are in reverse
_NEAR = 0.3  # of nVth: from so far off the first step mostly settles it


def load(sheet: Sheet, cells: Cells, work: Work) -> None:
    """Set the figures of a panel's cells side by side."""
    for k in range(len(sheet.kind)):
        first, end = sheet.first_cell[k], sheet.first_cell[k + 1]
        row = work.first_row[k]
        for c in range(first, end, WIDE):
            _load(cells, c, end, work.rows[row])
            row += 1


def _load(cells: Cells, first: int, end: int, row: Column) -> None:
    for i in range(WIDE):
        c = min(first + i, end - 1)
        row[_LIGHT + i], row[_SIGN + i], row[_SERIES + i] = cells.light[c], cells.sign[c], cells.series[c]
        row[_AMOUNT + i] = cells.amount[c] if first + i < end else 0.0
        row[_I0 + i], row[_PER_I0 + i] = cells.saturation[c], cells.per_saturation[c]
        row[_N + i], row[_PER_N + i] = cells.ideality[c], cells.per_ideality[c]
        row[_GSH + i], row[_G + i] = cells.shunt[c], cells.breakdown[c]
        row[_VBR + i], row[_PER_VBR + i] = cells.breakdown_v[c], cells.per_breakdown[c]
        row[_M + i], row[_TOP + i], row[_EACH + i] = cells.exponent[c], top_share(cells.exponent[c]), inf


def cells_at(sheet: Sheet, _cells: Cells, k: int, own: float, work: Work) -> tuple[float, float, float]:
    """Voltage of the cells of a substring with their joints, r = -dV/dI, and dr/dI. [V, ohm, ohm/A]

    Row after row in three turns: a row's sums wait for its last step, and the next row need not.
    """
    volt, ohm, bend = -own * sheet.joints_ohm[k], sheet.joints_ohm[k], 0.0
    low, high, first = work.first_row[k], work.first_row[k + 1], sheet.first_cell[k]
    for r in range(low, high):
        work.rows[r][_BACKWARD] = _begin(work.rows[r], own)
    for r in range(low, high):
        _settle(work.rows[r], own)
    for r in range(low, high):
        if work.rows[r][_BACKWARD] > 0:
            _settle_backward(work.rows[r], own)
    for r in range(low, high):
        row = work.rows[r]
        for i in range(WIDE):
            volt, ohm, bend = volt + row[_PART_V + i], ohm + row[_PART_OHM + i], bend + row[_PART_BEND + i]
    for c in range(first, sheet.first_cell[k + 1]):
        row, i = work.rows[low + (c - first) // WIDE], (c - first) % WIDE
        work.junction_v[c], work.junction_ohm[c] = row[_VOLT + i], row[_EACH + i]
        work.bend[c] = row[_BEND + i]
    work.own_a[k] = own
    return volt, ohm, bend if ohm < inf else 0.0


def _settle(row: Column, own: float) -> None:
    """Steps of a row's cells until all are settled; what they do not settle is done one by one."""
    for _ in range(ROUNDS):
        if _closer(row, own) == 0:
            return
    for i in range(WIDE):
        if row[_NEED + i] >= 0:
            state = forward(
                row[_NEED + i],
                row[_I0 + i],
                row[_PER_I0 + i],
                row[_N + i],
                row[_PER_N + i],
                row[_GSH + i],
                row[_G + i],
                row[_VBR + i],
                row[_PER_VBR + i],
                row[_M + i],
            )
            _keep(row, i, own, state)


def _settle_backward(row: Column, own: float) -> None:
    """Steps of a row's cells in reverse until all are settled, and the same one by one."""
    _begin_backward(row)
    for _ in range(ROUNDS):
        if _closer_backward(row, own) == 0:
            break
    for i in range(WIDE):
        if row[_NEED + i] < 0 and not row[_EACH + i] > 0:
            state = reverse(
                -row[_NEED + i],
                row[_I0 + i],
                row[_N + i],
                row[_PER_N + i],
                row[_GSH + i],
                row[_G + i],
                row[_VBR + i],
                row[_M + i],
            )
            _keep(row, i, own, state)


def _keep(row: Column, i: int, own: float, state: tuple[float, float, float]) -> None:
    """One cell's junction voltage, slope and its slope, and what it adds to its substring."""
    volt, slope, bend = state
    each, sign, amount = 1.0 / slope if slope > 0 else inf, row[_SIGN + i], row[_AMOUNT + i]
    row[_VOLT + i], row[_EACH + i], row[_BEND + i] = volt, each, bend
    if amount > 0:
        row[_PART_V + i] = amount * (sign * volt - own * row[_SERIES + i])
        row[_PART_OHM + i] = amount * (each + row[_SERIES + i])
        row[_PART_BEND + i] = amount * sign * bend * each * each * each if each < inf else 0.0


def _begin(row: Column, own: float) -> int:
    """What every cell swallows and where its voltage is looked for first; how many are in reverse."""
    if _go_on(row, own) > 0:
        _begin_anew(row)
    backward = 0
    for i in range(WIDE):
        backward += 1 if row[_NEED + i] < 0 else 0
    return backward


def _go_on(row: Column, own: float) -> int:
    """Begin at what the last look foretells; for how many cells that is too far off."""
    far = 0
    for i in range(WIDE):
        need, each, volt = row[_LIGHT + i] - row[_SIGN + i] * own, row[_EACH + i], row[_VOLT + i]
        step = (need - row[_NEED + i]) * each
        step -= 0.5 * row[_BEND + i] * each * step * step
        near = abs(step) < _NEAR * row[_N + i] and volt + step > 0
        far += 0 if near or need < 0 else 1
        row[_NEED + i], row[_VOLT + i] = need, volt + step if need > 0 else 0.0
    return far


def _begin_anew(row: Column) -> None:
    """Begin at a start that needs no earlier look."""
    for i in range(WIDE):
        row[_VOLT + i] = start_v(
            max(row[_NEED + i], 0.0),
            row[_PER_I0 + i],
            row[_N + i],
            row[_GSH + i],
            row[_G + i],
            row[_PER_VBR + i],
            row[_M + i],
        )


def _closer(row: Column, own: float) -> int:
    """A step of all cells, those in reverse as if nothing were asked of them; how many are not settled.

    With it goes what each adds to its substring's voltage, resistance and bend.
    """
    rough = 0
    for i in range(WIDE):
        volt, step, slope, bend = nearer(
            row[_VOLT + i],
            max(row[_NEED + i], 0.0),
            row[_I0 + i],
            row[_N + i],
            row[_PER_N + i],
            row[_GSH + i],
            row[_G + i],
            row[_VBR + i],
            row[_PER_VBR + i],
            row[_M + i],
            row[_TOP + i],
        )
        rough += 0 if abs(step) <= min(SETTLED * row[_N + i], SMALL * volt) else 1
        each, series = 1.0 / slope, row[_SERIES + i]
        weight = row[_AMOUNT + i] if row[_NEED + i] >= 0 else 0.0
        row[_VOLT + i], row[_BEND + i], row[_EACH + i] = volt, bend, each
        row[_PART_V + i] = weight * (row[_SIGN + i] * volt - own * series)
        row[_PART_OHM + i] = weight * (each + series)
        row[_PART_BEND + i] = weight * row[_SIGN + i] * bend * each * each * each
    return rough


def _begin_backward(row: Column) -> None:
    """Where the voltages of cells in reverse are looked for first."""
    for i in range(WIDE):
        need = -row[_NEED + i] if row[_NEED + i] < 0 else 1.0
        row[_Y + i] = start_y(need, row[_GSH + i], row[_G + i], -row[_VBR + i], row[_M + i])


def _closer_backward(row: Column, own: float) -> int:
    """A step of the cells in reverse that break down; how many are not settled.

    Till they are, their 1/g is 0.
    """
    rough = 0
    for i in range(WIDE):
        backward = row[_NEED + i] < 0
        y, step, volt, slope, bend = nearer_y(
            row[_Y + i],
            -row[_NEED + i] if backward else 1.0,
            row[_I0 + i],
            row[_PER_N + i],
            row[_GSH + i],
            row[_G + i],
            -row[_VBR + i],
            row[_M + i],
        )
        settled, breaks = abs(step) <= SETTLED_LOG, row[_G + i] > 0
        rough += 1 if backward and breaks and not settled else 0
        each, sign, series = 1.0 / slope if settled and breaks else 0.0, row[_SIGN + i], row[_SERIES + i]
        weight = row[_AMOUNT + i]
        counts = backward and weight > 0
        row[_Y + i] = y
        row[_VOLT + i] = volt if backward else row[_VOLT + i]
        row[_BEND + i] = bend if backward else row[_BEND + i]
        row[_EACH + i] = each if backward else row[_EACH + i]
        row[_PART_V + i] = weight * (sign * volt - own * series) if counts else row[_PART_V + i]
        row[_PART_OHM + i] = weight * (each + series) if counts else row[_PART_OHM + i]
        bent = weight * sign * bend * each * each * each
        row[_PART_BEND + i] = bent if counts else row[_PART_BEND + i]
    return rough
