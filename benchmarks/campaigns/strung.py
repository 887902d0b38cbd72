"""The curve of one string of like cells with a fault or two, by laws written here anew.

For the observer of `observer`, who must share no error of ours: nothing of the bench, of sums on a grid or of
the solver is used, only the figures of a cell. A cell is told by its junction's voltage, from which current
and terminal voltage follow in closed form (a diode, its shunt, and breakdown after J. W. Bishop, Solar Cells
25, 1988, p. 73, recalled). Cells of a row share a current, rows and what lies beside them a voltage. Every
curve is held against ngspice's of the same panel by the campaign that uses it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from campaigns.strung_loops import Grid, Law, Strings, panel_branch
from panewright.cell.model import CellModel, diode_at
from panewright.enclosure.bypass import Bypass

Array = NDArray[np.float64]
Branch = tuple[Array, Array]  #: rising currents, and the falling voltage at each
KINDS = (
    "shaded", "cracked", "shunt", "gone", "resistance", "turned", "shorted", "diode turned", "joint open",
    "dimmed",
)  # fmt: skip  #: in the order of the loops' numbers
SHORTED_OHM = 0.005  #: of a diode that has failed short, as it is drawn
_NEAR_V, _STEP_V = 0.4, 0.002
_STRAIGHT, _LONG_V = 1e-6, 0.02  # share of the light under which a diode's part may be seen by longer steps
_FAR = np.geomspace(1e-3, 1.0, 300)  # of 1 - V/Vbr
_PASSED = np.concatenate([[0.0], np.geomspace(1e-7, 30.0, 220)])


@dataclass(frozen=True, slots=True)
class Strung:
    """Rows of like cells, a diode beside each or none."""

    model: CellModel
    rows: int
    each: int
    bypass: Bypass | None
    joint_ohm: float
    lead_ohm: float


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing, at a cell of a row or at the diode beside it."""

    kind: str
    size: float = 0.0  #: share of the light or area, or ohm
    row: int = 0


def curve(panel: Strung, wrongs: Sequence[Wrong], irradiance_w_m2: float, cell_c: float) -> Branch:
    """Of the whole panel, from a little past open to past short circuit."""
    dim = float(np.prod([1 - each.size for each in wrongs if each.kind == "dimmed"]))
    sound = _sound(panel.model, irradiance_w_m2 * dim, cell_c)
    told = (
        np.array([KINDS.index(each.kind) for each in wrongs], dtype=np.int64),
        np.array([each.size for each in wrongs], dtype=float),
        np.array([each.row for each in wrongs], dtype=np.int64),
    )
    return panel_branch(_strings(panel), sound, told, _grid(sound.breakdown_v))


@lru_cache(maxsize=512)
def _sound(model: CellModel, irradiance_w_m2: float, cell_c: float) -> Law:
    of = diode_at(model, irradiance_w_m2, cell_c)
    return Law(
        of.light_a, of.saturation_a, of.ideality_v, of.series_ohm, 1 / of.shunt_ohm, of.breakdown_siemens,
        of.breakdown_v, of.breakdown_exponent,
    )  # fmt: skip


@lru_cache(maxsize=16)
def _grid(breakdown_v: float) -> Grid:
    far = breakdown_v * (1 - _FAR)
    return Grid(far[far < -_NEAR_V], -_NEAR_V, _LONG_V, _STEP_V, _STRAIGHT)


@lru_cache(maxsize=16)
def _strings(panel: Strung) -> Strings:
    diode = panel.bypass
    law = (diode.saturation_a, diode.ideality_v, diode.series_ohm) if diode else (1.0, 1.0, 0.0)
    drop = law[1] * np.log1p(_PASSED / law[0]) + law[2] * _PASSED
    return Strings(
        panel.rows, panel.each, panel.joint_ohm, panel.lead_ohm, diode is not None, law[0], law[1],
        SHORTED_OHM, _PASSED, drop,
    )  # fmt: skip
