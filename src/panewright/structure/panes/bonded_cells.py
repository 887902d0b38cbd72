"""Wafers bonded to a pane that bends: how much of the pane's stretch reaches them.

The pane's face behind the cells is pulled under wind and snow. What bonds the cells passes on a part of that,
a shear lag [V], and the wafer bends along with the pane, by half its thickness over the radius, as a soft
pour presses it on as well:

    stretch = e (share + wafer/pane)
    share   = S_s/(S_s + S_w) (1 - 1/cosh(l L/2)),   l^2 = G/g (1/S_s + 1/S_w)
    e       largest (s1 - nu s2)/E of the face within the field of cells, all of it counted as bending
    S       modulus x thickness of sheet and wafer, G and g of the bond, L the longer side of the cell

A pressing load pulls the face behind the cells, a lifting one pulls it as a skin only. Service loads: cracks
in cells cost watts, no lives. A plastic sheet counts with the modulus that is left at the end of the load.

[V] O. Volkersen, Luftfahrtforschung 15 (1938) 41: lap joints. Young's moduli of silicone 2.5 MPa, of film 2.5
    hot and 70 cool (recalled); a third of each in shear; the cool one counts, as a gust may come in the cold.
    A wafer bears 0.08 %, 100 MPa at 130 GPa (recalled).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import cosh, sqrt
from typing import Literal

import numpy as np

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.pane import Pane
from panewright.glass.plate.basis import Array
from panewright.glass.plate.bending import MPA, Plate
from panewright.glass.plate.faces import Tables, tables
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Pressing, Sides, Supported
from panewright.glass.plate.path import WIDEST, load_path
from panewright.glass.verdict.held import plate_of
from panewright.glass.verdict.proof import told
from panewright.structure.loads import Case, Loads
from panewright.units import MM

WAFER_PA, WAFER_BEARS = 130e9, 8e-4
BONDS = {  # Young's modulus cool and hot [Pa], thickness [mm]
    "silicone pour": (2.5e6, 2.5e6, 1.0),
    "film": (70e6, 2.5e6, 0.45),
}
SOURCE = (
    "shop's own reckoning: a wafer carried along breaks at about 0.08 % (recalled); shear lag of its bond"
)
_LINES = np.sin(np.linspace(0, np.pi / 2, 33))  # from the middle to the outermost cell, closer out there


@dataclass(frozen=True, slots=True)
class Carried:
    """What lies on the pane."""

    cell_mm: float  #: longer side of a cell
    wafer_mm: float
    encapsulation: Literal["silicone pour", "film", "air gap"]
    warmer_k: float  #: from the bench to the hottest the pane gets
    margin_mm: float = 0.0  #: from the pane's edge to the nearest silicon


def lag_share(pulls_pa_m: float, carried: Carried, bond_pa: float) -> float:
    """Share of a sheet's strain that reaches the middle of a wafer, by the sheet's E t. [-]  [V]"""
    resists = WAFER_PA * carried.wafer_mm * MM
    thick = BONDS[carried.encapsulation][2] * MM
    lag = sqrt(bond_pa / 3 / thick * (1 / pulls_pa_m + 1 / resists))
    half = min(lag * carried.cell_mm * MM / 2, 300.0)
    return pulls_pa_m / (pulls_pa_m + resists) * (1 - 1 / cosh(half))


def bonded_checks(
    pane: Pane, carried: Carried, loads: Loads, sides: Sides = "four sides"
) -> tuple[Check, ...]:
    """The cells under the worst service load; none over an air gap, where nothing is bonded."""
    if carried.encapsulation not in BONDS:
        return ()
    cases = [case for case in loads.cases if not case.factored and case.pressure_pa]
    found = [_stretch(pane, carried, case, loads.family, sides) for case in cases]
    known = all(reached for _, reached in found)
    return (
        Check(
            f"cells bonded to {pane.sheet.material} that bends",
            told(max((strain for strain, _ in found), default=0.0) * 100, known),
            WAFER_BEARS * 100 if known else None,
            "%",
            SOURCE,
            "Take a thicker sheet, a smaller pane, or a silicone pour instead of film.",
            "glass",
        ),
    )


def _stretch(pane: Pane, carried: Carried, case: Case, family: Family, sides: Sides) -> tuple[float, bool]:
    """Pull on a wafer under one load [-], and whether the plate's theory reaches so far."""
    plate = plate_of(pane, family, case.duration_s)
    strain, known = face_strain(plate, case.pressure_pa, carried.margin_mm, sides)
    pulls = plate.elastic.young_pa * plate.thickness_mm * MM
    share = lag_share(pulls, carried, BONDS[carried.encapsulation][0])
    return strain * (share + carried.wafer_mm / plate.thickness_mm), known


def face_strain(
    plate: Plate, pressure_pa: float, margin_mm: float = 0.0, sides: Sides = "four sides"
) -> tuple[float, bool]:
    """Largest strain of the face behind the cells, within the margin [-]; whether theory reaches there.

    A negative pressure lifts: it presses on that face.
    """
    x, y = (max(0.0, 1 - 2 * margin_mm / side) for side in (plate.long_mm, plate.short_mm))
    one = _on_four if sides == "four sides" else _on_two
    large, small, known = one(plate, pressure_pa, (x, y), sides)
    strain = (large - plate.elastic.poisson * small) * MPA / plate.elastic.young_pa
    return max(0.0, float(strain.max())), known


def _on_four(
    plate: Plate, pressure_pa: float, inner: tuple[float, float], _: Sides
) -> tuple[Array, Array, bool]:
    """Principal stresses of the face within a share of its half sides [MPa]."""
    path = load_path(min(plate.aspect, WIDEST), plate.elastic.poisson)
    faces = path.faces(min(abs(pressure_pa) / plate.load_unit_pa, path.limit))
    large, small = faces.principal(
        _tables(faces.aspect, faces.counts, *inner), 1.0 if pressure_pa >= 0 else -1.0
    )
    unit = plate.stress_unit_mpa
    return large * unit, small * unit, abs(pressure_pa) <= plate.known_pa


@lru_cache(maxsize=16)
def _tables(aspect: float, counts: tuple[int, int], along: float, across: float) -> Tables:
    """Kept, for all loads and thicknesses ask for the same places."""
    return tables(aspect, counts, along * _LINES, across * _LINES)


def _on_two(
    plate: Plate, pressure_pa: float, inner: tuple[float, float], sides: Sides
) -> tuple[Array, Array, bool]:
    bent = bend_supported(Supported(plate, sides), Pressing(abs(pressure_pa)))
    large, small = bent.field.at(*(share * _LINES for share in inner)).principal(
        1.0 if pressure_pa >= 0 else -1.0
    )
    return large, small, bent.known
