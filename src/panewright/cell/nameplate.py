"""The few figures that come with a cell, and whether any silicon cell can have them.

A diode's curve bends one way only, so at maximum power it lies above the straight line from Isc to Voc
and Imp >= Isc / 2, Vmp >= Voc / 2. Sunlight sets the other bounds: one electron for each photon that
silicon can absorb, the radiation any warm absorber must give back, and Auger recombination.

[A] ASTM G173 AM1.5 global spectrum: 46.5 mA/cm2 up to 1200 nm (trapezoid over the table).
[S] W. Shockley, H. J. Queisser, J. Appl. Phys. 32, 1961, p. 510: for a gap of 1.12 eV and light from one
    side, 43.8 mA/cm2 and 25 degC this gives 0.88 V (derived).
[R] A. Richter, M. Hermle, S. W. Glunz, IEEE J. Photovoltaics 3, 2013, p. 1184: 29.4 %.
[C] Statistics of 20 946 crystalline modules (CEC list): Isc +0.0002 to +0.0010, Voc -0.0040 to -0.0028 per
    K (5 and 95 percentiles); heterojunction cells reach -0.0023 (memory). The bounds here are far wider.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.key_points import key_points
from panewright.cell.three_points import LEAST_N, THERMAL_25_V, fits

MOST_A_PER_MM2 = 46.5e-5  #: [A]
MOST_VOC_V = 0.88  #: [S]
MOST_EFFICIENCY = 0.294  #: [R]
ISC_PER_K = (0.0, 0.0015)  #: around [C]
VOC_PER_K = (-0.006, -0.0015)  #: around [C]


@dataclass(frozen=True, slots=True)
class Nameplate:
    """A cell at STC (1000 W/m2, AM1.5G, 25 degC cell), and how it drifts with heat."""

    isc_a: float
    voc_v: float
    imp_a: float
    vmp_v: float
    isc_per_k: float  #: relative change of Isc [1/K], positive
    voc_per_k: float  #: relative change of Voc [1/K], negative


def impossible(nameplate: Nameplate, area_mm2: float) -> tuple[str, ...]:
    """Why no silicon cell of this area can have these figures; empty if one can.

    >>> impossible(Nameplate(8.57, 0.622, 8.05, 0.507, 0.0005, -0.0034), 24336)
    ()
    >>> impossible(Nameplate(8.57, 0.622, 8.05, 0.65, 0.0005, -0.0034), 24336)
    ('vmp 0.65 V is not below voc 0.622 V: under load the voltage is less.',)
    """
    figures = (nameplate.isc_a, nameplate.voc_v, nameplate.imp_a, nameplate.vmp_v)
    if not (area_mm2 > 0 and all(0 < figure < np.inf for figure in figures)):
        return ("isc, voc, imp, vmp and the area must all be above zero.",)
    reasons = [*_order(nameplate), *_light(nameplate, area_mm2), *_drift(nameplate)]
    if not reasons:
        reasons = list(_curve(nameplate))
    return tuple(reasons)


def _order(plate: Nameplate) -> Iterator[str]:
    """Short of any curve: the current and the voltage at maximum power against their ends."""
    if not plate.imp_a < plate.isc_a:
        yield f"imp {plate.imp_a:g} A is not below isc {plate.isc_a:g} A: under load the current is less."
    elif plate.imp_a <= plate.isc_a / 2:
        yield f"imp {plate.imp_a:g} A is not above half of isc {plate.isc_a:g} A, as every cell's is."
    if not plate.vmp_v < plate.voc_v:
        yield f"vmp {plate.vmp_v:g} V is not below voc {plate.voc_v:g} V: under load the voltage is less."
    elif plate.vmp_v <= plate.voc_v / 2:
        yield f"vmp {plate.vmp_v:g} V is not above half of voc {plate.voc_v:g} V, as every cell's is."


def _light(plate: Nameplate, area_mm2: float) -> Iterator[str]:
    """More than the sunlight on this area can give."""
    most_a = MOST_A_PER_MM2 * area_mm2
    if plate.isc_a > most_a:
        yield (
            f"isc {plate.isc_a:g} A is more than full sun can free in {area_mm2 / 100:.1f} cm2 of silicon, "
            f"{most_a:.3g} A."
        )
    if plate.voc_v > MOST_VOC_V:
        yield f"voc {plate.voc_v:g} V is more than one silicon cell can have, {MOST_VOC_V:g} V."
    efficiency = plate.imp_a * plate.vmp_v / (area_mm2 * 1e-6 * 1000)
    if efficiency > MOST_EFFICIENCY:
        yield (
            f"imp times vmp make {efficiency:.1%} of the sunlight on {area_mm2 / 100:.1f} cm2; the limit of "
            f"silicon is {MOST_EFFICIENCY:.1%}."
        )


def _drift(plate: Nameplate) -> Iterator[str]:
    """Temperature coefficients of no silicon cell; most often a wrong sign or per cent taken for a share."""
    if not ISC_PER_K[0] <= plate.isc_per_k <= ISC_PER_K[1]:
        yield (
            f"isc_per_k {plate.isc_per_k:.3%} a kelvin is not what silicon has: isc grows with heat, by at "
            f"most {ISC_PER_K[1]:.2%} a kelvin."
        )
    if not VOC_PER_K[0] <= plate.voc_per_k <= VOC_PER_K[1]:
        yield (
            f"voc_per_k {plate.voc_per_k:.3%} a kelvin is not what silicon has: voc falls with heat, by "
            f"{-VOC_PER_K[1]:.2%} to {-VOC_PER_K[0]:.2%} a kelvin."
        )


def _curve(plate: Nameplate) -> Iterator[str]:
    """Points that no diode's curve joins."""
    ideal = _ideal_fill_factor(plate)
    fill = plate.imp_a * plate.vmp_v / (plate.isc_a * plate.voc_v)
    if fill > ideal:
        yield (
            f"isc, voc, imp and vmp make a fill factor of {fill:.3f}; the best a cell of this voc can have, "
            f"without any resistance, is {ideal:.3f}."
        )
    elif not fits(plate):
        apart = f"imp {plate.imp_a:g} A and vmp {plate.vmp_v:g} V do not lie on one cell's curve"
        good = _possible_imp_a(plate)
        if good:
            yield f"{apart}: with this isc, voc and vmp, imp is about {good[0]:.3g} to {good[-1]:.3g} A."
        else:
            yield f"{apart}: with this isc and voc, vmp is too near to voc."


def _ideal_fill_factor(plate: Nameplate) -> float:
    """Fill factor with the sharpest knee and no resistances. [-]"""
    knee_v = LEAST_N * THERMAL_25_V
    saturation = plate.isc_a / float(np.expm1(plate.voc_v / knee_v))
    return key_points(Diode(plate.isc_a, saturation, knee_v, 0.0, float("inf"))).fill_factor


def _possible_imp_a(plate: Nameplate) -> list[float]:
    """Currents at maximum power that some diode has together with the other three figures. [A]"""
    tried = np.linspace(plate.isc_a / 2, plate.isc_a, 51)[1:-1].tolist()
    return [imp for imp in tried if fits(replace(plate, imp_a=imp))]
