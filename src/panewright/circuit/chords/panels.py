"""Panels ready to be asked for their curves in any light and heat, thousands of times."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from panewright.circuit.chords import cell, curve, even, panel, part
from panewright.circuit.chords.even import Tables
from panewright.circuit.chords.law import Law, side_by_side
from panewright.circuit.chords.part import ROOM
from panewright.circuit.trace import Curve
from panewright.compiling import machine_code

MODULES = (cell, curve, part, even, panel)
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


def panels_of(laws: Sequence[Law]) -> Panels:
    """The panels with their tables; equal substrings share one."""
    law = side_by_side(laws)
    keys = [_key(law, k) for k in range(len(law.beside))]
    kinds = {key: n for n, key in enumerate(dict.fromkeys(keys))}
    shares, counts = np.zeros((len(kinds), ROOM)), np.zeros(len(kinds), dtype=np.int64)
    tables = np.zeros((len(kinds), even.LIGHT_STEPS * even.HEAT_STEPS, ROOM))
    work, fill = np.zeros((panel.ROWS, ROOM)), compiled()["fill"]
    for key, n in kinds.items():
        counts[n] = fill(law, keys.index(key), work, shares[n], tables[n])
    width = int(counts.max())
    kept = np.ascontiguousarray(tables[:, :, :width])
    kind = np.array([kinds[key] for key in keys])
    return Panels(law, Tables(shares[:, :width].copy(), counts, kept, kind))


def _key(law: Law, k: int) -> bytes:
    """All that a substring's table hangs on."""
    cells = slice(law.first_cell[k], law.first_cell[k + 1])
    return b"".join(np.ascontiguousarray(column[cells]).tobytes() for column in law[:10])


def curve_of(panels: Panels, number: int, light_w_m2: float | Sequence[float], cell_c: float) -> Curve:
    """One panel's curve, from beyond short circuit to beyond open circuit; empty in the dark.

    `light_w_m2`: of all its cells, or of each.
    """
    call, lit = compiled(), np.atleast_1d(np.asarray(light_w_m2, dtype=float))
    alike, work = lit.size == 1, np.zeros((panel.ROWS, ROOM))
    volt, amp = np.zeros(ROOM), np.zeros(ROOM)
    most = call["brightest_a"](panels.law, number, lit, alike, cell_c)
    count: int = call["panel_points"](
        panels.law, number, lit, alike, cell_c, most, panels.tables, work, volt, amp
    )
    return Curve(tuple(volt[:count].tolist()), tuple(amp[:count].tolist()))


@cache
def compiled() -> dict[str, Callable[..., Any]]:
    """The functions of this room by name, compiled on first use: some ten seconds on a new machine."""
    return machine_code(MODULES)
