"""A cell's electrical model in any light and heat, from the few figures of its nameplate.

Five figures go through the nameplate's three points exactly (see `three_points`). Heat and light follow
De Soto's rules with a band gap that does not itself change:

    IL = G / 1000 (IL0 + alpha (T - T0)),   I0 = I00 (T / T0)^3 exp(Eg / k (1 / T0 - 1 / T)),
    n k T / q ~ T,   Rsh ~ 1000 / G,   Rs and the breakdown term constant.

With the true gap of 1.12 eV and n other than 1 these rules give an unreal temperature coefficient; Eg is
therefore what makes the mean slope of Voc from 25 to 65 degC the stated one. It stands in for gap / n.

A cut edge has no surface passivation. Where it crosses the junction it recombines like a diode of ideality
2 with a saturation current of 19 nA for each cm of edge [F], the worst case; the model adds as much to the
strip's own saturation current as takes the same current at maximum power.

[D] W. De Soto, S. A. Klein, W. A. Beckman, Improvement and validation of a model for photovoltaic array
    performance, Solar Energy 80, 2006, p. 78.
[F] A. Fell et al., Modeling edge recombination in silicon solar cells, IEEE J. Photovoltaics 8, 2018,
    p. 428 (the figure of about 19 nA/cm is in its abstract; seen).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from panewright.cell.curve import current_a, swallowed_a
from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape, area_mm2, end_widths_mm, strips
from panewright.cell.three_points import THERMAL_25_V, Breakdown, diode_near
from panewright.units import KELVIN

T0_K = 25 + KELVIN
BOLTZMANN_EV = 8.617333262e-5  #: k [eV/K]
CUT_EDGE_A_PER_MM = 1.9e-9  #: saturation current of ideality 2 along a cut edge, [F]
BREAKDOWN_SHARE = 0.1  #: G as a share of the shunt's conductance, see `fit_cell`
BREAKDOWN_EXPONENT = 3.4  #: m, see `fit_cell`
_WARM_K = 65 + KELVIN  # IEC 60891 asks for 30 K or more; makers state the slope over about this span


@dataclass(frozen=True, slots=True)
class CellModel:
    """A cell's diode at STC, and how it changes with light and heat."""

    stc: Diode  #: at 1000 W/m2 and 25 degC
    gap_ev: float  #: Eg of the saturation current's growth, scaled to meet voc_per_k
    isc_per_k: float  #: relative change of Isc [1/K]
    area_mm2: float
    assumed: tuple[str, ...] = ()  #: what the nameplate left open, in sentences


def fit_cell(kind: CellKind) -> CellModel:
    """The model of a whole cell, exact at Isc, Voc and maximum power and in the slope of Voc.

    The nameplate leaves the shunt open; it is taken from the kind, or moved to the nearest that has a
    diode. In reverse G is a tenth of the shunt's conductance and m 3.4, the values of the usual worked
    examples after Bishop (memory); the breakdown voltage is the kind's (recalled ranges: -15 to -30 V for
    mono, -10 to -20 V for multi cells; cells of one kind scatter widely).
    """
    area = area_mm2(kind.shape)
    wanted = area / 100 / kind.shunt_ohm_cm2
    breakdown = Breakdown(BREAKDOWN_SHARE * wanted, kind.breakdown_v, BREAKDOWN_EXPONENT)
    diode = diode_near(kind.nameplate, breakdown, wanted)
    if diode is None:  # so square a curve has no room for the breakdown's forward leak
        diode = diode_near(kind.nameplate, replace(breakdown, siemens=0.0), wanted)
    if diode is None:
        raise ValueError(f"no diode goes through the points of {kind.name!r}; ask impossible() first")
    gap = _gap_ev(kind.nameplate, diode)
    return CellModel(diode, gap, kind.nameplate.isc_per_k, area, _assumptions(kind, diode, area))


def strip_models(kind: CellKind) -> tuple[CellModel, ...]:
    """The model of every strip of a cut cell, bottom to top, cut edges included."""
    whole = fit_cell(kind)
    if kind.parts == 1:
        return (whole,)
    pieces = strips(kind.shape, kind.parts)
    return tuple(_strip_model(whole, piece, _cut_mm(pieces, k)) for k, piece in enumerate(pieces))


def diode_at(model: CellModel, irradiance_w_m2: float, cell_c: float) -> Diode:
    """The cell's diode in a light and at a cell temperature, by [D].

    In the dark the shunt is infinite: the rule makes it grow as the light fades.
    """
    stc, t, light = model.stc, cell_c + KELVIN, irradiance_w_m2 / 1000
    if t <= 0 or irradiance_w_m2 < 0:
        raise ValueError(f"light is 0 W/m2 or more and heat above 0 K, got {irradiance_w_m2}, {cell_c} degC")
    drift_a = model.isc_per_k * _isc_a(stc) * (t - T0_K)
    growth = (t / T0_K) ** 3 * math.exp(model.gap_ev / BOLTZMANN_EV * (1 / T0_K - 1 / t))
    return replace(
        stc,
        light_a=light * max(0.0, stc.light_a + drift_a),
        saturation_a=stc.saturation_a * growth,
        ideality_v=stc.ideality_v * t / T0_K,
        shunt_ohm=stc.shunt_ohm / light if light > 0 else math.inf,
    )


@lru_cache(maxsize=64)
def _isc_a(stc: Diode) -> float:
    """Short-circuit current; kept, as a cell is asked in many lights. [A]"""
    return current_a(stc, 0.0)


def _gap_ev(plate: Nameplate, diode: Diode) -> float:
    """The gap at which Voc at 65 degC is what the stated slope makes it. [eV]"""
    span = _WARM_K - T0_K
    voc = plate.voc_v * (1 + plate.voc_per_k * span)
    light = diode.light_a + plate.isc_per_k * plate.isc_a * span
    straight = float(swallowed_a(replace(diode, saturation_a=1e-300), voc)[0])
    saturation = (light - straight) / math.expm1(voc / (diode.ideality_v * _WARM_K / T0_K))
    growth = saturation / diode.saturation_a / (_WARM_K / T0_K) ** 3
    return BOLTZMANN_EV * math.log(growth) / (1 / T0_K - 1 / _WARM_K)


def _assumptions(kind: CellKind, diode: Diode, area: float) -> tuple[str, ...]:
    """What the nameplate left open, in sentences."""
    wanted, got = kind.shunt_ohm_cm2 / (area / 100), diode.shunt_ohm
    n = diode.ideality_v / THERMAL_25_V
    said = [f"The nameplate leaves the shunt open: {wanted:.3g} ohm is assumed for the whole cell."]
    if not math.isclose(wanted, got, rel_tol=1e-3):
        why = f"No diode of ideality 0.6 to 2.2 without negative resistance has {wanted:.3g} ohm"
        said = [f"{why}; the nearest shunt that has one is taken: {got:.3g} ohm (n = {n:.2f})."]
    if diode.breakdown_siemens == 0:
        said.append("The curve is too square for a breakdown term; in reverse only the shunt conducts.")
    else:
        said.append(
            f"In reverse the cell is assumed to break down at {diode.breakdown_v:g} V after Bishop, with "
            f"{diode.breakdown_siemens:.2g} S and exponent {diode.breakdown_exponent:g}; real cells scatter."
        )
    return tuple(said)


def _cut_mm(pieces: tuple[Shape, ...], k: int) -> float:
    """Length of the cut edges of strip k: its lower end unless it is the first, its upper unless last."""
    lower, upper = end_widths_mm(pieces[k])
    return (lower if k > 0 else 0.0) + (upper if k < len(pieces) - 1 else 0.0)


def _strip_model(whole: CellModel, piece: Shape, cut_mm: float) -> CellModel:
    """A strip: its share of the whole cell by area, and the recombination along its cut edges."""
    area = area_mm2(piece)
    share, diode = area / whole.area_mm2, whole.stc
    plain = diode.part(share)
    before = key_points(plain)
    vd = before.vmp_v + before.imp_a * plain.series_ohm
    edge_a = CUT_EDGE_A_PER_MM * cut_mm * math.expm1(vd / (2 * THERMAL_25_V))
    cut = replace(plain, saturation_a=plain.saturation_a + edge_a / math.expm1(vd / plain.ideality_v))
    loss = 1 - key_points(cut).power_w / before.power_w
    said = f"{cut_mm:.0f} mm of cut edge cost this strip {loss:.1%} of its power (Fell 2018, worst case)."
    return replace(whole, stc=cut, area_mm2=area, assumed=(*whole.assumed, said))
