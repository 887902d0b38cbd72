"""How much of the sun's light a cell in the panel gets, step by step, against the same cell bare in air.

Each step is a share of what was left before it, weighed by the photons that the cell turns into current:
AM1.5 global, the sheet's own colour, the cell's quantum efficiency. A step above 1 is a gain. Their product
is the share of the irradiance at which the cell's circuit works.

    thrown back by the cover    both faces; the inner one hardly, where encapsulant is bonded to it
    swallowed by the cover      its tint
    cells under encapsulant     the cell's face throws back less than in air, where it was measured
    shade of the ribbons        beside the busbars, less what comes back to the silicon
    gaps and back sheet         only where a white sheet is bonded behind the cells
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import prod, sqrt
from typing import Literal

from panewright.cell.kind import CellKind
from panewright.cell.quantum import ACID, PYRAMIDS, Optics, quantum_efficiency, scale
from panewright.cell.shape import Shape, area_mm2, strips
from panewright.enclosure.back_sheet import Back
from panewright.glass.light.colours import known_sheet
from panewright.glass.light.gap import WHITE, Behind, Opening, sent_back
from panewright.glass.light.spectrum import AM15_GLOBAL
from panewright.glass.pane import Sheet
from panewright.layup.layup import Layup
from panewright.ribbon.glint import flat_recovered
from panewright.ribbon.resistance import TabRun
from panewright.ribbon.shadow import outer_width_mm, shaded_mm2, shaded_share
from panewright.ribbon.strip import Strip
from panewright.units import MM

Encapsulation = Literal["silicone pour", "film", "air gap"]
INDEX: dict[Encapsulation, float] = {"silicone pour": 1.41, "film": 1.48, "air gap": 1.0}
"""Refractive index of what lies before the cells; clear silicone and film from memory."""
ANGLES_DEG = (0.0, 30.0, 45.0, 60.0, 75.0)  #: from straight on, of the table in the book
FILM_MM = 0.45  #: of one sheet of film
BACK = "comes back from gaps and white back sheet"  #: words of that step
UNDER: dict[Encapsulation, str] = {"silicone pour": "silicone", "film": "film", "air gap": "air"}


@dataclass(frozen=True, slots=True)
class LightStep:
    """One step of the light on its way to the silicon."""

    words: str
    share: float  #: of what was left before; above 1 for a gain


@dataclass(frozen=True, slots=True)
class Light:
    """All steps in the order in which the light meets them."""

    steps: tuple[LightStep, ...]

    @property
    def share(self) -> float:
        """Of the irradiance, what the cell works with. [-]"""
        return prod(step.share for step in self.steps)


@dataclass(frozen=True, slots=True)
class Lit:
    """What lies in the light's way."""

    kind: CellKind
    sheet: Sheet
    encapsulation: Encapsulation
    tab: Strip
    run: TabRun
    layup: Layup
    white: float = WHITE  #: share of the light that the back sheet scatters

    @property
    def strip(self) -> Shape:
        """The strip with the least silicon, which limits its string."""
        return min(strips(self.kind.shape, self.kind.parts), key=area_mm2)


def white_of(back: Back | None) -> float:
    """Share that the back sheet scatters; the usual white one where the order names none. [-]"""
    return WHITE if back is None else back.white


def optics_of(kind: CellKind) -> Optics:
    """A mono wafer, known by its clipped corners, has pyramids; a full square is taken as etched by acid."""
    meets = ACID if kind.shape.circle_mm is None else PYRAMIDS
    return Optics(meets=meets, wafer_mm=kind.shape.thickness_mm)


def efficiency_scale(kind: CellKind) -> float:
    """What a usual cell's quantum efficiency is multiplied by to give this cell's Isc in full sun. [-]"""
    isc_a_m2 = kind.nameplate.isc_a / (area_mm2(kind.shape) * MM**2)
    usual = quantum_efficiency(AM15_GLOBAL.middle_nm, optics_of(kind))
    return scale(isc_a_m2, AM15_GLOBAL.current_a_m2, usual)


def light_of(lit: Lit) -> Light:
    """The light's way to the cells of a panel, straight on."""
    cover = _cover(optics_of(lit.kind), lit.sheet, lit.encapsulation)
    return Light((*cover, _shade(lit), *_gaps(lit)))


def bare_of(lit: Lit) -> Light:
    """Before any cover: only the ribbons shade the cells."""
    return Light((_shade(replace(lit, encapsulation="air gap")),))


def behind_air(lit: Lit) -> Light:
    """Behind the cover with air between, as cells lie on a pane before anything is bonded to them."""
    return light_of(replace(lit, encapsulation="air gap"))


@lru_cache(maxsize=64)
def _cover(optics: Optics, cover: Sheet, encapsulation: Encapsulation) -> tuple[LightStep, ...]:
    """Cover, and the cell's own face beneath it; kept, for panels of every size have the same."""
    sun, index = AM15_GLOBAL, INDEX[encapsulation]
    sheet = known_sheet(cover)
    bare = sun.current_a_m2 * quantum_efficiency(sun.middle_nm, optics)
    through = sheet.through(index)
    behind = float((bare * through).sum() / bare.sum())
    steps = (
        LightStep("thrown back by the cover", sheet.faces_only(index)),
        LightStep("swallowed by the cover", behind / sheet.faces_only(index)),
    )
    if index <= 1:
        return steps
    coupled = sun.current_a_m2 * quantum_efficiency(sun.middle_nm, optics, index)
    words = f"cells throw back less under {UNDER[encapsulation]}"
    return *steps, LightStep(words, float((coupled * through).sum() / (bare * through).sum()))


def at_angles(kind: CellKind, sheet: Sheet, encapsulation: Encapsulation) -> tuple[tuple[float, float], ...]:
    """Of what the cover lets through straight on, the share it still does at each angle. [deg, -]

    The beam's thinning by the cosine is not in it; what the cell's own face does is left out.
    """
    sun, light, index = AM15_GLOBAL, known_sheet(sheet), INDEX[encapsulation]
    used = sun.current_a_m2 * quantum_efficiency(sun.middle_nm, optics_of(kind))
    straight = float((used * light.through(index)).sum())
    return tuple(
        (angle, float((used * light.at_angle(angle, index)).sum()) / straight) for angle in ANGLES_DEG
    )


def _shade(lit: Lit) -> LightStep:
    strip, run = lit.strip, lit.run
    covered_mm = run.length_mm - run.front_bare_mm
    shaded = shaded_mm2(lit.tab, run.busbars, strip.busbar_width_mm, covered_mm)
    recovered = flat_recovered(INDEX[lit.encapsulation])
    front = lit.layup.front != "behind"
    lost = shaded_share(shaded, area_mm2(strip), recovered) if front else 0.0
    return LightStep("shade of the ribbons beside the busbars", 1 - lost)


def _gaps(lit: Lit) -> Iterator[LightStep]:
    """Only film bonds a white sheet to the cells; behind a pour it is fixed later and lies loose."""
    if lit.encapsulation != "film":
        return
    above = lit.sheet.nominal_mm + FILM_MM
    behind = Behind(above + lit.kind.shape.thickness_mm + FILM_MM, FILM_MM, above, INDEX["film"], lit.white)
    cells_mm2 = sum(area_mm2(cell.shape) for cell in lit.layup.cells)
    share = sent_back(openings(lit), behind, cells_mm2, cells_mm2 / _field_mm2(lit))
    yield LightStep(BACK, 1 + share)


def _field_mm2(lit: Lit) -> float:
    """The rectangle round all cells. [mm2]"""
    wide, high = _field_mm(lit)
    return wide * high


def _field_mm(lit: Lit) -> tuple[float, float]:
    plan, strip = lit.layup.plan, lit.strip
    wide = plan.columns * strip.width_mm + (plan.columns - 1) * plan.string_gap_mm
    high = plan.rows * strip.length_mm + (plan.rows - 1) * plan.cell_gap_mm
    return wide, high


def openings(lit: Lit) -> tuple[Opening, ...]:
    """Gaps between cells, between columns, at clipped corners, and the rim round the field less its buses."""
    plan, strip = lit.layup.plan, lit.strip
    wide, high = _field_mm(lit)
    clear_mm = max(0.0, strip.width_mm - lit.run.busbars * outer_width_mm(lit.tab))  # ribbon bridges the rest
    buses = max((bus.lane for bus in lit.layup.buses), default=0) * plan.bus_width_mm
    end_mm = max(0.0, plan.end_margin_mm - buses)
    cell_gaps = plan.columns * (plan.rows - 1) * clear_mm * plan.cell_gap_mm
    strip_mm2 = strip.width_mm * strip.length_mm
    corners = sum(strip_mm2 - area_mm2(cell.shape) for cell in lit.layup.cells)
    all_ = (
        Opening(cell_gaps, plan.cell_gap_mm, 2),
        Opening((plan.columns - 1) * plan.string_gap_mm * high, plan.string_gap_mm, 2),
        Opening(corners, _corner_mm(corners, len(lit.layup.cells)), 2),
        Opening(2 * plan.side_margin_mm * high, plan.side_margin_mm, 1),
        Opening(2 * end_mm * wide, end_mm, 1),
    )
    return tuple(each for each in all_ if each.area_mm2 > 1e-6 and each.width_mm > 0)


def _corner_mm(corners_mm2: float, cells: int) -> float:
    """Side of the square that four clipped corners make where they meet. [mm]"""
    return sqrt(max(0.0, corners_mm2) / cells)


def counted(light: Light, share: float) -> Light:
    """The same steps, and a last one where a circuit counts with less or more light than they make. [-]"""
    further = share / light.share
    if abs(further - 1) < 1e-9:
        return light
    words = "light the design leaves uncounted" if further < 1 else "light the design counts on beyond these"
    return Light((*light.steps, LightStep(words, further)))
