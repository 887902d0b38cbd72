"""How much wind the pane bears, and what another thickness would: one chart, a line for each family."""

from __future__ import annotations

from panewright.drawing.chart import Chart, Mark, Series, draw_chart
from panewright.drawing.sheet import Block, Caution, Figure, Page, Words
from panewright.glass.pane import Sheet
from panewright.pack.bench import Bench
from panewright.pack.pages import caution
from panewright.pack.pages.table import words_table
from panewright.structure.panes.safe_wind import MOST_M_S, SafeWind, both_families, safe_wind
from panewright.units import INCH_MM

SAFE_WIND = "How much wind the pane bears"  #: title of the page
_MPH_M_S = 0.44704
_BOOK = {"ASCE": "ASTM E1300", "EN": "EN 16612"}
_ENDS = "Speeds end at {}: past it neither code has a place on its map."


def safe_wind_pages(bench: Bench) -> tuple[Page, ...]:
    """The page; none where no rule book covers the sheet. One thickness alone has no chart."""
    design = bench.design
    pane, site = design.structural.pane, design.order.site
    if pane.sheet.material != "glass":
        return ()
    sheets, sides = design.structural.sheets, design.order.parts.held
    found = tuple(safe_wind(pane, each, sheets, sides) for each in both_families(site))
    lines = tuple(each for each in found if any(each.speed_m_s))
    if not lines:
        return ()
    blocks: list[Block] = [
        Words(_lead(bench, found[0]), "lead"),
        Words(_why(bench, found)),
        *((_chart(bench, lines),) if len(lines[0].thickness_mm) > 1 else ()),
        words_table(("Thinnest it may be", *(_name(each) for each in lines)), _rows(bench, lines)),
        Words(_ENDS.format(bench.say(MOST_M_S, "m/s")), "small"),
        Caution(caution.NOT_LISTED),
    ]
    return (Page(SAFE_WIND, tuple(blocks)),)


def _name(line: SafeWind) -> str:
    return f"{line.wind.edition}, {line.wind.kind}"


def _at(line: SafeWind, thickness_mm: float) -> float:
    return line.speed_m_s[line.thickness_mm.index(thickness_mm)]


def _speed(bench: Bench, speed_m_s: float) -> str:
    return f"{'≥ ' if speed_m_s >= MOST_M_S else ''}{bench.say(speed_m_s, 'm/s')}"


def _lead(bench: Bench, own: SafeWind) -> str:
    pane, site = bench.design.structural.pane, bench.design.order.site
    asked = bench.say(site.wind.speed_m_s, "m/s")
    if not own.covered:
        kind = f"{pane.sheet.surface} glass"
        return f"{_BOOK[own.family]} does not cover {kind}: by {own.wind.edition} no speed can be told."
    speed = _at(own, pane.sheet.thickness_mm)
    bears = f"bears a wind of {_speed(bench, speed)}" if speed > 0 else "does not keep its rules in any wind"
    return f"By {own.wind.edition} this pane {bears}; the order names {asked}."


def _why(bench: Bench, found: tuple[SafeWind, ...]) -> str:
    """What is held fixed, and why the two lines are not to be read across."""
    own, other = found
    design = bench.design
    sides = f"{bench.size(design.structural.pane.long_mm)} × {bench.size(design.structural.pane.short_mm)}"
    glass, tilt = design.structural.pane.sheet, bench.say(design.order.site.tilt_deg, "deg")
    return (
        f"A pane of {sides}, {glass.treatment}, held on {design.order.parts.held}, "
        f"{design.order.site.mounting} at {tilt}, {_thick(glass)}: the highest speed at which the "
        "glass keeps every rule under wind and own weight. Snow, hail, cells, rails, brackets, bead, bolts "
        "are left out: they are proved apart. "
        f"{own.wind.edition} on the ground of the order, {own.wind.ground}; {other.wind.edition} on its open "
        f"ground, {other.wind.ground}. Each line is of its own kind of speed and proves by its own glass "
        "rules: never read one against the other\u2019s map. EN 16612 also limits how far the middle of a "
        "pane bows, E1300 does not."
    )


def _thick(glass: Sheet) -> str:
    return "as laminated" if glass.plies else "in each thickness of the sheets weighed"


def _chart(bench: Bench, lines: tuple[SafeWind, ...]) -> Figure:
    """Speed against thickness, with this pane marked on its own line."""
    us = bench.design.order.job.units == "us"
    thick, fast = (INCH_MM, _MPH_M_S) if us else (1.0, 1.0)
    end = bench.say(MOST_M_S, "m/s")
    series = tuple(
        Series(
            tuple(each / thick for each in line.thickness_mm),
            tuple(each / fast for each in line.speed_m_s),
            _name(line) if max(line.speed_m_s) < MOST_M_S else f"{_name(line)}: {end} and more",
        )
        for line in lines
    )
    here = bench.design.structural.pane.sheet.thickness_mm
    own = next((each for each in lines if each.family == bench.design.order.site.family), None)
    marks: tuple[Mark, ...] = ()
    if own is not None:
        words = f"{bench.say(here, 'mm')}, {_speed(bench, _at(own, here))}"
        marks = (Mark(here / thick, _at(own, here) / fast, words),)
    labels = (
        ("thickness, thinnest, in", "safe wind, mph") if us else ("thickness, thinnest, mm", "safe wind, m/s")
    )
    chart = Chart("", *labels, series, marks)
    return Figure(draw_chart(chart, 164.0, 78.0), 1.0, "Safe wind speed against thickness", to_scale=False)


def _rows(bench: Bench, lines: tuple[SafeWind, ...]) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (bench.say(thick, "mm"), *(_speed(bench, _at(line, thick)) for line in lines))
        for thick in lines[0].thickness_mm
    )
