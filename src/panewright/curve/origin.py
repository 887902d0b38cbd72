"""One record for a cell however it is described: by its parameters, its nameplate, a curve or a meter.

A nameplate becomes a `CellModel` in `cell.model.fit_cell`. The other ways give a diode in some light and
heat. This module takes it to 1000 W/m2 and 25 degC by the same rules that `cell.model.diode_at` uses, turned
round, so that `diode_at` gives the very diode back:

    IL0 = IL 1000 / G - alpha Isc0 (T - T0),   I0 / growth,   nVth T0 / T,   Rsh G / 1000.

How a diode drifts with heat no single curve tells: it is taken from a kind, or assumed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.model import BOLTZMANN_EV, T0_K, CellModel
from panewright.curve.fitted import Fit
from panewright.errors import CurveError, Problem
from panewright.units import KELVIN

_WARM_K = 65 + KELVIN


@dataclass(frozen=True, slots=True)
class Drift:
    """How a cell changes with heat, and where that is known from."""

    isc_per_k: float = 0.0005
    voc_per_k: float = -0.0034
    words: str = "is assumed: the middle of crystalline modules (+0.05 % and -0.34 % a kelvin)"
    gap_ev: float | None = None  #: known already; else it is what makes the slope of Voc the stated one

    @classmethod
    def of(cls, model: CellModel) -> Drift:
        """The drift of a kind's model."""
        warm, cold = (key_points(_heated(model.stc, model, kelvin)).voc_v for kelvin in (_WARM_K, T0_K))
        slope = (warm / cold - 1) / (_WARM_K - T0_K)
        return cls(model.isc_per_k, slope, "is taken from the kind", model.gap_ev)


def from_parameters(diode: Diode, area_mm2: float, drift: Drift | None = None) -> CellModel:
    """The model of a cell whose diode at 1000 W/m2 and 25 degC is known."""
    drift = drift or Drift()
    return CellModel(diode, _gap_ev(diode, drift), drift.isc_per_k, area_mm2, (_drift_said(drift),))


def from_condition(
    diode: Diode, light_and_heat: tuple[float, float], area_mm2: float, drift: Drift | None = None
) -> CellModel:
    """The model whose `diode_at` in that light [W/m2] and at that cell temperature [degC] is the diode."""
    drift = drift or Drift()
    irradiance, cell_c = light_and_heat
    t, light = cell_c + KELVIN, irradiance / 1000
    if not (light > 0 and t > 0):
        raise ValueError(
            f"a diode is taken to full sun from some light, got {irradiance} W/m2, {cell_c} degC"
        )
    cool = replace(
        diode,
        ideality_v=diode.ideality_v * T0_K / t,
        shunt_ohm=diode.shunt_ohm * light,
        light_a=diode.light_a / light,
    )
    warmer = t - T0_K
    gap = drift.gap_ev if drift.gap_ev is not None else _gap_of_warm(cool, warmer, drift)
    stc = _cooled(cool, warmer, gap, drift)
    said = [_drift_said(drift)]
    if not (math.isclose(irradiance, 1000) and math.isclose(cell_c, 25)):
        said.append(f"Taken from {irradiance:.0f} W/m2 and {cell_c:.1f} degC to full sun by De Soto's rules.")
    return CellModel(stc, gap, drift.isc_per_k, area_mm2, tuple(said))


def from_fit(
    fit: Fit, area_mm2: float, drift: Drift | None = None, lit: CellModel | None = None
) -> CellModel:
    """The model of one cell of a fitted curve.

    A dark curve says nothing of light: that of `lit`, a model of the kind, is taken, and the shunt is kept
    as it was measured.
    """
    drift = drift or (Drift.of(lit) if lit else None)
    if fit.irradiance_w_m2 > 0:
        model = from_condition(fit.diode, (fit.irradiance_w_m2, fit.cell_c), area_mm2, drift)
        return replace(model, assumed=(*fit.said, *model.assumed))
    if lit is None:
        reason = "A dark curve does not tell what light frees."
        raise CurveError(
            [Problem(reason, "Measure the short-circuit current in known light too, or name the kind.")]
        )
    freed = lit.stc.light_a * area_mm2 / lit.area_mm2
    model = from_condition(replace(fit.diode, light_a=freed), (1000.0, fit.cell_c), area_mm2, drift)
    said = "The curve was dark: the light-generated current is the kind's, by area."
    model = replace(model, stc=replace(model.stc, light_a=freed))
    return replace(model, assumed=(*fit.said, said, *model.assumed))


def _drift_said(drift: Drift) -> str:
    return f"The drift with heat {drift.words}."


def _growth(gap_ev: float, kelvin: float) -> float:
    """Growth of the saturation current from 25 degC. [-]"""
    return (kelvin / T0_K) ** 3 * math.exp(gap_ev / BOLTZMANN_EV * (1 / T0_K - 1 / kelvin))


def _light_at_25(cool: Diode, drift: float) -> float:
    """Light-generated current at 25 degC of a diode whose light is still the warm one's. [A]

    The drift counts in shares of the cold Isc, which is a little less than the light itself.
    """
    wanted = cool.light_a
    light = wanted / (1 + drift)
    for _ in range(60):
        isc = current_a(replace(cool, light_a=light), 0.0)
        new = wanted - drift * isc
        if new <= 0:
            return light
        if abs(new - light) <= 1e-16 * wanted:
            break
        light = new
    return light


def _heated(stc: Diode, model: CellModel, kelvin: float) -> Diode:
    """A diode of full sun at another temperature, the drift of the light aside."""
    return replace(
        stc,
        light_a=stc.light_a + model.isc_per_k * current_a(stc, 0.0) * (kelvin - T0_K),
        saturation_a=stc.saturation_a * _growth(model.gap_ev, kelvin),
        ideality_v=stc.ideality_v * kelvin / T0_K,
    )


def _gap_ev(diode: Diode, drift: Drift) -> float:
    """The gap at which Voc at 65 degC is what the stated slope makes it. [eV]"""
    if drift.gap_ev is not None:
        return drift.gap_ev
    points, span = key_points(diode), _WARM_K - T0_K
    if points.voc_v == 0:
        return 1.16 * 0.025693 / diode.ideality_v
    voc = points.voc_v * (1 + drift.voc_per_k * span)
    light = diode.light_a + drift.isc_per_k * points.isc_a * span
    straight = float(swallowed_a(replace(diode, saturation_a=1e-300), voc)[0])
    saturation = (light - straight) / float(np.expm1(voc / (diode.ideality_v * _WARM_K / T0_K)))
    growth = max(saturation, 1e-300) / diode.saturation_a / (_WARM_K / T0_K) ** 3
    return BOLTZMANN_EV * math.log(growth) / (1 / T0_K - 1 / _WARM_K)


def _cooled(cool: Diode, warmer: float, gap_ev: float, drift: Drift) -> Diode:
    """A full-sun diode whose light and saturation are still those of a warmer cell, at 25 degC."""
    at_25 = replace(cool, saturation_a=cool.saturation_a / _growth(gap_ev, T0_K + warmer))
    return replace(at_25, light_a=_light_at_25(at_25, drift.isc_per_k * warmer))


def _gap_of_warm(cool: Diode, warmer: float, drift: Drift) -> float:
    """The gap of a diode known at another temperature, found by going there and back until it stays."""
    gap = 1.16 * 0.025693 / cool.ideality_v
    for _ in range(100):
        new = _gap_ev(_cooled(cool, warmer, gap, drift), drift)
        if abs(new - gap) < 1e-13:
            break
        gap = new if abs(new - gap) < 0.1 else 0.5 * (gap + new)
    return gap
