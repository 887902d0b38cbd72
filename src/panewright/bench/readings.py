"""What to read in every step at the bench, as figures: by the keys of the steps."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

from panewright.bench.bounds import bounds
from panewright.bench.expected import Allowed, Condition, Expected, Figure, Law
from panewright.bench.lit import light_at
from panewright.bench.predicted import STC_C, STC_W_M2, cell_points, stc
from panewright.bench.rate.checklist import EARTH_OHM, needed_mohm
from panewright.enclosure.bypass import forward_v
from panewright.panel.design import Design
from panewright.structure.corners.squareness import SAW_MM, SQUARE_MM, off_by_standard

TEST_A = 1e-3  #: a meter's diode range drives about this much; common practice
OFF_BUSBAR_MM = 0.3  #: a ribbon beside its busbar; common practice
GAP_PLACES = 8  #: round the pane, where the gap is measured

VOLTS = Allowed(
    meter=0.005,
    digit=0.01,
    spread=0.01,
    light=0.10,
    heat_k=3.0,
    source="meter of 0.5 %, cells alike to 1 %, heat to 3 K: common practice",
)
AMPS = Allowed(
    meter=0.015,
    digit=0.01,
    spread=0.02,
    light=0.05,
    heat_k=3.0,
    source="meter of 1.5 %, cells alike to 2 %, light to 5 %: common practice",
)
WATTS = replace(
    AMPS, meter=0.016, source="meters of 1.5 and 0.5 %, light to 5 %, heat to 3 K: common practice"
)
FULL_SUN = Condition(STC_W_M2, STC_C)

Readings = Iterator[Expected]


def insulation_mohm(design: Design) -> int:
    """What cells against frame must have. [Mohm]"""
    frame = design.structural.frame
    area_m2 = frame.outer_width_mm * frame.outer_height_mm * 1e-6
    return math.ceil(needed_mohm(area_m2))


def readings_of(design: Design, step: str) -> tuple[Expected, ...]:
    """What is read in a step; nothing where a step has no figure to read."""
    made = _READINGS.get(step)
    return tuple(made(design)) if made else ()


def all_readings(design: Design) -> tuple[Expected, ...]:
    """Of every step that this design has."""
    return tuple(each for step in _READINGS for each in readings_of(design, step))


def _lit(key: str, what: str, law: Law, count: int = 1, allowed: Allowed = VOLTS, cure: str = "") -> Expected:
    """A reading that follows light and heat, its bounds as in measured full sun."""
    unit = {"voc_v": "V", "isc_a": "A", "power_w": "W"}[law.figure]
    found = bounds(law, allowed, FULL_SUN, FULL_SUN)
    return Expected(key, what, unit, found.value, found.low, found.high, count, FULL_SUN, law, allowed, cure)


def cells_law(design: Design, cells: int, figure: Figure = "voc_v") -> Law:
    """So many bare cells in series, or one cell's current."""
    return Law(figure, design.electrical.models, float(cells))


def string_law(design: Design, step: str) -> Law:
    """Volts of the whole string in the light that reaches its cells at a step."""
    return replace(cells_law(design, design.layup.plan.in_series), light=light_at(design, step))


def panel_law(design: Design, figure: Figure, step: str = "") -> Law:
    """The finished panel: its figure at STC, following its cells; at a step in the light it has there."""
    model = design.electrical.models[0]
    own = getattr(cell_points(model, STC_W_M2, STC_C), figure)
    light = light_at(design, step) / design.electrical.light if step else 1.0
    return Law(figure, (model,), getattr(stc(design).points, figure) / own, light)


def _size(
    key: str, what: str, value: float, off: tuple[float | None, float | None], count: int = 1
) -> Expected:
    """A length, and how much less and more it may be. [mm]"""
    low = None if off[0] is None else value - off[0]
    high = None if off[1] is None else value + off[1]
    return Expected(key, what, "mm", value, low, high, count)


def _sort(design: Design) -> Readings:
    cells, one = len(design.layup.cells), cells_law(design, 1)
    cure = "Put the cell aside: it is shunted, cracked or of another kind."
    yield _lit("sort-cells.voc", "Voc of a cell", one, cells, replace(VOLTS, spread=0.02), cure)
    yield _lit("sort-cells.isc", "Isc of a cell", cells_law(design, 1, "isc_a"), cells, AMPS, cure)


def _rails(design: Design) -> Readings:
    lengths = [piece.length_mm for piece in design.structural.frame.pieces]
    for number, length in enumerate(sorted(set(lengths), reverse=True), 1):
        made = _size(
            f"cut-rails.length-{number}", "length of a rail", length, (SAW_MM, SAW_MM), lengths.count(length)
        )
        yield replace(made, cure="Saw it again, or file it; opposite rails must be alike.")


def _square(design: Design) -> Readings:
    frame = design.structural.frame
    across = math.hypot(frame.outer_width_mm, frame.outer_height_mm)
    cure = "Loosen the corners, push the longer diagonal, tighten again."
    yield replace(
        _size("join-frame.diagonal", "a diagonal of the frame", across, (SQUARE_MM, SQUARE_MM), 2), cure=cure
    )
    apart = _size("join-frame.difference", "difference of the diagonals", 0.0, (None, SQUARE_MM))
    yield replace(apart, cure=cure)


def _pane(design: Design) -> Readings:
    pane = design.structural.pane
    off = off_by_standard(pane, design.order.site.family).side_mm
    for name, side in (("long", pane.long_mm), ("short", pane.short_mm)):
        made = _size(f"clean-pane.{name}", f"{name} side of the pane", side, (off, off), 2)
        yield replace(made, cure="Send it back: the gap round it would be too small or too wide.")


def _bead(design: Design) -> Readings:
    """The least that would do bounds each size below; above, what the frame and the pane may be off."""
    bead, need = design.structural.bead, design.structural.bead_need
    wide = need.tolerance_mm
    sizes = (
        ("gap", "gap round the pane", bead.gap_mm, min(need.gap_mm, bead.gap_mm), bead.gap_mm + wide),
        (
            "glue-line",
            "spacers under the pane",
            bead.glue_line_mm,
            min(need.glue_line_mm, bead.glue_line_mm),
            None,
        ),
        ("bite", "bite of the bead", bead.bite_mm, min(need.bite_mm, bead.bite_mm), None),
    )
    for name, what, value, low, high in sizes:
        cure = (
            "Lift the pane before the silicone skins, and set it again."
            if name != "bite"
            else "Fill the void."
        )
        yield Expected(f"set-pane.{name}", what, "mm", value, low, high, GAP_PLACES, cure=cure)


def _tab(design: Design) -> Readings:
    joined = sum(1 for line in design.layup.tabs if line.from_cell and line.to_cell)
    made = _size("tab-cells.off", "ribbon beside its busbar", 0.0, (None, OFF_BUSBAR_MM), joined)
    yield replace(made, cure="Warm it and slide it back.")


def _column(design: Design) -> Readings:
    plan = design.layup.plan
    cure = "A cell's voltage less is a cell missing, shorted or turned: read cell by cell along the column."
    yield _lit(
        "string-column.voc", "Voc of each column", cells_law(design, plan.rows), plan.columns, cure=cure
    )


def _joined(design: Design) -> Readings:
    law = string_law(design, "join-columns")
    cure = "A column's voltage less, or twice it: a bus joins the wrong columns, or a column is turned."
    yield _lit("join-columns.voc", "Voc of the string", law, design.layup.plan.strings, cure=cure)


def _diodes(design: Design) -> Readings:
    bypass, plan = design.electrical.bypass, design.layup.plan
    if bypass is None:
        return
    drop = forward_v(bypass, TEST_A)
    why = "diode ranges drive 0.3 to 3 mA, diodes scatter: common practice"
    off = max(0.05, 0.3 * drop)
    yield Expected(
        "bypass-diodes.drop",
        "forward drop of a bypass diode",
        "V",
        drop,
        drop - off,
        drop + off,
        plan.substrings * plan.strings,
        allowed=Allowed(source=why),
        cure="Near 0 V the diode is shorted; no reading is open or turned: mend it in the open box.",
    )


def _polarity(design: Design) -> Readings:
    cure = "Minus on the meter: the leads are exchanged. Too little: read the substrings one by one."
    yield _lit("polarity.voc", "Voc at the leads", panel_law(design, "voc_v", "polarity"), cure=cure)
    weak = "Look for a shadow, a cracked cell or a column of weaker cells."
    yield _lit("polarity.isc", "Isc at the leads", panel_law(design, "isc_a", "polarity"), 1, AMPS, weak)


def _insulation(design: Design) -> Readings:
    needed = float(insulation_mohm(design))
    cure = "Find where ribbon, flux or damp reaches the frame; do not close the panel."
    why = Allowed(source="IEC 61215-2 MQT 03 (recalled)")
    yield Expected(
        "insulation.mohm", "insulation to the frame", "Mohm", needed, needed, None, allowed=why, cure=cure
    )


def _closed_in(design: Design) -> Readings:
    kind, pour = design.order.parts.encapsulation, design.pour
    if kind == "film":
        law = string_law(design, "encapsulate")
        cure = "Less than before laminating: a cell or a joint broke in the press."
        yield _lit("encapsulate.voc", "Voc after laminating", law, design.layup.plan.strings, cure=cure)
    elif kind == "silicone pour" and pour is not None:
        made = _size("encapsulate.depth", "depth of the pour", pour.depth_mm, (0.5, 1.0), 5)
        yield replace(made, cure="Level the pane and pour the thin places again before it sets.")
        yield _poured(pour.poured_kg)


def _poured(mass_kg: float) -> Expected:
    """What went onto the pane: weighed in the cups, full and emptied."""
    low, high = 0.95 * mass_kg, 1.1 * mass_kg
    cure = "Less than reckoned: a thin place or an empty one. More: the pane sags or is not level."
    return Expected("encapsulate.mass", "silicone on the pane", "kg", mass_kg, low, high, cure=cure)


def substring_readings(design: Design) -> tuple[Expected, ...]:
    """Volts between the terminals of each diode in the open box: one reading for each length of substring."""
    if design.electrical.bypass is None:
        return ()
    after = design.layup.diode_after
    spans = [end - start for start, end in pairwise(after)] * design.layup.plan.strings
    cure = "Near zero or minus: its diode is turned, shorted or on another terminal. Mend it in the open box."
    return tuple(
        _lit(
            f"close-back.substring-{number}",
            f"Voc of a substring of {span} cells",
            replace(cells_law(design, span), light=light_at(design, "close-back")),
            spans.count(span),
            cure=cure,
        )
        for number, span in enumerate(sorted(set(spans), reverse=True), 1)
    )


def _closed(design: Design) -> Readings:
    yield from substring_readings(design)
    law = panel_law(design, "voc_v")
    yield _lit("close-back.voc", "Voc at the closed leads", law, cure="Open the box: a joint in it is poor.")
    rails = len(design.structural.frame.pieces)
    cure = "Bare the metal under the toothed washer."
    yield Expected("close-back.earth", "earth to a rail", "ohm", 0.0, None, EARTH_OHM, rails, cure=cure)


def _sun(design: Design) -> Readings:
    yield _lit("measure-sun.voc", "Voc in the sun", panel_law(design, "voc_v"), cure="See the substrings.")
    yield _lit("measure-sun.isc", "Isc in the sun", panel_law(design, "isc_a"), 1, AMPS, "Look for a shadow.")
    cure = "Isc and Voc as they should be, but power short: a poor joint or a wrong light."
    yield _lit("measure-sun.power", "greatest power in the sun", panel_law(design, "power_w"), 1, WATTS, cure)


_READINGS: dict[str, Callable[[Design], Readings]] = {
    "sort-cells": _sort,
    "cut-rails": _rails,
    "join-frame": _square,
    "clean-pane": _pane,
    "set-pane": _bead,
    "tab-cells": _tab,
    "string-column": _column,
    "join-columns": _joined,
    "bypass-diodes": _diodes,
    "polarity": _polarity,
    "insulation": _insulation,
    "encapsulate": _closed_in,
    "close-back": _closed,
    "measure-sun": _sun,
}
