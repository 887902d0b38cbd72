"""Steps at the bench with cells, ribbon and bus: from the lot of cells to a string that reads right."""

from __future__ import annotations

from dataclasses import replace

from panewright.bench.lit import state_at
from panewright.bench.predicted import (
    DULL_W_M2,
    STC_C,
    STC_W_M2,
    cell_points,
    cells_voc_v,
)
from panewright.bench.rate.checklist import INSULATION_MOHM_M2, LEAST_AREA_M2, SMALL_MOHM
from panewright.bench.readings import OFF_BUSBAR_MM, TEST_A, insulation_mohm, panel_law, string_law
from panewright.drawing.sheet import Step
from panewright.enclosure.bypass import forward_v
from panewright.layup.buses import crossings
from panewright.pack.bench import Bench, count
from panewright.pack.pages import caution
from panewright.panel.design import Design
from panewright.price.breakage import cells_to_buy
from panewright.price.needs import diodes, whole_cells
from panewright.units import show

METER_A = 10.0  #: what a common meter bears in its own range
_DULL = f"{DULL_W_M2:.0f}\u2009W/m²"


_ONTO = {
    "silicone pour": "Move the columns to the glass with a board under them, sunny side down.",
    "film": "Lay the first film on the glass; move the columns onto it with a board under them, sunny side "
    "down.",
    "air gap": "Leave the columns on the template, sunny side down.",
}
_TURNED = (
    " Then lay the back board, drilled and slit, on the string; lead the tails "
    "up through its slits and turn all of it over at once between two boards. Now the cells lie on their "
    "board, face to the light."
)


def sort_cells(bench: Bench) -> Step:
    """Look over the lot before anything is soldered."""
    cell = bench.design.order.cell
    points = cell_points(bench.design.electrical.models[0], STC_W_M2, STC_C)
    cut = f" Cut each into {cell.parts}." if cell.parts > 1 else ""
    return Step(
        "Sort the cells" if cell.parts == 1 else "Sort and cut the cells",
        f"{_counted(bench)} "
        f"Look at both sides against a lamp; put aside chips, cracks and odd colours.{cut} Read the "
        f"current of each {_piece(cell.parts)} under the same lamp and lay like with like, alike to 2 %.",
        f"{_which_pole(cell.front)} Full sun gives {bench.say(points.isc_a, 'A')}, a lamp far less.",
        f"Voc {bench.say(points.voc_v, 'V')} in {bench.sun}",
        bench.minutes("Look over", "Cut cells"),
        caution.WAFER,
    )


def _counted(bench: Bench) -> str:
    """How many cells there should be: of the whole order, or in the box of one kit."""
    order, name = bench.design.order, bench.design.order.cell.name
    if not order.kit.is_kit:
        return f"Count {bench.quote.cells_bought} cells ({name}) for {count(order.job.panels, 'panel')}."
    one = whole_cells(bench.design, 1)
    if "cells" in order.kit.brings:
        return f"Count the cells you bring ({name}): {one} go in; {cells_to_buy(one)} are usually enough."
    return f"Count the cells of your kit ({name}): {one} go in, the others are spares."


def _piece(parts: int) -> str:
    return {1: "cell", 2: "half cell", 3: "third of a cell"}.get(parts, f"1/{parts} of a cell")


def _which_pole(front: str) -> str:
    """What to find out with the meter before anything is soldered."""
    if front == "behind":
        return (
            "Both poles lie behind. Find with the meter which pads are plus and which are minus, and mark "
            "one cell as the pattern."
        )
    return f"Which pole is in front? This design takes the front as {front}: touch the meter to one cell."


def tab_cells(bench: Bench) -> Step:
    """Ribbon onto each cell."""
    tab, cells = bench.design.electrical.tab, bench.design.layup.cells
    joined = [line for line in bench.design.layup.tabs if line.from_cell and line.to_cell]
    length = bench.size(max((line.length_mm for line in joined), default=0.0))
    each = count(cells[0].shape.busbars, "ribbon")
    where, beside = f"along each of {count(len(cells), 'cell')}", "busbar"
    behind = bench.design.order.cell.front == "behind"
    if behind:
        where, beside = "across the pads behind, from each cell to the next", "pads"
    shade = (
        "Nothing bridges plus and minus pads." if behind else "What lies beside the busbar shades the cell."
    )
    return Step(
        "Tab the cells",
        f"Cut and bend {count(len(joined), 'ribbon')} of {tab.name}, {length} long (ribbon sheet). Flux "
        f"where it will lie; solder {each} {where}. Lay cells on a warm, soft, flat bed; iron down once, "
        "one smooth pull.",
        "Pull the ribbon's end sideways, lightly: it holds. No peak, no dull grey, no bow you can see. "
        f"{shade}",
        f"off the {beside} by at most {bench.say(OFF_BUSBAR_MM, 'mm', 1)}",
        bench.minutes("Cut and bend", "Tab"),
        caution.SOLDER,
    )


def string_cells(bench: Bench) -> Step:
    """Columns on the template, each read before the next."""
    design, plan = bench.design, bench.design.layup.plan
    full, dull = (bench.say(cells_voc_v(design, plan.rows, w, STC_C), "V") for w in (STC_W_M2, DULL_W_M2))
    onto = "pads" if design.order.cell.front == "behind" else "back"
    return Step(
        "String each column on the template",
        "Tape the printed template to the bench; its check bar must measure true. Lay "
        f"{count(plan.rows, 'cell')} of a column sunny side down, gaps {bench.size(plan.cell_gap_mm)}, "
        f"columns {bench.size(plan.string_gap_mm)} apart, and solder each ribbon to the next cell's {onto}. "
        "Stay inside the limit lines. Do this for every column.",
        f"{_second_row(bench)}Read the volts of each column and write them on the test sheet. {dull} in "
        f"the {_DULL} of a "
        "bright window; one cell missing or shorted reads "
        f"{bench.say(cells_voc_v(design, 1, STC_W_M2, STC_C), 'V')} less.",
        f"{full} in {bench.sun}",
        bench.minutes("Lay out", "Read the voltage"),
        caution.LIVE,
    )


def _second_row(bench: Bench) -> str:
    """What a string of two rows reads: the first moment at which a turned cell shows."""
    if bench.design.layup.plan.rows < 2:
        return ""
    two = bench.say(cells_voc_v(bench.design, 2, STC_W_M2, STC_C), "V")
    return f"After row 2 read once: {two} in full sun; near zero, and one of the two lies turned. "


def join_columns(bench: Bench) -> Step:
    """Bus ribbon from column to column."""
    design = bench.design
    bus, pieces = design.electrical.bus, design.layup.buses
    film = "; film lies wherever one ribbon crosses another" if crossings(pieces) else ""
    turned = _TURNED if design.order.parts.encapsulation == "air gap" else ""
    law = string_law(design, "join-columns")
    full, dull = (bench.say(law.at(w, STC_C), "V") for w in (STC_W_M2, DULL_W_M2))
    return Step(
        "Solder the bus ribbon",
        f"{_ONTO[design.order.parts.encapsulation]} Solder "
        f"{count(len(pieces), 'piece')} of {bus.name}, marked by the bus sheet, joined as the wiring sheet "
        f"shows. A bus never touches a cell it does not belong to. {_tails(bench)}{turned}",
        f"Every tab is soldered to its bus{film}.{_by_columns(bench)} {dull} in the {_DULL} of a bright "
        "window.",
        f"{full} in {bench.sun}",
        bench.minutes("Solder the bus", "Cut, bend and sleeve"),
        caution.SOLDER,
    )


def _tails(bench: Bench) -> str:
    """The ribbons that will lead to the box."""
    tails = bench.design.layup.tails
    sleeved = sum(tail.sleeve_mm > 0 for tail in tails)
    over = f", {sleeved} of them in a sleeve to its bus" if sleeved else ""
    return (
        f"Solder a tail square across its bus at each lead and tap, {len(tails)} in all{over}, and "
        "bend it up at its mark."
    )


def _by_columns(bench: Bench) -> str:
    """Volts as columns are joined one after the other, from the minus lead."""
    plan = bench.design.layup.plan
    if plan.columns_a_string < 2:
        return ""
    law = replace(string_law(bench.design, "join-columns"), times=2.0 * plan.rows)
    two = bench.say(law.at(STC_W_M2, STC_C), "V")
    return f" Each column adds its own volts: with two joined {two} in full sun."


def bypass_diodes(bench: Bench) -> Step | None:
    """Diodes in the open box, before it is glued on; None where the design has none."""
    bypass = bench.design.electrical.bypass
    if bypass is None:
        return None
    drop = bench.say(forward_v(bypass, TEST_A), "V")
    return Step(
        "Fit the bypass diodes into the box",
        f"The box lies open on the bench, no ribbon in it yet. Fit {count(diodes(bench.design), 'diode')} "
        f"{bypass.name}, each on the two terminals of its substring, its ring (cathode) on the terminal that "
        "the substring's plus end will come to (page Junction box). Short legs, clamped or soldered to the "
        "copper plates: they carry the heat away.",
        "Diode range of the meter on each, black probe on the ring: the drop at about "
        f"{bench.say(TEST_A * 1000, 'mA', 1)}. The other way round: nothing.",
        f"about {drop} forward",
        bench.minutes("Fit the bypass"),
        caution.SOLDER,
    )


def polarity(bench: Bench) -> Step:
    """The one mistake that a battery does not forgive."""
    design = bench.design
    current = panel_law(design, "isc_a", "polarity").at(STC_W_M2, STC_C)
    voltage = panel_law(design, "voc_v", "polarity").at(STC_W_M2, STC_C)
    how = f"on the {METER_A:.0f}\u2009A range across them"
    if current >= METER_A:
        how = f"with a clamp meter, the two joined: it is more than a {METER_A:.0f}\u2009A range bears,"
    return Step(
        "Check polarity and current",
        f"{_reach(bench)} Then {how} for a few seconds in even light: no shadow of hand or frame on any "
        "cell.",
        f"The meter shows plus. Mark the {_ends(bench)} + and − now, with sleeves, not only by colour. Isc "
        "follows the light, one for one.",
        f"{bench.say(voltage, 'V')}, {bench.say(current, 'A')} in {bench.sun}{_before(design)}",
        bench.minutes("Check polarity") // 2,
        caution.LIVE,
    )


def _ends(bench: Bench) -> str:
    """What the meter touches: cables where the box is on already, else the ribbons that will go into it."""
    return "leads" if bench.design.order.parts.encapsulation == "film" else "tails of the leads"


def _reach(bench: Bench) -> str:
    """Where the meter goes, and how the cells come to light."""
    if bench.design.order.parts.encapsulation == "air gap":
        return "Stand the board up, cells to the light; meter on the tails of the leads behind, red on plus."
    return f"Meter on the {_ends(bench)}, red on plus."


def _before(design: Design) -> str:
    """What lies before the cells when this is read, where the panel is not closed yet."""
    return {"bare": ", cells bare", "behind the pane": ", air behind the pane", "closed": ""}[
        state_at(design, "polarity")
    ]


def _mohm_asked(bench: Bench, area_m2: float) -> str:
    """How the limit comes about; it goes by square metres, which an order in inches reads beside its own."""
    if area_m2 < LEAST_AREA_M2:
        return f"{show(SMALL_MOHM, 'Mohm')} under {show(LEAST_AREA_M2, 'm2')}"
    own = f" ({bench.say(area_m2, 'm2')})" if bench.design.order.job.units == "us" else ""
    return f"{INSULATION_MOHM_M2:.0f}\u2009MΩ·m² over {show(area_m2, 'm2')}{own}"


def insulation(bench: Bench) -> Step:
    """Cells against frame."""
    frame = bench.design.structural.frame
    area_m2 = frame.outer_width_mm * frame.outer_height_mm * 1e-6
    return Step(
        "Check the insulation",
        f"Join the two {_ends(bench)} and measure between them and the bare frame with an insulation "
        "tester at 500 V for two minutes. Nobody touches the panel meanwhile. Discharge afterwards.",
        f"No crackle, no falling reading. {_mohm_asked(bench, area_m2)}, IEC 61215-2 MQT 03.",
        f"at least {insulation_mohm(bench.design)}\u2009MΩ",
        bench.minutes("Check polarity") - bench.minutes("Check polarity") // 2,
        "The tester drives hundreds of volts through the panel. Hands off until it has discharged.",
    )
