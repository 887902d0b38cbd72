"""The crate in the book: how many to it, its drawing, what to saw, how to pack, marks, proof."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from panewright.check import Check
from panewright.crate.box import BEARERS
from panewright.crate.carton import Carton
from panewright.crate.crated import Crated, Padding
from panewright.crate.proof import FELL
from panewright.crate.reasons import sizes
from panewright.crate.screws import APART_MM
from panewright.crate.timber import Board, Section
from panewright.drawing.drawing import Drawing
from panewright.drawing.paper_size import Size
from panewright.drawing.sheet import (
    Block,
    Book,
    Caution,
    Figure,
    Heading,
    Numbers,
    Page,
    Verdicts,
    Words,
)
from panewright.pack.bench import Bench, sawn_mm
from panewright.pack.crate_told import joint_words, loads_told
from panewright.pack.figures.crate import crate_section, section_words, thin_words
from panewright.pack.figures.marks import marks_figure
from panewright.pack.figures.scale import figure
from panewright.pack.figures.stacked import Cut
from panewright.pack.pages import caution
from panewright.pack.pages.carton import carton_blocks
from panewright.pack.pages.crate_wood import wood_blocks
from panewright.pack.pages.table import without_empty, words_table
from panewright.pack.steps.crate import crate_steps
from panewright.pack.wording import signs
from panewright.panel.design import Weighed

TITLES = {  #: of the three pages
    "crate": ("Crate", "Crate: foam and rules", "Crate: saw and pack"),
    "carton": ("Carton", "Carton: foam and rules", "Carton: cut and pack"),
}
HEAVY_KG = 25.0  #: lifted by two; usual guidance (recalled)
_ROOM = Size(168.0, 84.0)
_SIDES = {"face": "on its face", "edge": "on its long side", "end": "on its short side"}


def crate_pages(bench: Bench, crated: Crated) -> tuple[Page, ...]:
    """What travels and why; then its foam and rules; then what to saw and how to pack."""
    return (_crate(bench, crated), _rules(bench, crated), _packing(bench, crated))


def crate_book(whole: Book) -> Book:
    """The same pages out of the whole book by themselves, to go along with the crate."""
    titles = {title for three in TITLES.values() for title in three}
    pages = tuple(page for page in whole.pages if page.title in titles)
    return replace(whole, title=f"{pages[0].title} and carriage", pages=pages, cover=None)


def _crate(bench: Bench, crated: Crated) -> Page:
    blocks: list[Block] = [
        Words(crated.reason, "lead"),
        Numbers(_numbers(bench, crated)),
        Words(_sizes(bench, crated)),
        *_figures(bench, crated),
        *(block for choice in crated.weighed for block in _weighed(choice)),
    ]
    return Page(TITLES[crated.shell][0], tuple(blocks))


def _rules(bench: Bench, crated: Crated) -> Page:
    blocks: list[Block] = [
        Words(_bears(bench, crated)),
        words_table(_FOAM, tuple(_foam_row(bench, each) for each in crated.padding)),
        Heading("Its rules"),
        Words("Of the foam’s four rules on each side the one nearest its limit, and every rule that fails."),
        Verdicts(shown_checks(crated)),
    ]
    return Page(TITLES[crated.shell][1], tuple(blocks))


def shown_checks(crated: Crated) -> tuple[Check, ...]:
    """All of the wood and the carrier; of the foam of each side the nearest to its limit, and what fails."""
    sides = {
        each.side: [check for check in crated.checks if _of_side(check, each.side)] for each in crated.padding
    }
    foam = {check for checks in sides.values() for check in checks}
    nearest = {max(checks, key=lambda check: check.utilisation) for checks in sides.values()}
    return tuple(
        check for check in crated.checks if check not in foam or check in nearest or not check.passed
    )


def _of_side(check: Check, side: str) -> bool:
    return FELL[side] in check.rule


def _numbers(bench: Bench, crated: Crated) -> tuple[tuple[str, str], ...]:
    price = "none" if crated.price is None or crated.taken is None else f"{crated.price:.2f}"
    currency = f", {crated.taken.carrier.currency}" if crated.taken else ""
    return (
        (f"{crated.shell}s", str(crated.crates)),
        (f"{crated.goods}s in the fullest", str(crated.loads[0][0])),
        ("mass of one", bench.say(crated.gross_kg, "kg")),
        (f"carriage{currency}", price),
    )


_STUFF = {"crate": "wood and foam", "carton": "board, foam and paper"}


def _sizes(bench: Bench, crated: Crated) -> str:
    """Inside, outside, and what of the mass is crate."""
    units = bench.design.order.job.units
    inside, outside = (sizes(room, units) for room in (crated.inside, crated.outside))
    people = {0: "a pallet truck", 1: "one person", 2: "two people"}[crated.people]
    return (
        f"Along, across and up: inside {inside}, outside {outside}. {bench.say(crated.tare_kg, 'kg')} of its "
        f"mass is {_STUFF[crated.shell]}. It is moved by {people}."
    )


def _figures(bench: Bench, crated: Crated) -> tuple[Figure, ...]:
    units = bench.design.order.job.units
    named: tuple[tuple[Cut, str], ...] = (("across", "Cut across"), ("along", "Cut along, through the foam"))
    return tuple(figure(partial(_drawn, crated, cut, units), _ROOM, words, units) for cut, words in named)


def _drawn(crated: Crated, cut: Cut, units: str, text_mm: float) -> Drawing:
    return crate_section(crated.crate, cut, text_mm, units)


def _bears(bench: Bench, crated: Crated) -> str:
    """What the panel bears, and what it is proved to fall from."""
    bears, falls = crated.fragility, crated.falls
    pane = "" if bears.pane_g is None else f"; its pane across its face {bench.say(bears.pane_g, 'g')}"
    return (
        f"A {bears.named} thing bears {bench.say(bears.class_g, 'g')}{pane}; the smaller counts. Proved for "
        f"a fall of {bench.size(round(falls.down_mm, 0))} on its base and lid and "
        f"{bench.size(round(falls.aside_mm, 0))}, or a blow like it, on its sides ({falls.source})."
    )


_FOAM = ("Fallen", "Foam", "Thick", "Pads a side", "Static", "Shock", "Bears")


def _foam_row(bench: Bench, each: Padding) -> tuple[str, ...]:
    units = bench.design.order.job.units
    return (
        _SIDES[each.side],
        each.foam,
        thin_words(each.thickness_mm, units),
        str(each.pads),
        bench.say(each.static_pa / 1000, "kPa"),
        bench.say(each.shock_g, "g"),
        bench.say(each.fragile_g, "g"),
    )


def _weighed(choice: Weighed) -> tuple[Block, ...]:
    rows = tuple(tuple(signs(words) for words in row) for row in choice.rows)
    table = (words_table(*without_empty(choice.columns, rows)),) if rows else ()
    return (Heading(choice.question), Words(f"{choice.taken}. {choice.why}"), *table)


def _packing(bench: Bench, crated: Crated) -> Page:
    mass = bench.say(crated.gross_kg, "kg")
    shell = crated.crate
    if isinstance(shell, Carton):
        notes = (Words(note) for note in crated.notes)
        cut = (Caution(caution.KNIFE), *carton_blocks(bench, crated, shell), *notes)
        return Page(TITLES[crated.shell][2], cut)
    blocks: list[Block] = [
        Caution(_caution(bench, crated)),
        Heading("To saw for one crate" if crated.crates > 1 else "To saw"),
        Words(_loads(crated)),
        words_table(("Piece", "Pieces", "Of", "Long", "Wide"), _rows(bench, crated.boards)),
        *wood_blocks(bench, crated),
        words_table(("Screws", "Number", "Through what, into what"), _screws(crated)),
        Words(_of_screws(bench, crated), "small"),
        Heading("How to pack"),
        crate_steps(bench, crated),
        Heading("Marks to paint on two sides"),
        Figure(marks_figure(mass), 1.6, "Our own shapes, for what ISO 780 names", to_scale=False),
        *(Words(note) for note in crated.notes),
    ]
    return Page(TITLES[crated.shell][2], tuple(blocks))


def _caution(bench: Bench, crated: Crated) -> str:
    """What a crate of so much and such goods can do to a hand."""
    heavy = caution.CRATE.format(bench.say(HEAVY_KG, "kg", 2))
    return f"{caution.CRATED_GLASS} {heavy}" if crated.crate.stack.panel.pane else heavy


def _screws(crated: Crated) -> tuple[tuple[str, ...], ...]:
    return tuple((each.screw.name, f"{each.count} ×", joint_words(each)) for each in crated.joints)


def _of_screws(bench: Bench, crated: Crated) -> str:
    """How far apart, and why so long."""
    skewed = " Skewed: driven aslant, half in each piece." if any(j.skewed for j in crated.joints) else ""
    return (
        f"Wood screws with countersunk heads, {crated.screws} in all; along a batten one each "
        f"{bench.size(APART_MM)}. None comes out at the far side.{skewed}"
    )


def _loads(crated: Crated) -> str:
    """Who goes where."""
    told = loads_told(crated)
    short = (
        f" Where a {crated.goods} is missing, foam of its size stands in its place."
        if len(crated.loads) > 1
        else ""
    )
    forks = f" {BEARERS} bearers: forks go between them, from the long side." if not crated.by_hand else ""
    return f"{told[0].upper()}{told[1:]}, all built alike.{short}{forks}"


def _rows(bench: Bench, boards: tuple[Board, ...]) -> tuple[tuple[str, ...], ...]:
    units = bench.design.order.job.units
    return tuple(
        (
            each.name,
            f"{each.count} ×",
            _stuff(each, units),
            bench.size(sawn_mm(each.long_mm)),
            "" if each.stuff == "softwood" else bench.size(sawn_mm(each.wide_mm)),
        )
        for each in boards
    )


def _stuff(board: Board, units: str) -> str:
    if board.stuff == "softwood":
        return f"softwood {_section(board, units)}"
    return f"{board.stuff} {thin_words(board.thick_mm, units)}"


def _section(board: Board, units: str) -> str:
    return section_words(Section(board.wide_mm, board.thick_mm), units)
