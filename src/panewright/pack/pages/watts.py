"""Where the watts go: what the cells could give, what each thing takes or adds, what the panel gives."""

from __future__ import annotations

from collections.abc import Iterator

from panewright.circuit.account import Account, Term
from panewright.drawing.sheet import Block, Page, Words
from panewright.glass.light.gap import WHITE_RANGE
from panewright.pack.bench import Bench
from panewright.pack.figures.small_bars import BarRow, small_bars
from panewright.pack.pages.table import words_table
from panewright.panel.electric.light import BACK, at_angles, efficiency_scale, white_of

WATTS = "Where the watts go"  #: title of the page
_NONE_W = 0.005  # less is told as nothing
_MINUS = "−"
_HEADS = ("Watts", "Of the first")


def watts_page(bench: Bench, reckoned: Account) -> Page:
    """One table with small bars, from the bare cells to the panel at STC and, last, at work."""
    running_c = bench.design.structural.temperatures.running_cell_c
    blocks: list[Block] = [
        Words(_lead(bench, reckoned), "lead"),
        Words(
            "The first figure is what the cells would give if each worked by itself, bare, in full sun at "
            f"{bench.heat(25.0)}. Every row below puts one more thing into the circuit and solves it "
            "again; its figure is the difference. So the rows add up, and what one thing costs depends a "
            "little on the rows above it."
        ),
        small_bars(tuple(_rows(bench, reckoned, running_c)), _HEADS, "Losses and gains, row by row"),
        Words(_said(bench, reckoned), "small"),
        words_table(("Light from straight on", "The cover lets through"), _angle_rows(bench)),
        Words(
            "Of what it lets through straight on: reflection at its faces and the longer way through. That "
            "a slanting beam is spread over more panel is not in it, nor what the cell's own face does.",
            "small",
        ),
    ]
    return Page(WATTS, tuple(blocks))


def _angle_rows(bench: Bench) -> tuple[tuple[str, ...], ...]:
    """The cover at a few angles."""
    design = bench.design
    found = at_angles(design.order.cell, design.structural.pane.sheet, design.order.parts.encapsulation)
    return tuple((bench.say(angle, "deg"), f"{100 * share:.1f}\u2009%") for angle, share in found)


def _stc_w(reckoned: Account) -> float:
    """The panel at STC: the last term is the heat. [W]"""
    return reckoned.end_w - reckoned.terms[-1].watts


def _lead(bench: Bench, reckoned: Account) -> str:
    stc_w = _stc_w(reckoned)
    most = min(reckoned.terms[:-1], key=lambda term: term.watts)
    less = 1 - stc_w / reckoned.start_w if reckoned.start_w > 0 else 0.0
    return (
        f"The cells could give {bench.say(reckoned.start_w, 'W')}, the panel gives {bench.say(stc_w, 'W')}: "
        f"{100 * less:.1f}\u2009% less. The most: {most.words}, {bench.say(-most.watts, 'W')}."
    )


def _rows(bench: Bench, reckoned: Account, running_c: float) -> Iterator[BarRow]:
    cells = len(bench.design.layup.cells)
    *terms, heat = reckoned.terms
    yield _sum(f"{cells} cells, each bare and by itself", reckoned.start_w, reckoned)
    yield from (_term(term, reckoned) for term in terms)
    yield _sum(f"The panel in {bench.sun}", _stc_w(reckoned), reckoned)
    yield _term(heat, reckoned)
    yield _sum(f"The panel at work, cells at {bench.heat(running_c)}", reckoned.end_w, reckoned)


def _sum(words: str, watts: float, reckoned: Account) -> BarRow:
    share = watts / reckoned.start_w if reckoned.start_w > 0 else 0.0
    return BarRow(words, f"{watts:.2f}", f"{100 * share:.1f}\u2009%")


def _term(term: Term, reckoned: Account) -> BarRow:
    words = term.words[0].upper() + term.words[1:]
    if abs(term.watts) < _NONE_W:
        return BarRow(words, "0.00", "", 0.0)
    sign = "+" if term.watts > 0 else _MINUS
    share = f"{sign}{abs(100 * reckoned.share(term)):.1f}\u2009%"
    return BarRow(words, f"{sign}{abs(term.watts):.2f}", share, term.watts)


def _said(bench: Bench, reckoned: Account) -> str:
    """What the light's figures rest on, and what comes back from the back sheet or does not."""
    fitted = efficiency_scale(bench.design.order.cell)
    light = (
        "Light falls in straight on, AM1.5 global. The colours are weighed by the quantum efficiency of a "
        f"usual crystalline cell, times {fitted:.2f} to give this cell's Isc. Solder is taken as sound, "
        f"cells of one kind as equal. {_lot(bench)}"
    )
    behind = {
        "silicone pour": " The white back sheet is fixed when the pour has set and lies loose: it sends no "
        "light back to the cells.",
        "film": _white(bench, reckoned),
        "air gap": " Nothing is bonded to the cells: the cover throws light back with both faces.",
    }
    return light + behind[bench.design.order.parts.encapsulation]


def _lot(bench: Bench) -> str:
    """What the scatter of the lot costs; what to write where the order does not tell it."""
    lot = bench.design.electrical.lot
    if lot is None:
        return "How the lot scatters is not told: cell.spread in the order tells it."
    lost = bench.say(lot.share * bench.design.label.pmp_w, "W", 2)
    how = "by formula" if lot.by_formula else "evenly drawn cells, solved"
    return (
        f"In a lot whose Isc scatters by {100 * lot.spread:.3g}\u2009% (one standard deviation) a panel is "
        f"expected to give {lost} less ({100 * lot.share:.2g}\u2009%; {how})."
    )


def _white(bench: Bench, reckoned: Account) -> str:
    """The back sheet's gain from the least white to the whitest; it is as large as the sheet is white."""
    own = white_of(bench.design.order.parts.back)
    if not WHITE_RANGE[0] <= own <= WHITE_RANGE[1]:
        return ""
    gain = sum(term.watts for term in reckoned.terms if term.words == BACK)
    low, high = (bench.say(gain * white / own, "W", 2) for white in WHITE_RANGE)
    return f" How white the back sheet is, is not known well: its row may say anything from {low} to {high}."
