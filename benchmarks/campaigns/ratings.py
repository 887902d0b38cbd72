"""Panels rated from readings in which everything is off: how often the truth lies within k = 2.

Every panel is invented, and so is every error: meters anywhere within their class, the rest as
`rated_ways` draws it. Light comes from a reference cell, a second panel, a light meter or a clear sky; heat
from the back, by a gun, by the air or by Voc; what is known of the panel goes from nothing to curves of its
own, with the circuit of a sound panel of its kind between, as the doors have it; one case in five is a
meter's few readings. With k = 2 the truth lies within in some 95 of 100 cases; the errors in units of the
stated standard uncertainty scatter by one, or the uncertainty would be too wide or too narrow.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date
from math import expm1, sqrt

import numpy as np

from campaigns.found import Deviation, Found
from campaigns.rated_ways import HEATS, LIGHTS, Sunlit, Warm, lit, warmed
from panewright.bench.rate.between import between, filled
from panewright.bench.rate.instrument import of_class
from panewright.bench.rate.own import doubted
from panewright.bench.rate.rated import Rated, Taken, rate
from panewright.bench.rate.report import Bench, Known, Swept, report
from panewright.cell.curve import current_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import KeyPoints, key_points
from panewright.cell.model import CellModel, diode_at
from panewright.curve.measured import Accuracy, Measured
from panewright.curve.meter.bracket import power_bounds
from panewright.curve.meter.meter_points import points_of
from panewright.curve.meter.meter_set import Load, MeterClass, MeterSet
from panewright.curve.meter.onward import curve_of
from panewright.curve.moved.choice import Given
from panewright.curve.moved.coefficients import Coefficient, Coefficients, typical
from panewright.curve.moved.corrections import GAP_V, OneDiode
from panewright.curve.moved.found import coefficients
from panewright.errors import PanewrightError

CELLS, VOC_V, LIGHT_A = 36, 22.0, 8.57
SCATTER_A, POINTS = 0.004, 60
ALPHA, OHM = Coefficient(0.000512, 0.00021, "recalled"), Coefficient(0.2, 0.06, "recalled")
VOLT_SHARE, AMP_SHARE, OHM_SHARE = 0.005, 0.01, 0.01
VOLTS, AMPS = of_class("meter 1", "multimeter", VOLT_SHARE), of_class("meter 2", "multimeter", AMP_SHARE)
SHARE, CHANCE = 0.0455, 2.6  #: of a bell outside two sigma; deviations that chance alone hardly exceeds
NARROWEST, WIDEST = 0.6, 1.35
KNOWN = ("nothing known", "crystalline cells", "its own circuit", "own curves")
FIGURES = ("power_w", "isc_a", "voc_v", "fill_factor")
CURVES = [(600.0, 25.0), (800.0, 25.0), (1000.0, 25.0), (1000.0, 45.0), (1000.0, 65.0)]
#: shares of a list of modules, and their slopes of Isc: skew, so no bell (derived; see coefficients)
ALPHA_OF = ((0.0, 0.05, 0.5, 0.95, 1.0), (0.0001, 0.00024, 0.00051, 0.00095, 0.0014))


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


@dataclass(frozen=True, slots=True)
class Way:
    """How one case is measured."""

    light: str
    heat: str
    known: str
    meter: bool  #: a few readings instead of a sweep

    @classmethod
    def of(cls, number: int) -> Way:
        """All go round, each against the others."""
        turn = number + number // 4 + number // 16
        return cls(LIGHTS[number % 4], HEATS[number // 4 % 4], KNOWN[turn % 4], number % 5 == 4)

    @property
    def names(self) -> tuple[str, ...]:
        return f"light: {self.light}", f"heat: {self.heat}", self.known, "meter" if self.meter else "sweep"


def campaign(count: int, seed: int) -> Found:
    """Panels rated, each error in units of its stated standard uncertainty."""
    chance = np.random.default_rng(seed)
    errors: dict[str, list[float]] = {name: [] for name in FIGURES}
    counts, outside, failures = Counter[str](), Counter[str](), []
    for number in range(count):
        way = Way.of(number)
        try:
            found = _errors(chance, way)
        except PanewrightError as refused:
            failures.append(f"case {number}, {', '.join(way.names)}: {refused}")
            continue
        counts.update(way.names)
        outside.update(way.names * (abs(found["power_w"]) > 2))
        for name, error in found.items():
            errors[name].append(error)
    deviations = tuple(each for name in FIGURES for each in _deviations(name, np.array(errors[name])))
    notes = tuple(
        f"power outside k = 2, {name}: {outside[name]} of {counts[name]}" for name in sorted(counts)
    )
    against = "the true panel, all errors drawn"
    return Found("panels rated", against, count, dict(counts), deviations, tuple(failures), notes)


def _deviations(name: str, errors: np.ndarray) -> tuple[Deviation, ...]:
    """Misses of k = 2; and how far the scatter of the errors lies from one."""
    where = f"{errors.size} ratings, mean {errors.mean():+.2f}, scatter {errors.std():.2f}"
    scatter = float(errors.std())
    over = max(scatter / WIDEST, NARROWEST / scatter)
    allowed = SHARE + CHANCE * sqrt(SHARE * (1 - SHARE) / errors.size)
    return (
        Deviation(f"{name}: share outside k = 2", float(np.mean(np.abs(errors) > 2)), allowed, where),
        Deviation(f"{name}: scatter from {NARROWEST} to {WIDEST}", over, 1.0, where),
    )


def _errors(chance: np.random.Generator, way: Way) -> dict[str, float]:
    """Each figure rated, less the true one, in standard uncertainties."""
    panel = _panel(chance, way.known)
    known, sun = _known(chance, panel, way.known), lit(chance, way.light)
    crowd = typical(LIGHT_A, VOC_V * (1 + 0.01 * chance.standard_normal()))
    warm = warmed(chance, way.heat, sun.true_w_m2, known.coefficients or crowd)
    rated = (_metered if way.meter else _swept)(chance, panel, known, (sun, warm))
    budgets, true = {name: rated.of(name).budget for name in FIGURES}, panel.true
    return {
        name: (budget.value - getattr(true, name)) / budget.sigma
        for name, budget in budgets.items()
        if budget
    }


def _swept(chance: np.random.Generator, panel: Panel, known: Known, by: tuple[Sunlit, Warm]) -> Rated:
    """A sweep, read with meters that are off."""
    sun, warm = by
    volts, amps = panel.swept(sun.true_w_m2, warm.true_c)
    gains = _gains(chance)
    amps = amps * gains[1] + SCATTER_A * chance.standard_normal(amps.size)
    bench = Bench(sun.told, warm.told, VOLTS, AMPS, date(2026, 6, 20))
    return report(Swept(volts * gains[0], amps, accuracy=Accuracy(current_a=SCATTER_A)), bench, known).rated


def _metered(chance: np.random.Generator, panel: Panel, known: Known, by: tuple[Sunlit, Warm]) -> Rated:
    """Voc, Isc and four resistors, each off within its tolerance; a sound panel's circuit between them."""
    sun, warm = by
    diode, gains = diode_at(panel.model, sun.true_w_m2, warm.true_c), _gains(chance)
    points = key_points(diode)
    loads = []
    for nth, share in enumerate((0.75, 0.9, 1.0, 1.15), start=1):
        ohm = share * points.vmp_v / points.imp_a
        truly = ohm * (1 + chance.uniform(-OHM_SHARE, OHM_SHARE))
        fine = np.linspace(0, points.voc_v, 4001)
        volts = float(np.interp(0.0, fine / truly - current_a(diode, fine), fine))
        loads.append(Load(f"R{nth}", ohm, OHM_SHARE, volts * gains[0]))
    read = MeterSet(
        MeterClass(VOLT_SHARE, 0, 0.01), MeterClass(AMP_SHARE, 0, 0.01), points.voc_v * gains[0],
        points.isc_a * gains[1], tuple(loads), cells=CELLS,
    )  # fmt: skip
    readings = points_of(read)
    curve = curve_of(read, readings).curve
    v, i = Panel(_model()).swept(sun.told.value_w_m2, warm.told.cell_c(sun.told.value_w_m2, points.voc_v))
    like = Measured(tuple(v.tolist()), tuple(i.tolist()), 1000.0, 25.0)
    given = Given((filled(curve, like),), known.coefficients, known.one_diode)
    room = between(readings, power_bounds(readings))
    return rate(Taken(given, sun.told, warm.told, VOLTS, AMPS, date(2026, 6, 20), between=room))


def _gains(chance: np.random.Generator) -> np.ndarray:
    """Of voltmeter and ammeter: anywhere within their class."""
    return 1 + chance.uniform(-1, 1, 2) * (VOLT_SHARE, AMP_SHARE)


def _model(
    ideality_v: float = 1.06, ohm: float = 0.2, shunt_ohm: float = 300.0, *, beta: float = -0.003374,
    alpha: float = ALPHA.value,
) -> CellModel:  # fmt: skip
    """A panel by its slopes; as it stands, that of a sound one of its kind."""
    gap_ev = (VOC_V - beta * VOC_V * 298.15) / (ideality_v / 0.025693) - 3 * 0.025693
    diode = Diode(LIGHT_A, LIGHT_A / expm1(VOC_V / ideality_v), ideality_v, ohm, shunt_ohm)
    return CellModel(diode, gap_ev, alpha, 1.0)


def _panel(chance: np.random.Generator, known: str) -> Panel:
    """A panel as unlike others as what is taken for known says."""
    beta, spread = chance.normal(-0.003374, 0.00036), 1.0
    alpha = float(np.interp(chance.uniform(), *ALPHA_OF))
    if known == "crystalline cells":
        gap = GAP_V.value + GAP_V.sigma * chance.standard_normal()
        beta = (1 - gap * CELLS / VOC_V) / 298.15
        alpha = max(ALPHA.value + ALPHA.sigma * chance.standard_normal(), 0.0)
    if known == "its own circuit":  # of its kind: cells of one lot, joints of one hand
        beta, alpha = -0.003374 * (1 + 0.05 * chance.standard_normal()), ALPHA.value
        alpha, spread = alpha * (1 + 0.05 * chance.standard_normal()), 0.2
    ideality = 1.065 + 0.085 * spread * chance.uniform(-1, 1)
    ohm, shunt = 0.2 + 0.1 * spread * chance.uniform(-1, 1), 450 + 350 * spread * chance.uniform(-1, 1)
    return Panel(_model(ideality, ohm, shunt, beta=beta, alpha=alpha))


def _known(chance: np.random.Generator, panel: Panel, known: str) -> Known:
    """What is known of it before."""
    if known == "nothing known":
        return Known()
    if known == "crystalline cells":
        return Known(None, OneDiode(CELLS, OHM, ALPHA))
    if known == "its own circuit":
        return Known(_of_its_kind())
    return Known(coefficients([_curve(chance, panel, *place) for place in CURVES]))


def _of_its_kind() -> Coefficients:
    """The circuit of a sound panel, with the widths that a design's own coefficients get."""
    exact = [_curve(None, Panel(_model()), *place) for place in CURVES]
    return doubted(coefficients(exact, "the panel's own circuit"))


def _curve(chance: np.random.Generator | None, panel: Panel, sun: float, cell_c: float) -> Measured:
    volts, amps = panel.swept(sun, cell_c)
    if chance is not None:
        amps = amps + SCATTER_A * chance.standard_normal(amps.size)
    return Measured(tuple(volts.tolist()), tuple(amps.tolist()), sun, cell_c, Accuracy(current_a=SCATTER_A))
