"""Where every cell and ribbon lies, how they are joined, and the curve they give."""

from __future__ import annotations

from functools import partial
from math import isfinite

from panewright.bench.predicted import STC_C, STC_W_M2, cells_voc_v
from panewright.drawing.bounds import bounds
from panewright.drawing.chart import Chart, Mark, Series, draw_chart
from panewright.drawing.drawing import Drawing, Text
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Figure, Heading, Page, Words
from panewright.layup.buses import crossings
from panewright.layup.drawn.bus_sheet import bus_sheet
from panewright.layup.drawn.corner import corner_detail
from panewright.layup.drawn.end_view import Half, end_view
from panewright.layup.drawn.figure import View, bench_view, front_view
from panewright.layup.drawn.ribbon_sheet import ribbon_sheet
from panewright.layup.drawn.wiring import wiring_diagram
from panewright.layup.layup import End, Layup
from panewright.layup.place import corners_meet_inside
from panewright.layup.stations import BusKind, bus_kinds
from panewright.layup.tails import BOW_MM
from panewright.layup.tolerance import least_gaps_mm
from panewright.pack.bench import Bench
from panewright.pack.figures.beside import Detail, with_detail
from panewright.pack.figures.finished import rim
from panewright.pack.figures.scale import LETTERS_MM, figure, page_room
from panewright.pack.figures.titled import STRIP_MM, strip, title_of
from panewright.pack.pages.table import words_table
from panewright.panel.design import Design, PanelCurve
from panewright.units import show

_END_MM = 80.0  # height of one end or half of it on paper
_WIDEST_END_MM = 1050.0  # a wider pane's ends are drawn in halves
_WORDS_MM = 14.0 + STRIP_MM  # a sentence or two over a figure, and its title block below
PLACE_MM = 0.5  #: a cell may lie so far off its mark; common practice
BUS_PLACE_MM, CUT_MM = 1.0, 0.5  #: a bus off its place, a ribbon's length off its own; common practice
_CORNER_SCALE = 1 / 3  # a corner of a cell is drawn three times as large as it is


def layup_pages(bench: Bench) -> tuple[Page, ...]:
    """Front, bench, ends, wiring, ribbon, curve."""
    lain = (_front(bench), _bench(bench), *_ends(bench), _wiring(bench))
    return (*lain, _ribbon(bench), _buses(bench), _curves(bench))


def layup_material(design: Design) -> str:
    """What lies on what, as a title block says it."""
    return f"{design.order.cell.name} on {design.structural.pane.sheet.name}"


def layup_tolerance(bench: Bench) -> str:
    """Of cells and their places, as a title block says it."""
    layup = bench.design.layup
    cell = max(each.shape.tolerance_mm for each in layup.cells)
    gaps = [gap for gap in least_gaps_mm(layup) if isfinite(gap)]
    least = f"; gaps {bench.size(min(gaps))} at least" if gaps else ""
    return f"cells ± {bench.size(cell)} a side, middles ± {bench.off(PLACE_MM)} (common practice){least}"


def _strip(bench: Bench, name: str, side: str, tolerance: str = "") -> Figure:
    """The title block of a page's drawing."""
    said = tolerance or layup_tolerance(bench)
    title = title_of(bench.design, name, material=layup_material(bench.design), tolerance=said, side=side)
    return strip(bench.design, title)


def _room(bench: Bench) -> Size:
    return page_room(bench.design.order.job.paper, _WORDS_MM)


def _front(bench: Bench) -> Page:
    layup, units = bench.design.layup, bench.design.order.job.units
    view = View(rim=rim(bench.design.structural.frame), system=units)
    make = partial(front_view, layup, view=view)
    corner = corner_detail(layup, LETTERS_MM[0] * _CORNER_SCALE, units)
    if corner is None:
        drawn = figure(make, _room(bench), "Lay-up", units)
    else:
        detail = Detail(corner, _CORNER_SCALE, "Corner of a cell, 3 : 1")
        drawn = with_detail(make, _room(bench), "Lay-up", units, detail)
    return Page(
        "Lay-up from the front",
        (Words(_sizes(bench)), drawn, _strip(bench, "Lay-up from the front", "from the sun")),
        "sunny side up",
    )


def _bench(bench: Bench) -> Page:
    layup, units = bench.design.layup, bench.design.order.job.units
    view = View(rim=rim(bench.design.structural.frame), system=units)
    drawn = figure(partial(bench_view, layup, view=view), _room(bench), "Lay-up on the bench", units)
    words = "The mirror image: what you see while you work, sunny side down, backs of the cells towards you."
    return Page(
        "Lay-up on the bench",
        (Words(words), drawn, _strip(bench, "Lay-up on the bench", "from behind")),
        "sunny side down",
    )


def _sizes(bench: Bench) -> str:
    plan = bench.design.layup.plan
    return (
        f"Cells {bench.size(plan.cell_gap_mm)} apart in a column, columns "
        f"{bench.size(plan.string_gap_mm)} apart; silicon {bench.size(plan.side_margin_mm)} from the "
        f"pane's sides and {bench.size(plan.end_margin_mm)} from its ends. Cell 1 carries the minus lead."
        f"{faces_words(bench.design.layup)}"
    )


def faces_words(layup: Layup) -> str:
    """Why strips face as they do; nothing to say where all columns look alike."""
    if not corners_meet_inside(layup):
        return ""
    return (
        " Strips follow each other as the wafer had them, none turned round; so in a column that runs back "
        "down the clipped corners face inward. It changes no volt and no ampere: a strip turned half round "
        "fits its place as well, but not its printed outline."
    )


def _ends(bench: Bench) -> tuple[Page, ...]:
    """Both ends on one page; the halves of a wide pane's ends on a page for each end."""
    both = _end(bench, "bottom"), _end(bench, "top")
    if _wide(bench.design.layup):
        return tuple(
            _ends_page(bench, f"Bus ribbon at the {end} end", figures)
            for end, figures in zip(("bottom", "top"), both, strict=True)
        )
    return (_ends_page(bench, "Bus ribbon at both ends", both[0] + both[1]),)


def _ends_page(bench: Bench, name: str, figures: tuple[Figure, ...]) -> Page:
    words = f"As the bench sees it: which tab ends on which bus{film_words(bench.design.layup)}."
    near = f"buses ± {bench.off(BUS_PLACE_MM)} (common practice)"
    blocks: tuple[Block, ...] = (Words(words), *figures, _strip(bench, name, "from behind", near))
    return Page(name, blocks, "sunny side down")


def _end(bench: Bench, end: End) -> tuple[Figure, ...]:
    """One end, whole or in two halves."""
    layup, units = bench.design.layup, bench.design.order.job.units
    halves: tuple[Half, ...] = ("left", "right") if _wide(layup) else ("",)
    room, name = Size(_room(bench).width_mm, _END_MM), f"{end.capitalize()} end"
    return tuple(
        figure(
            partial(end_view, layup, end, half=half), room, f"{name}, {half} half" if half else name, units
        )
        for half in halves
    )


def _wide(layup: Layup) -> bool:
    """Whether an end is drawn in two halves, or it would be too small to work from."""
    return layup.pane_width_mm > _WIDEST_END_MM and layup.plan.columns > 2


def film_words(layup: Layup) -> str:
    """Where a ribbon crosses another a film lies between; nothing to say where none does."""
    return ", and where film lies between" if crossings(layup.buses) else ""


def _wiring(bench: Bench) -> Page:
    """The circuit, and which cells each bypass diode spans."""
    design, layup = bench.design, bench.design.layup
    bypass = design.electrical.bypass
    drawn = wiring_figure(layup, bypass is not None, _room(bench))
    blocks: list[Block] = [drawn, Heading("Bypass diodes")]
    if bypass is None:
        blocks.append(
            Words("No bypass diodes: nothing limits the heat of a shaded cell but the cells themselves.")
        )
    else:
        blocks.append(
            words_table(("Diode", "Over cells", "Plus end at cell", f"Voc in {bench.sun}"), _spans(bench))
        )
        blocks.append(Words(f"{bypass.name}: the ring (cathode) of each goes to the plus end of its cells."))
    front = {
        "minus": "the minus pole in front",
        "plus": "the plus pole in front",
        "behind": "both poles behind",
    }
    blocks.append(
        Words(f"These cells have {front[design.order.cell.front]}. Check one with a meter before soldering.")
    )
    blocks.append(_strip(bench, "Wiring", "diagram", "none: a diagram has no sizes"))
    return Page("Wiring", tuple(blocks))


def _spans(bench: Bench) -> tuple[tuple[str, ...], ...]:
    """Each diode with the cells that it spans."""
    layup, plan = bench.design.layup, bench.design.layup.plan
    rows: list[tuple[str, ...]] = []
    for string in range(plan.strings):
        for start, end in zip(layup.diode_after, layup.diode_after[1:], strict=False):
            first, last = string * plan.in_series + start + 1, string * plan.in_series + end
            volts = bench.say(cells_voc_v(bench.design, end - start, STC_W_M2, STC_C), "V")
            rows.append((f"D{len(rows) + 1}", f"{first} to {last}", str(last), volts))
    return tuple(rows)


def wiring_figure(layup: Layup, diodes: bool, room: Size) -> Figure:
    """The diagram as wide as its room on the page; its sizes mean nothing."""
    letter = LETTERS_MM[0]
    seen = bounds(wiring_diagram(layup, letter, diodes))
    shrunk = max(1.0, seen.width_mm / (room.width_mm - 4.0), seen.height_mm / room.height_mm)
    grown = wiring_diagram(layup, letter / shrunk, diodes)
    return Figure(grown, 1.0, "Wiring", to_scale=False)


def _ribbon(bench: Bench) -> Page:
    design, units = bench.design, bench.design.order.job.units
    tab = f"{design.electrical.tab.name}, tabbing ribbon"
    drawn = figure(partial(ribbon_sheet, design.layup), _room(bench), "Tabs of one panel", units)
    words = f"{tab}. Lengths are to cut, bends included; numbers are those of one panel."
    title = title_of(design, "Tabs to cut and bend", material=tab, tolerance=_cut_words(bench, _BENDS))
    return Page("Tabs to cut and bend", (Words(words), drawn, strip(design, title)))


_BENDS, _MARKS = "bends by hand: the first ten pieces tell", "marks ± {} from the datum"


def _cut_words(bench: Bench, more: str) -> str:
    """Tolerance of a ribbon's length, as a title block says it."""
    return f"lengths ± {bench.off(CUT_MM)} (common practice); {more}"


def _buses(bench: Bench) -> Page:
    """Buses are straight; what must be right on them is where the tabs come down."""
    design = bench.design
    bus = f"{design.electrical.bus.name}, bus ribbon"

    words = (
        f"{bus}, straight. Each place is the middle of a tab, of a lead or of a diode's tap, from the left "
        "end as the piece lies on the bench: hook the rule there once and mark them all. A tail lies across "
        f"its bus as far as its first bend and goes up from there; the last {bench.size(BOW_MM)} are its "
        "loose bow to the terminal."
    )
    marks = _cut_words(bench, _MARKS.format(bench.off(CUT_MM)))
    title = title_of(design, "Bus ribbon to cut and mark", material=bus, tolerance=marks, side="from behind")
    drawn, block = _bus_figures(bench, bus_kinds(design.layup)), strip(design, title)
    ordered = (*drawn, block) if len(drawn) == 1 else (block, *drawn)  # drawings run on over pages
    return Page("Bus ribbon to cut and mark", (Words(words), *ordered), "sunny side down")


def _bus_figures(bench: Bench, kinds: tuple[BusKind, ...]) -> tuple[Figure, ...]:
    """The kinds in one figure, or in as many as leave letters that can be read at the bench."""
    layup, units = bench.design.layup, bench.design.order.job.units

    def drawn_at(text_mm: float) -> Drawing:
        return bus_sheet(layup, text_mm, units, kinds=kinds)

    drawn = figure(drawn_at, _room(bench), "Buses and tails of one panel", units)
    if len(kinds) == 1 or _letters_mm(drawn) > LETTERS_MM[-1] - 0.01:
        return (drawn,)
    half = (len(kinds) + 1) // 2
    return (*_bus_figures(bench, kinds[:half]), *_bus_figures(bench, kinds[half:]))


def _letters_mm(drawn: Figure) -> float:
    """The smallest words on paper."""
    return min(item.height_mm for item in drawn.drawing.items if isinstance(item, Text)) / drawn.scale


def _curves(bench: Bench) -> Page:
    """Current and power against voltage in each condition."""
    blocks: list[Block] = [
        Words("Predicted with the ribbon, the glass and the wiring of this panel."),
        Figure(_current_chart(bench), 1.0, "Current against voltage"),
        Figure(_power_chart(bench), 1.0, "Power against voltage"),
    ]
    return Page("What it will give", tuple(blocks))


def _name(curve: PanelCurve, system: str) -> str:
    heat = show(curve.cell_c, "degC", system)
    light = show(curve.irradiance_w_m2, "W/m2", system)
    return f"STC, {light}, {heat}" if curve.name == "STC" else f"{curve.name}, {light}, {heat}"


def _current_chart(bench: Bench) -> Drawing:
    units, curves = bench.design.order.job.units, bench.design.electrical.curves
    series = tuple(Series(c.curve.voltage_v, c.curve.current_a, _name(c, units)) for c in curves)
    marks = tuple(
        Mark(
            c.points.vmp_v,
            c.points.imp_a,
            f"{bench.say(c.points.vmp_v, 'V')}, {bench.say(c.points.imp_a, 'A')}",
        )
        for c in curves
    )
    return draw_chart(Chart("", "voltage, V", "current, A", series, marks), 164.0, 92.0)


def _power_chart(bench: Bench) -> Drawing:
    units, curves = bench.design.order.job.units, bench.design.electrical.curves
    series = tuple(Series(c.curve.voltage_v, c.curve.power_w, _name(c, units)) for c in curves)
    marks = tuple(Mark(c.points.vmp_v, c.points.power_w, bench.say(c.points.power_w, "W")) for c in curves)
    return draw_chart(Chart("", "voltage, V", "power, W", series, marks), 164.0, 92.0)
