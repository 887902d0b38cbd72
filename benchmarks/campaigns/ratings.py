"""Panels rated from sweeps in which everything is off: how often the truth lies within k = 2.

Every panel is invented, and so is every error: meters anywhere within their class, sensors and heat off as a
bell says. What is known of the panel goes round: nothing, its crystalline cells, curves of its own; the heat
comes from the back or from Voc. With k = 2 the truth lies within in some 95 of 100 cases; the errors in
units of the stated standard uncertainty scatter by one, or the uncertainty would be too wide or too narrow.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import cos, expm1, radians, sqrt

import numpy as np

from campaigns.found import Deviation, Found
from panewright.bench.rate import heat, light
from panewright.bench.rate.instrument import of_certificate, of_class
from panewright.bench.rate.report import Bench, Known, Swept, report
from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import CellModel, diode_at
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.moved.coefficients import Coefficient, typical
from panewright.curve.moved.corrections import GAP_V, OneDiode
from panewright.curve.moved.found import coefficients
from panewright.errors import PanewrightError

CELLS, VOC_V, LIGHT_A = 36, 22.0, 8.57
SCATTER_A, POINTS = 0.004, 60
ALPHA, OHM = Coefficient(0.000512, 0.00021, "recalled"), Coefficient(0.2, 0.06, "recalled")
VOLTS, AMPS = of_class("meter 1", "multimeter", 0.005), of_class("meter 2", "multimeter", 0.01)
CELL = of_certificate("cell 1", "reference cell", 0.02)
BACK = of_class("back 1", "thermometer", 0.0, within=1.0)
MISSES, NARROWEST, WIDEST = 0.10, 0.6, 1.35
WAYS = ("nothing known", "crystalline cells", "own curves")
FIGURES = ("power_w", "isc_a", "voc_v", "fill_factor")


@dataclass(frozen=True, slots=True)
class Panel:
    """An invented panel and its true figures."""

    model: CellModel

    @property
    def true(self) -> KeyPoints:
        return key_points(self.model.stc)

    def swept(self, light_w_m2: float, cell_c: float) -> tuple[np.ndarray, np.ndarray]:
        """A true sweep a little past open circuit."""
        diode = diode_at(self.model, light_w_m2, cell_c)
        volts = np.linspace(0.0, 1.08 * key_points(diode).voc_v, POINTS)
        return volts, np.asarray(current_a(diode, volts))


def campaign(count: int, seed: int) -> Found:
    """Panels rated, each error in units of its stated standard uncertainty."""
    chance = np.random.default_rng(seed)
    errors: dict[str, list[float]] = {name: [] for name in FIGURES}
    counts, failures = dict.fromkeys(WAYS, 0), []
    for number in range(count):
        way = WAYS[number % len(WAYS)]
        try:
            found = _errors(chance, way, by_voc=number % 4 == 3)
        except PanewrightError as refused:
            failures.append(f"case {number}, {way}: {refused}")
            continue
        counts[way] += 1
        for name, error in found.items():
            errors[name].append(error)
    deviations = tuple(each for name in FIGURES for each in _deviations(name, np.array(errors[name])))
    against = "the true panel, all errors drawn"
    return Found("panels rated", against, count, counts, deviations, tuple(failures))


def _deviations(name: str, errors: np.ndarray) -> tuple[Deviation, ...]:
    """Misses of k = 2; and how far the scatter of the errors lies from one."""
    where = f"{errors.size} ratings, mean {errors.mean():+.2f}, scatter {errors.std():.2f}"
    scatter = float(errors.std())
    over = max(scatter / WIDEST, NARROWEST / scatter)
    return (
        Deviation(f"{name}: share outside k = 2", float(np.mean(np.abs(errors) > 2)), MISSES, where),
        Deviation(f"{name}: scatter from {NARROWEST} to {WIDEST}", over, 1.0, where),
    )


def _errors(chance: np.random.Generator, way: str, *, by_voc: bool) -> dict[str, float]:
    """Each figure rated, less the true one, in standard uncertainties."""
    panel = _panel(chance, way)
    sun, back = chance.uniform(650, 1050), chance.uniform(25, 55)
    hot = back + (3 + chance.standard_normal()) * sun / 1000 + chance.standard_normal()
    volts, amps = panel.swept(sun, hot)
    gains = 1 + chance.uniform(-1, 1, 2) * (0.005, 0.01)
    amps = amps * gains[1] + SCATTER_A * chance.standard_normal(amps.size)
    warm = heat.by_back(back + chance.uniform(-1, 1), BACK)
    known = _known(chance, panel, way)
    if by_voc:
        warm = heat.by_voc(
            known.coefficients or typical(LIGHT_A, VOC_V * (1 + 0.01 * chance.standard_normal()))
        )
    bench = Bench(_light(chance, sun), warm, VOLTS, AMPS, date(2026, 6, 20))
    rated = report(Swept(volts * gains[0], amps, accuracy=Accuracy(current_a=SCATTER_A)), bench, known).rated
    budgets = {name: rated.of(name).budget for name in FIGURES}
    true = panel.true
    return {
        name: (budget.value - getattr(true, name)) / budget.sigma
        for name, budget in budgets.items()
        if budget
    }


def _panel(chance: np.random.Generator, way: str) -> Panel:
    """A panel as unlike others as what is taken for known says."""
    ideality = chance.uniform(0.98, 1.15)
    beta = chance.normal(-0.003374, 0.00036)
    if way == "crystalline cells":
        gap = GAP_V.value + GAP_V.sigma * chance.standard_normal()
        beta = (1 - gap * CELLS / VOC_V) / 298.15
    gap_ev = (VOC_V - beta * VOC_V * 298.15) / (ideality / 0.025693) - 3 * 0.025693
    diode = Diode(
        LIGHT_A,
        LIGHT_A / expm1(VOC_V / ideality),
        ideality,
        chance.uniform(0.1, 0.3),
        chance.uniform(100, 800),
    )
    alpha = max(ALPHA.value + ALPHA.sigma * chance.standard_normal(), 0.0)
    return Panel(CellModel(diode, gap_ev, alpha, 1.0))


def _known(chance: np.random.Generator, panel: Panel, way: str) -> Known:
    """What is known of it before."""
    if way == "nothing known":
        return Known()
    if way == "crystalline cells":
        return Known(None, OneDiode(CELLS, OHM, ALPHA))
    places = [(600.0, 25.0), (800.0, 25.0), (1000.0, 25.0), (1000.0, 45.0), (1000.0, 65.0)]
    return Known(coefficients([_curve(chance, panel, *place) for place in places]))


def _curve(chance: np.random.Generator, panel: Panel, sun: float, cell_c: float) -> Measured:
    volts, amps = panel.swept(sun, cell_c)
    amps = amps + SCATTER_A * chance.standard_normal(amps.size)
    return Measured(tuple(volts.tolist()), tuple(amps.tolist()), sun, cell_c, Accuracy(current_a=SCATTER_A))


def _light(chance: np.random.Generator, sun: float) -> light.Light:
    """What a reference cell beside the panel says of it."""
    aslant, askew = light.SQUARELY.incidence_deg, light.SQUARELY.askew_deg * chance.standard_normal()
    sees = cos(radians(aslant + askew)) / cos(radians(aslant))
    shares = np.array([0.01, sqrt(2) * 0.005]) * chance.standard_normal(2)
    drift = (light.ALPHA.value + light.ALPHA.sigma * chance.standard_normal()) * (40 - 25)
    reading = 0.1 * sun / 1000 * sees * (1 + drift) * float(np.prod(1 + shares))
    return light.by_cell(reading, 40.0, light.Sensor(CELL, 0.1))
