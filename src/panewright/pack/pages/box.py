"""The junction box on a page: its place, its wiring, what holds the cables, where the frame is earthed."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import Block, Page, Words
from panewright.enclosure.relief import TESTED_N
from panewright.layup.tails import COVER_MM
from panewright.pack.bench import Bench, count, listed
from panewright.pack.figures.box import box_over, box_place_figure, box_wiring, exits, wired
from panewright.pack.figures.scale import figure
from panewright.pack.figures.titled import strip, title_of
from panewright.pack.pages.table import words_table

_PLACE_ROOM, _WIRING_ROOM = Size(168.0, 78.0), Size(168.0, 54.0)
PLACE_MM = 2.0  #: the box and the exits may lie so far off; common practice
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
        tolerance=f"place of box and exits ± {bench.off(PLACE_MM)} (common practice)",
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
    """What the box covers; and how a tail that leaves far from it comes there."""
    left, low, right, top = box_over(bench.design.layup)
    covered = f"{bench.say(right - left, 'mm')} × {bench.say(top - low, 'mm')}"
    words = f"The box covers {bench.size(COVER_MM)} round the exits under it: {covered} at least, thin line."
    return f"{words} {far_words(bench)}".strip()


def far_words(bench: Bench) -> str:
    """How tails that leave beside the box come to it; nothing where all leave under it."""
    far = [tail for tail in bench.design.layup.tails if tail.way_mm > 0]
    if not far:
        return ""
    ways = listed([bench.say(way, "mm") for way in sorted({round(tail.way_mm, 1) for tail in far})])
    return (
        f"{count(len(far), 'tail')} {'leaves' if len(far) == 1 else 'leave'} beside it and "
        f"{'runs' if len(far) == 1 else 'run'} {ways} along the back to it, {_UNDER[_built(bench)]}, "
        "insulated: in a sleeve from bus to box, for other ribbon lies in the way."
        f"{' Lay them side by side.' if len(far) > 1 else ''}"
    )


_UNDER = {
    "silicone pour": "on the cured pour under the back sheet",
    "film": "between the second film and the back sheet",
    "air gap": "over the back board from the slit at its exit, held down with sealant",
}


def _built(bench: Bench) -> str:
    return bench.design.order.parts.encapsulation


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
