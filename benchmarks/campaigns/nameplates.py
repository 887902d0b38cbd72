"""Nameplates that a cell can have: the fitted model must have exactly these points, and this slope of Voc.

Half of the nameplates are read off a random diode, half are random figures that `impossible` lets pass; a
figure that passes and cannot be fitted is a failure.
"""

from __future__ import annotations

from random import Random

from campaigns.found import Found, Worst
from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.kind import CellKind
from panewright.cell.model import diode_at, fit_cell
from panewright.cell.nameplate import Nameplate, impossible
from panewright.cell.shape import Shape, area_mm2

SHAPE = Shape(156.0, 156.0)
AREA_MM2 = area_mm2(SHAPE)
_SPAN_K = 40.0  #: the slope of Voc is a mean from 25 to 65 degC
_ALLOWED = {
    "Isc": 1e-8,
    "Voc": 1e-8,
    "Imp": 1e-6,
    "Vmp": 1e-6,
    "Pmp": 1e-9,
    "dP/dV": 1e-6,
    "slope of Voc": 1e-7,
}


def campaign(count: int, seed: int) -> Found:
    """Nameplates, each fitted and read back."""
    chance, worst = Random(seed), Worst(_ALLOWED)
    failures: dict[str, str] = {}
    refused = tried = 0
    while tried < count:
        plate = _of_a_diode(chance) if chance.random() < 0.5 else _of_figures(chance)
        if impossible(plate, AREA_MM2):
            refused += 1
            continue
        tried += 1
        shunt, breakdown = 10 ** chance.uniform(2, 6), -chance.uniform(3, 60)
        kind = CellKind("a cell", SHAPE, plate, "minus", shunt_ohm_cm2=shunt, breakdown_v=breakdown)
        try:
            _read_back(kind, worst)
        except (ValueError, ArithmeticError) as error:
            failures.setdefault(f"{type(error).__name__}: {error}"[:60], f"{error}\n{kind}")
    counts = {"fitted": tried - len(failures), "refused as impossible": refused}
    against = "its own figures"
    return Found("nameplates", against, tried, counts, worst.deviations(), tuple(failures.values()))


def _drifts(chance: Random) -> tuple[float, float]:
    return chance.uniform(0.0, 0.0015), chance.uniform(-0.006, -0.0015)


def _of_a_diode(chance: Random) -> Nameplate:
    """The key points of a random cell, to six digits as printed or in full."""
    isc, nv = chance.uniform(3.0, 10.5), chance.uniform(0.7, 2.0) * 0.025693
    voc = chance.uniform(0.5, 0.74)
    saturation = isc / (2.718281828459045 ** (voc / nv) - 1)
    series, shunt = chance.uniform(0, 0.12) * voc / isc, voc / isc * 10 ** chance.uniform(1, 4)
    points = key_points(Diode(isc, saturation, nv, series, shunt))
    figures = points.isc_a, points.voc_v, points.imp_a, points.vmp_v
    if chance.random() < 0.5:
        figures = tuple(float(f"{figure:.4g}") for figure in figures)  # type: ignore[assignment]
    return Nameplate(*figures, *_drifts(chance))


def _of_figures(chance: Random) -> Nameplate:
    isc, voc = chance.uniform(2.0, 11.0), chance.uniform(0.45, 0.75)
    imp, vmp = isc * chance.uniform(0.5, 1.0), voc * chance.uniform(0.5, 1.0)
    return Nameplate(isc, voc, imp, vmp, *_drifts(chance))


def _read_back(kind: CellKind, worst: Worst) -> None:
    plate = kind.nameplate
    model = fit_cell(kind)
    points = key_points(model.stc)
    where = ", ".join(f"{name} {getattr(plate, name):.4g}" for name in plate.__slots__)
    worst.see("Isc", points.isc_a / plate.isc_a - 1, where)
    worst.see("Voc", points.voc_v / plate.voc_v - 1, where)
    worst.see("Imp", points.imp_a / plate.imp_a - 1, where)
    worst.see("Vmp", points.vmp_v / plate.vmp_v - 1, where)
    worst.see("Pmp", points.power_w / (plate.imp_a * plate.vmp_v) - 1, where)
    worst.see("dP/dV", _power_slope(model.stc, plate), where)
    hot = voltage_v(diode_at(model, 1000.0, 25.0 + _SPAN_K), 0.0)
    slope = (hot / plate.voc_v - 1) / _SPAN_K
    worst.see("slope of Voc", slope / plate.voc_per_k - 1, where)


def _power_slope(diode: Diode, plate: Nameplate) -> float:
    """dP/dV at the nameplate's maximum power, over Imp, by central differences. [-]"""
    step = 1e-5 * plate.vmp_v
    above, below = (v * current_a(diode, v) for v in (plate.vmp_v + step, plate.vmp_v - step))
    return (above - below) / (2 * step) / plate.imp_a
