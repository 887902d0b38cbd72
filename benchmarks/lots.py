"""Panels of cells that all differ, for the benchmarks: drawn by chance from one lot, some of them shaded."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]
SCHOTTKY = Bypass("a Schottky diode", 5e-6, 0.02698, 0.01, 15.0, 45.0)
JOINT_OHM, LEAD_OHM = 0.0012, 0.01


def lot(shape: tuple[int, int], seed: int, soft: bool = False) -> Diodes:
    """Panels by cells, no two cells alike; soft ones leak and break down early."""
    chance = np.random.default_rng(seed)
    return Diodes(
        light_a=8.55 * chance.normal(1, 0.01, shape),
        saturation_a=2.3e-9 * chance.lognormal(0, 0.1, shape),
        ideality_v=0.02826 * chance.normal(1, 0.005, shape),
        series_ohm=0.003 * chance.lognormal(0, 0.1, shape),
        shunt_ohm=(3.0 if soft else 20.0) * chance.lognormal(0, 0.3, shape),
        breakdown_siemens=np.full(shape, 0.01 if soft else 0.005),
        breakdown_v=(-9.0 if soft else -18.0) * chance.normal(1, 0.04, shape),
        breakdown_exponent=np.full(shape, 3.4),
    )


def shaded(cells: Diodes, seed: int, most: int = 6) -> Diodes:
    """The same lot with one to a few cells of every panel in shade."""
    chance = np.random.default_rng(seed)
    light = cells.light_a.copy()
    for row in light:
        places = chance.choice(row.size, chance.integers(1, most + 1), replace=False)
        row[places] *= chance.uniform(0.05, 0.95, places.size)
    return Diodes(light, *(getattr(cells, name) for name in Diodes.__slots__[1:]))


def diodes(cells: Diodes, panel: int) -> list[Diode]:
    """One panel's cells as records."""
    columns = (getattr(cells, name)[panel] for name in Diodes.__slots__)
    return [Diode(*map(float, figures)) for figures in zip(*columns, strict=True)]


def network(
    cells: list[Diode], substrings: int, bypass: Bypass | None = SCHOTTKY, strings: int = 1
) -> Network:
    """Cells in order, in equal substrings of equal strings."""
    each = len(cells) // (substrings * strings)
    rows = [_substring(cells[k : k + each], bypass) for k in range(0, len(cells), each)]
    whole = (tuple(rows[k : k + substrings]) for k in range(0, len(rows), substrings))
    return Network(tuple(String(part) for part in whole), LEAD_OHM)


def _substring(cells: list[Diode], bypass: Bypass | None) -> Substring:
    return Substring(tuple(cells), (JOINT_OHM,) * len(cells), bypass)
