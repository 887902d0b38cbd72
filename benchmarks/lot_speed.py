"""Ten thousand measured cells to STC, beside one cell after another by the few-readings way and by scipy."""

from __future__ import annotations

from functools import partial

import numpy as np
from clock import best_s, once_s
from row import Row

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.model import CellModel
from panewright.curve.few import cell_from_readings
from panewright.curve.readings import Loaded, Readings
from panewright.intake.cells import CellRows
from panewright.lots.buying.needed import needed
from panewright.lots.buying.rate import Rate
from panewright.lots.standing.estimate import estimate

CELLS, BY_FEW, BY_SCIPY = 10_000, 40, 100
MOST_S = 10.0
KIND = CellModel(Diode(9.5, 1.5e-9, 0.02775, 0.004, 40.0), 1.1, 0.0005, 24336.0)


def rows() -> list[Row]:
    """The same cells in three ways; the slower two by a sample, scaled to all."""
    figures = _readings()
    count = figures["isc_a"].size
    marks, quiet = tuple(map(str, range(count))), ("",) * count
    table = CellRows(marks, np.arange(count), figures, quiet)
    ours = once_s(partial(estimate, table, KIND))
    few = once_s(partial(_by_few, figures)) * CELLS / BY_FEW
    scipy = once_s(partial(_by_scipy, figures)) * CELLS / BY_SCIPY
    what = "10,000 cells of Isc, Voc and one loaded reading to STC, with bands"
    step = [Rate.counted("arrival", 2, 80), Rate.counted("bench", 9, 300)]
    return [
        Row(what, ours, "few readings, cell by cell", few, MOST_S),
        Row(what, ours, "scipy least squares, no bands", scipy, MOST_S),
        Row(
            "how many to buy for 3,600 good ones, two counted steps",
            best_s(partial(needed, 3600, step), 2),
            most_s=1.0,
        ),
    ]


def _readings() -> dict[str, np.ndarray]:
    dice = np.random.default_rng(1)
    one, stc = np.ones(CELLS), KIND.stc
    cells = Diodes(
        stc.light_a * dice.normal(1, 0.015, CELLS),
        stc.saturation_a * dice.lognormal(0, 0.15, CELLS),
        stc.ideality_v * one,
        stc.series_ohm * dice.lognormal(0, 0.15, CELLS),
        stc.shunt_ohm * dice.lognormal(0, 0.6, CELLS),
        0 * one,
        -15 * one,
        3.4 * one,
    )
    return {
        "isc_a": current_a(cells, 0 * one) * dice.normal(1, 0.003, CELLS),
        "voc_v": voltage_v(cells, 0 * one) * dice.normal(1, 0.001, CELLS),
        "at_v": 0.5 * one,
        "at_a": current_a(cells, 0.5 * one) * dice.normal(1, 0.003, CELLS),
        "irradiance_w_m2": 1000 * one,
        "cell_c": 25 * one,
    }


def _by_few(figures: dict[str, np.ndarray]) -> None:
    for k in range(BY_FEW):
        loaded = Loaded(0.5, float(figures["at_a"][k]))
        isc, voc = float(figures["isc_a"][k]), float(figures["voc_v"][k])
        cell_from_readings(Readings(isc, voc, 1000.0, 25.0, loaded), KIND)


def _by_scipy(figures: dict[str, np.ndarray]) -> None:
    from scipy.optimize import least_squares

    spread = np.array([0.02, 0.3, 0.04, 0.2, 0.75])

    for k in range(BY_SCIPY):
        wanted = np.array([figures[name][k] for name in ("isc_a", "voc_v", "at_a")])
        least_squares(partial(_off, wanted, spread), np.zeros(5))


def _off(wanted: np.ndarray, spread: np.ndarray, theta: np.ndarray) -> np.ndarray:
    """Readings and usual spread, each over its deviation."""
    light, saturation, ideality, series, shunt = np.exp(theta)
    stc = KIND.stc
    cell = Diode(
        stc.light_a * light, stc.saturation_a * saturation, stc.ideality_v * ideality,
        stc.series_ohm * series, stc.shunt_ohm * shunt,
    )  # fmt: skip
    read = np.array([current_a(cell, 0.0), voltage_v(cell, 0.0), current_a(cell, 0.5)])
    return np.concatenate([(read - wanted) / (0.003 * wanted), theta / spread])
