"""How a panel is encapsulated and closed: what each thing of `enclosure/` says of it, and every check."""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.cell.mass import mass_kg
from panewright.cell.shape import area_mm2
from panewright.check import Check
from panewright.enclosure.back_board import (
    WITH_RIBBONS,
    Screwed,
    choose_back,
    every_check,
    farthest_mm,
    pull_n,
)
from panewright.enclosure.back_sheet import Back, BackLoad
from panewright.enclosure.box import BoxAsk, box_ask
from panewright.enclosure.bypass import Bypass
from panewright.enclosure.conduction import AIR_GAP_MM
from panewright.enclosure.earth import Earth, Frame, earth
from panewright.enclosure.film import Film, Sheet, cut_sheet
from panewright.enclosure.fog import Damp, Enclosed, Fog, fog, fog_check
from panewright.enclosure.junction import Bypassing, Junction, judge_junction
from panewright.enclosure.laminating import Laminating, Stack, laminate
from panewright.enclosure.rating import label_fuse_a
from panewright.enclosure.relief import Relief, pull_check, relief
from panewright.frame.shape.section import section
from panewright.order.order import Order
from panewright.panel.holding.field import Weather
from panewright.panel.holding.held import Held
from panewright.panel.poured import Poured
from panewright.ribbon.strip import Strip
from panewright.shelf.shelf import Row, Shelf, Sundry
from panewright.structure.drilling.board import board_screw, screw_checks, seat_room, thread_check
from panewright.structure.drilling.frame_plan import FramePlan
from panewright.structure.rails.seat import seat_under_pane_mm
from panewright.units import MM

BACK_CLEAR_MM = 2.0  #: of a back sheet to the metal round it; common practice
FILM_CLEAR_MM = 2.0  #: film and sheet end this far short of where the bead will lie; common practice


@dataclass(frozen=True, slots=True)
class Closing:
    """All that closes one panel; None where its encapsulation has no such thing."""

    poured: tuple[Poured, ...]  #: silicones weighed, the one taken first
    laminated: tuple[Laminating, ...]  #: films weighed, the one taken first
    film_sheet: Sheet | None  #: to cut
    fog: Fog | None
    backs: tuple[Back, ...]  #: weighed, the one taken first
    back_load: BackLoad
    screwed: Screwed | None  #: of a board behind an air gap
    back_mm: tuple[float, float]  #: to cut, long and short
    junction: Junction | None
    box: BoxAsk
    lead: Relief
    earth: Earth
    checks: tuple[Check, ...]
    board_screw: str = ""  #: name of the screws that hold a board

    @property
    def back(self) -> Back:
        """What closes it behind."""
        return self.backs[0]

    @property
    def pour(self) -> Poured | None:
        """The silicone taken."""
        return self.poured[0] if self.poured else None

    @property
    def laminating(self) -> Laminating | None:
        """The card of the film taken."""
        return self.laminated[0] if self.laminated else None


@dataclass(frozen=True, slots=True)
class Asking:
    """What the rooms are asked with."""

    order: Order
    shelf: Shelf
    weather: Weather
    held: Held
    frame: FramePlan
    ribbon: Strip  #: the highest
    bypass: Bypass | None
    bypassing: Bypassing
    diodes: int
    isc_a: float  #: of the panel at STC
    system_v: float
    lead_mm2: float


def close(asking: Asking, poured: tuple[Poured, ...]) -> Closing:
    """Every thing of the closing, judged."""
    load = BackLoad(asking.system_v, asking.weather.heat.idle_cell_c)
    screwed = _screwed(asking)
    backs = backs_of(asking.order, asking.shelf, load, screwed)
    laminated = _laminated(asking, backs[0])
    fogging = _fog(asking, backs[0])
    junction = judge_junction(asking.bypass, asking.bypassing) if asking.bypass else None
    lead, bond = relief(asking.lead_mm2), _earth(asking)
    checks = (
        *(poured[0].checks if poured else ()),
        *(laminated[0].checks if laminated else ()),
        *_fog_checks(asking.order, fogging),
        *_back_checks(asking, backs[0], load, screwed),
        *(junction.checks if junction else ()),
        pull_check(lead),
        *bond.checks,
    )
    sheet = _film_sheet(asking, laminated[0].film) if laminated else None
    box = _box(asking, junction)
    screw = _screw_of(asking, backs[0]) if screwed else None
    called = screw.name if screw else ""
    size = _back_mm(asking)
    return Closing(
        poured,
        laminated,
        sheet,
        fogging,
        backs,
        load,
        screwed,
        size,
        junction,
        box,
        lead,
        bond,
        checks,
        called,
    )


def _screwed(asking: Asking) -> Screwed | None:
    """Only a board behind an air gap is held by screws, and carries the cells."""
    if asking.order.parts.encapsulation != "air gap":
        return None
    frame, shape = asking.frame, asking.order.cell.shape
    rows = [[hole for hole in piece.holes if hole.purpose == "board"] for piece in frame.pieces]
    inward_mm = rows[0][0].across_mm
    sides = frame.outer_width_mm, frame.outer_height_mm
    return Screwed(
        long_mm=max(sides) - 2 * inward_mm,
        short_mm=min(sides) - 2 * inward_mm,
        suction_pa=asking.held.loads.suction_pa,
        cells_kg_m2=WITH_RIBBONS * mass_kg(shape) / (area_mm2(shape) * MM**2),
        apart_mm=farthest_mm([[hole.along_mm for hole in row] for row in rows]),
    )


def _back_checks(asking: Asking, back: Back, load: BackLoad, screwed: Screwed | None) -> tuple[Check, ...]:
    return (*every_check(back, load, screwed), *(_screw_checks(asking, back, screwed) if screwed else ()))


def _screw_of(asking: Asking, back: Back) -> Row[Sundry] | None:
    return board_screw(asking.shelf, back.thickness_mm, asking.held.rail, asking.held.bead.bead)


def _screw_checks(asking: Asking, back: Back, screwed: Screwed) -> tuple[Check, ...]:
    """Of the screws in the seats: room, length and thread."""
    rail, bead, thick_mm = asking.held.rail, asking.held.bead.bead, back.thickness_mm
    return (
        seat_room(rail, bead),
        *screw_checks(_screw_of(asking, back), thick_mm, rail, bead),
        thread_check(rail, pull_n(screwed), asking.order.site.family),
    )


def _back_mm(asking: Asking) -> tuple[float, float]:
    """What closes the back, to cut: between the seats on a pour, inside the bead on film, else on them."""
    pane, bead, kind = asking.held.pane, asking.held.bead.bead, asking.order.parts.encapsulation
    if kind == "air gap":
        sides = asking.frame.outer_width_mm, asking.frame.outer_height_mm
        long, short, rim = max(sides), min(sides), BACK_CLEAR_MM
    elif kind == "film":
        long, short, rim = pane.long_mm, pane.short_mm, bead.bite_mm + FILM_CLEAR_MM
    else:
        inside = max(bead.bite_mm, seat_under_pane_mm(asking.held.rail, bead.gap_mm))
        long, short, rim = pane.long_mm, pane.short_mm, inside + BACK_CLEAR_MM
    return math.floor(long - 2 * rim + 1e-9), math.floor(short - 2 * rim + 1e-9)


def backs_of(order: Order, shelf: Shelf, load: BackLoad, screwed: Screwed | None) -> tuple[Back, ...]:
    """The back taken, then the others of the shelf."""
    rows = tuple(row.part for row in shelf.backs)
    taken = order.parts.back or choose_back(rows, load, screwed)
    return (taken, *(back for back in rows if back != taken))


def _laminated(asking: Asking, back: Back) -> tuple[Laminating, ...]:
    """A card for each film: the order's own, or the first that holds every rule, then the others."""
    if asking.order.parts.encapsulation != "film":
        return ()
    pinned = asking.order.parts.film
    films = ((pinned,) if pinned else ()) + tuple(
        row.part for row in asking.shelf.films if row.part != pinned
    )
    cards = [_card(asking, back, film) for film in films]
    first = 0 if pinned else next((n for n, card in enumerate(cards) if _holds(card.checks)), 0)
    return (cards[first], *cards[:first], *cards[first + 1 :])


def _holds(checks: tuple[Check, ...]) -> bool:
    return all(check.passed for check in checks)


def _card(asking: Asking, back: Back, film: Film) -> Laminating:
    closing, ribbon = asking.order.closing, asking.ribbon
    stack = Stack(
        asking.held.pane.sheet.nominal_mm, back.thickness_mm, ribbon.thickness_mm + 2 * ribbon.coat_mm
    )
    return laminate(stack, film, closing.plate_c, heater=closing.heater, held_min=closing.hold_min)


def _film_sheet(asking: Asking, film: Film) -> Sheet:
    pane, bead = asking.held.pane, asking.held.bead.bead
    return cut_sheet(film, pane.long_mm, pane.short_mm, bead.bite_mm + FILM_CLEAR_MM)


def _fog(asking: Asking, back: Back) -> Fog | None:
    order, pane, bead = asking.order, asking.held.pane, asking.held.bead.bead
    if order.parts.encapsulation != "air gap":
        return None
    area_m2 = pane.long_mm * pane.short_mm * MM**2
    space = Enclosed(
        volume_l=area_m2 * AIR_GAP_MM,
        bead_mm=2 * (pane.long_mm + pane.short_mm),
        bead_high_mm=bead.glue_line_mm,
        bead_wide_mm=bead.bite_mm,
        back_m2=area_m2,
        back_g_m2_day=back.water_g_m2_day,
    )
    return fog(space, _damp(asking), order.closing.gap)


def _damp(asking: Asking) -> Damp:
    closing, site, heat = asking.order.closing, asking.order.site, asking.weather.heat
    return Damp(
        closing.shop_c,
        closing.shop_humidity,
        site.record_cold_c,
        site.record_heat_c,
        max(0.0, site.record_cold_c - heat.cold_glass_c),
        closing.desiccant_g,
    )


def _fog_checks(order: Order, found: Fog | None) -> tuple[Check, ...]:
    """Held against the order's wish, where it has one."""
    if found is None or order.closing.fog_free_years is None:
        return ()
    return (fog_check(found, order.closing.fog_free_years),)


def _earth(asking: Asking) -> Earth:
    frame = asking.frame
    metal = section(frame.rail).area_mm2
    return earth(Frame(frame.rail_length_mm, metal, welded=frame.joint is None), label_fuse_a(asking.isc_a))


def _box(asking: Asking, junction: Junction | None) -> BoxAsk:
    heat_w = asking.diodes * junction.heat_w if junction else 0.0
    return box_ask(asking.system_v, asking.isc_a, asking.bypassing.round_c, heat_w)
