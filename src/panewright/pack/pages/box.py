"""The junction box on a page: its place, its wiring, what holds the cables, where the frame is earthed."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Page, Words
from panewright.enclosure.relief import TESTED_N
from panewright.pack.bench import Bench
from panewright.pack.figures.box import COVER_MM, box_place_figure, box_wiring, boxes, exits, wired
from panewright.pack.figures.scale import figure
from panewright.pack.figures.titled import strip, title_of
from panewright.pack.pages.table import words_table

_PLACE_ROOM, _WIRING_ROOM = Size(168.0, 78.0), Size(168.0, 54.0)
PLACE_MM = 2.0  #: the box and the exits may lie so far off; common practice
WIDE_BOX_MM = 160.0  #: no box is sold wider; common practice
BEND = 5  #: of the cable's diameters, the least radius it is bent to; common practice


def box_page(bench: Bench) -> Page:
    """One page."""
    design, units = bench.design, bench.design.order.job.units
    layup, bypass = design.layup, design.electrical.bypass

    def inside(text_mm: float) -> Drawing:
        return box_wiring(layup, text_mm, bypass is not None)

    title = title_of(
        design,
        "Junction box",
        material=f"box for {len(exits(layup))} ribbons; {bypass.name if bypass else 'no diodes'}",
        tolerance=f"place of box and exits ± {bench.size(PLACE_MM)} (common practice)",
        side="from behind",
    )
    place = figure(partial(box_place_figure, design), _PLACE_ROOM, "Where it sits", units)
    wiring = replace(figure(inside, _WIRING_ROOM, "Inside the box", units), to_scale=False)
    blocks: tuple[Block, ...] = (
        Words(_place_words(bench)),
        place,
        wiring,
        words_table(("Terminal, left to right", "Its ribbon comes from", "On it"), terminal_rows(bench)),
        Words(_relief_words(bench)),
        strip(design, title),
    )
    return Page("Junction box, leads, earth", blocks, "sunny side down")


def _place_words(bench: Bench) -> str:
    """What the box covers; and what to do where leads leave at both ends."""
    rooms = boxes(bench.design.layup)
    covered = " and ".join(
        f"{bench.say(right - left, 'mm')} × {bench.say(top - low, 'mm')}" for left, low, right, top in rooms
    )
    words = f"The box covers every exit and {bench.size(COVER_MM)} around: {covered} at least, thin line."
    if max(right - left for left, _, right, _ in rooms) > WIDE_BOX_MM:
        words += " A smaller box at the leads does as well: bring the far taps to it on insulated ribbon."
    if len(rooms) > 1:
        words += " The leads leave at both ends: bring one along the back to the box as an insulated cable."
    return words


def terminal_rows(bench: Bench) -> tuple[tuple[str, str, str], ...]:
    """Each terminal with its ribbon, and the ends of diodes and cables on it."""
    layup = bench.design.layup
    diodes = wired(layup) if bench.design.electrical.bypass else ()
    rows = []
    for number, each in enumerate(exits(layup)):
        ends = [f"ring of {diode.name}" for diode in diodes if diode.plus == number]
        ends += [f"plain end of {diode.name}" for diode in diodes if diode.minus == number]
        if each.name.endswith("lead"):
            ends.append(f"{'minus' if each.name[0] != '+' else 'plus'} cable")
        rows.append((f"{number + 1}, {each.name}", _where_from(each.after_cell, bench), ", ".join(ends)))
    return tuple(rows)


def _where_from(after_cell: int, bench: Bench) -> str:
    if after_cell == 0:
        return "the minus bus, cell 1"
    if after_cell == len(bench.design.layup.cells):
        return f"the plus bus, cell {after_cell}"
    return f"the bus between cells {after_cell} and {after_cell + 1}"


def _relief_words(bench: Bench) -> str:
    holes = bench.design.structural.frame.holes("earth")
    earth = (
        " Earth: the hole marked, a toothed washer on metal scraped bare, lug, nut; the amber dot on "
        "the drawing is its place in the bottom rail."
        if holes
        else ""
    )
    return (
        "A wire that crosses another without a dot joins nothing. Clamp each cable inside its gland so that "
        f"a pull of {bench.say(TESTED_N, 'N', 2)} never reaches a terminal; bend it no tighter than {BEND} "
        "of its diameters and let it sag below the gland, so that water drips off. Ribbons rise to their "
        f"terminals in a loose bow: a stiff one tears its joint as the panel warms.{earth}"
    )
