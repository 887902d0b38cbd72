"""Panels ready to be asked for their curves in any light and heat, thousands of times."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.chords import cell, curve, even, panel, part, sloped
from panewright.circuit.chords.even import Tables
from panewright.circuit.chords.law import Law, side_by_side
from panewright.circuit.chords.panel import Light
from panewright.circuit.chords.part import ROOM
from panewright.circuit.chords.sloped import SLOPE_ROWS, rises_of, steepest
from panewright.circuit.trace import Curve
from panewright.compiling import machine_code

MODULES = (cell, curve, part, even, sloped, panel)
"""What is compiled, the called before the callers."""


@dataclass(frozen=True, slots=True)
class Panels:
    """Laws of panels side by side, with the tables of each of their substrings."""

    law: Law
    tables: Tables

    @property
    def number(self) -> int:
        """How many panels."""
        return len(self.law.lead_ohm)


def panels_of(laws: Sequence[Law], sees: Sequence[Array] = ()) -> Panels:
    """The panels with their tables; equal substrings share one.

    `sees`: of each panel, the share of the dome that each of its cells sees; all of it unasked.
    """
    law = side_by_side(laws)
    seen = np.concatenate(sees) if sees else np.ones(law.first_cell[-1])
    each = [slice(*ends) for ends in zip(law.first_cell[:-1], law.first_cell[1:], strict=True)]
    apart = np.concatenate([seen[cells] - seen[cells].mean() for cells in each]).round(12) + 0.0
    steep = [steepest(seen[cells]) for cells in each]
    keys = [(_key(law, cells, apart), top) for cells, top in zip(each, steep, strict=True)]
    kinds = {key: n for n, key in enumerate(dict.fromkeys(keys))}
    first = [keys.index(key) for key in kinds]
    tops, rises = np.array([steep[k] for k in first]), np.array([rises_of(seen[each[k]]) for k in first])
    shares, counts = np.zeros((len(kinds), ROOM)), np.zeros(len(kinds), dtype=np.int64)
    tables = np.zeros((len(kinds), even.LIGHT_STEPS * even.HEAT_STEPS, ROOM))
    slopes = np.zeros((len(kinds), SLOPE_ROWS, ROOM))
    fill, fill_slopes = compiled()["fill"], compiled()["fill_slopes"]

    def table(n: int) -> None:
        work, k, top = np.zeros((panel.ROWS, ROOM)), first[n], tops[n]
        counts[n] = fill(law, k, apart, top, work, shares[n], tables[n])
        if top > 0:
            slope = (top, rises[n])
            fill_slopes(law, k, apart, slope, work, shares[n], counts[n], tables[n], slopes[n])

    with ThreadPoolExecutor(2) as pool:
        list(pool.map(table, range(len(kinds))))
    width, kind = int(counts.max()), np.array([kinds[key] for key in keys])
    kept, bent = (np.ascontiguousarray(rows[:, :, :width]) for rows in (tables, slopes))
    return Panels(law, Tables(shares[:, :width].copy(), counts, kept, kind, apart, tops, rises, bent))


def _key(law: Law, cells: slice, apart: Array) -> bytes:
    """All that a substring's table hangs on."""
    return b"".join(np.ascontiguousarray(column[cells]).tobytes() for column in (*law[:10], apart))


def curve_of(panels: Panels, number: int, light_w_m2: float | Sequence[float], cell_c: float) -> Curve:
    """One panel's curve, from beyond short circuit to beyond open circuit; empty in the dark.

    `light_w_m2`: of all its cells, or of each.
    """
    cells = np.atleast_1d(np.asarray(light_w_m2, dtype=float))
    none = np.full(len(panels.law.beside), -1.0)
    return curve_in(panels, number, Light(cells, cells.size == 1, none, none), cell_c)


def curve_in(panels: Panels, number: int, light: Light, cell_c: float) -> Curve:
    """The same in a light whose slopes are told."""
    call, work = compiled(), np.zeros((panel.ROWS, ROOM))
    volt, amp = np.zeros(ROOM), np.zeros(ROOM)
    most = call["brightest_a"](panels.law, number, light, cell_c)
    count: int = call["panel_points"](panels.law, number, light, cell_c, most, panels.tables, work, volt, amp)
    return Curve(tuple(volt[:count].tolist()), tuple(amp[:count].tolist()))


@cache
def compiled() -> dict[str, Callable[..., Any]]:
    """The functions of this room by name, compiled on first use: some ten seconds on a new machine."""
    return machine_code(MODULES)
