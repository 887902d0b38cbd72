"""The order sheet for the glass shop: what to make, how far it may be off, and what to measure at the door.

A leaf of its own, for it leaves the house: it names the order by its number and tells nothing of a customer.
"""

from __future__ import annotations

from functools import partial

from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Book, Caution, Fields, Heading, Page, Words
from panewright.pack.bench import Bench, by_rule, count
from panewright.pack.figures.pane import diagonal_mm, edge_detail, pane_figure, stamp_room
from panewright.pack.figures.scale import figure
from panewright.pack.figures.titled import strip, title_of
from panewright.pack.heading import order_words, stamp
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.panel.design import Design
from panewright.structure.corners.squareness import Off, off_by_standard
from panewright.structure.panes.cut_glass import HEATED
from panewright.structure.panes.ordered import Flatness, edge_finish, flatness
from panewright.units import INCH_MM, MM, show

_PANE_ROOM, _EDGE_ROOM = Size(168.0, 108.0), Size(150.0, 36.0)
_SEEN_MM = 1000.0  # from here faults of the surface are looked for; common practice
_BEFORE_TEMPER = "All cutting, grinding and drilling before the glass is heated; nothing after: it bursts."
_SHEETS = {"glass": "glass", "acrylic": "acrylic sheet", "polycarbonate": "polycarbonate sheet"}


def glass_book(bench: Bench) -> Book:
    """Two pages: the drawing with what is asked, then the tolerances and the door."""
    design, job = bench.design, bench.design.order.job
    what = _SHEETS[design.structural.pane.sheet.material]
    pages = (_asked(bench), _door(bench))
    words = f"Order for the {what}"
    return Book(words, order_words(design), design.revision, job.paper, pages, job.units, stamp(design))


def _off(design: Design) -> Off:
    return off_by_standard(design.structural.pane, design.order.site.family)


def _flat(design: Design) -> Flatness:
    return flatness(design.structural.pane, design.order.site.family)


def tolerance_words(bench: Bench) -> str:
    """Sizes and square, as a title block says them."""
    off = _off(bench.design)
    return (
        f"sides ± {bench.size(off.side_mm)}, D1 and D2 alike within {bench.size(off.diagonals_mm)}; "
        f"{_size_source(bench.design)}"
    )


def _asked(bench: Bench) -> Page:
    """The pane drawn, and what it is."""
    design, units = bench.design, bench.design.order.job.units
    pane = design.structural.pane
    title = title_of(
        design, "Pane", material=pane.sheet.name, tolerance=tolerance_words(bench), side="from the sun"
    )
    blocks: list[Block] = [
        words_table(("Please make", ""), _what(bench)),
        figure(partial(pane_figure, design), _PANE_ROOM, "The pane", units),
        figure(partial(edge_detail, design), _EDGE_ROOM, "Its edge, cut through", units),
        strip(design, title),
    ]
    return Page(f"{count(design.order.job.panels, 'pane')} to order", tuple(blocks), "sunny side up")


def _what(bench: Bench) -> tuple[tuple[str, str], ...]:
    """What is ordered, one thing a row."""
    design = bench.design
    pane, sheet = design.structural.pane, design.structural.pane.sheet
    long, short = bench.size(pane.long_mm), bench.size(pane.short_mm)
    mass = pane.long_mm * pane.short_mm * MM**2 * sheet.nominal_mm * MM * sheet.density_kg_m3
    number = count(design.order.job.panels, "pane")
    return (
        ("quantity and size", f"{number} of {long} × {short}, {bench.say(mass, 'kg')} each"),
        ("sheet", f"{sheet.name}; light through it {sheet.solar_transmittance:.1%} or more, solar weighted"),
        ("heating", _heating(design)),
        ("edges", _edges(design)),
        ("holes, notches", _holes(design)),
        ("stamp", _stamping(bench)),
    )


def _heating(design: Design) -> str:
    treatment = design.structural.pane.sheet.treatment
    if treatment == "tempered":
        return f"fully tempered (toughened). {_BEFORE_TEMPER}"
    if treatment == "heat-strengthened":
        return f"heat-strengthened. {_BEFORE_TEMPER}"
    return "none"


def _edges(design: Design) -> str:
    if design.structural.pane.sheet.material != "glass":
        return "sawn, scraped and seamed; no flame, it leaves stress that sealant turns into cracks"
    finish = edge_finish(design.order.parts.held == "four sides")
    if finish == "seamed":
        return "all four seamed (arrissed) by wet belt; ground flat does as well. No open chip, corners whole"
    return "all four ground flat and seamed: two of them stand free in the weather. No open chip"


def _holes(design: Design) -> str:
    holes = design.order.parts.glass_holes
    if not holes:
        return "none"
    return f"{count(holes, 'hole')}: places and sizes by a sheet of their own, before heating"


def _stamping(bench: Bench) -> str:
    if bench.design.structural.pane.sheet.treatment not in HEATED:
        return "none"
    if stamp_room(bench.design.layup) is None:
        return "none on the face: no corner is free of cells; mark the edge, or tell us before"
    return "the mark of tempered glass only in the corner drawn; elsewhere it shades a cell"


def _size_source(design: Design) -> str:
    sheet, asce = design.structural.pane.sheet, design.order.site.family == "ASCE"
    if sheet.material != "glass":
        return "common practice, no standard"
    if asce:
        return "ASTM C1048, C1036 (a glass maker's page)"
    return "EN 12150-1:2015 tables 2, 3" if sheet.treatment != "annealed" else "EN 572-8"


def _door(bench: Bench) -> Page:
    """Tolerances with their sources, then fields to fill in on delivery."""
    patterned = bench.design.structural.pane.sheet.surface == "patterned"
    sticker = " A sticker stands on the smooth face: it goes to the sun." if patterned else ""
    blocks: list[Block] = [
        Words(
            "What is measured at the door, how, and how far it may be off. A pane outside of this goes back: "
            "the frame's gap and the bead are made for these limits."
        ),
        words_table(("Measure", "With", "Asked", "May be off by", "Source"), _limits(bench)),
        Heading("How"),
        Words(
            "Lay the pane on a flat bench. Square: hook a rule on opposite corners, read D1, then D2; only "
            "their difference counts. Bow: stand the pane on a long edge on two blocks a quarter in from "
            "either end, stretch a thread over the hollow face, measure thread to glass at the middle. Wave: "
            "slide a short straightedge over the face, feel the gap with a blade. Surface: look through it "
            f"from {bench.say(_SEEN_MM, 'mm')} in daylight; no scratch that a nail feels, no stone, no "
            f"bubble over a cell.{sticker}"
        ),
        Caution(caution.GLASS_EDGE),
        Heading("On delivery"),
        Fields(
            (
                ("glass shop", ""),
                ("ordered on, by", ""),
                ("promised for", ""),
                ("delivered on", ""),
                ("panes measured, panes sent back", ""),
                ("why sent back", ""),
            )
        ),
    ]
    return Page("Tolerances, and what to measure", tuple(blocks))


def _fine(size_mm: float, units: str) -> str:
    """A thickness finer than a rule shows it: thousandths of an inch, as a calliper does."""
    words = show(size_mm, "mm", "metric", 3)
    return words if units == "metric" else f"{size_mm / INCH_MM:.3f}\u2009in ({words})"


def _limits(bench: Bench) -> tuple[tuple[str, ...], ...]:
    """Each measure with its limit; where the family sets none it says so."""
    design = bench.design
    pane, off, flat = design.structural.pane, _off(design), _flat(design)
    source, none = _size_source(design), "agree with the shop"
    side = f"± {bench.size(off.side_mm)}"
    thin = _fine(pane.sheet.thickness_mm, design.order.job.units)
    wave = f"{bench.size(flat.local_mm)} over {bench.size(flat.over_mm)}" if flat.local_mm else none
    rows = [
        ("long side", "steel rule", bench.size(pane.long_mm), side, source),
        ("short side", "steel rule", bench.size(pane.short_mm), side, source),
        (
            "D1 and D2",
            "steel rule",
            by_rule(diagonal_mm(design), design.order.job.units),
            f"{bench.size(off.diagonals_mm)} one against the other",
            source,
        ),
        (
            "thickness",
            "calliper",
            bench.size(pane.sheet.nominal_mm),
            f"not under {thin}",
            "the shelf's sheet",
        ),
    ]
    for name, bow in (("bow, long side", flat.long_bow_mm), ("bow, short side", flat.short_bow_mm)):
        rows.append((name, "thread, blade", "flat", bench.size(bow) if bow else none, flat.source))
    rows.append(("wave", "straightedge, blade", "flat", wave, flat.source))
    return tuple(rows)
