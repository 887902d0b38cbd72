"""Wood to buy for all crates of an order, on the crate's page: bars, whole sheets, their cuts and joints."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from panewright.crate.amounts import Amount, amounts
from panewright.crate.bought import Sold
from panewright.crate.box import Crate
from panewright.crate.crated import Crated
from panewright.crate.seams import STRIP_MM
from panewright.crate.timber import Section
from panewright.drawing.sheet import Block, Words
from panewright.pack.bench import Bench, count, listed, sawn_mm, told
from panewright.pack.customary import Units, counted
from panewright.pack.figures.crate import section_words, thin_words
from panewright.pack.figures.sheets import sheet_figure
from panewright.pack.pages.cutting import steps_table
from panewright.pack.pages.table import words_table
from panewright.price.money import exact
from panewright.units import MM

_ROOM_MM, _LETTER_MM = 85.0, 2.0  #: of a sheet drawn on the page, and of its words
_MOST_DRAWN = 6  #: sheets that are sawn each in its own way
LARGER = "boards larger than a sheet, and no batten within a sheet’s length to join two over: to be asked"
_SOLD_BY = {"batten": "metre", "plywood": "square metre"}


@dataclass(frozen=True, slots=True)
class _Joined:
    """Joints of one kind, in words and figures."""

    name: str
    at_mm: tuple[float, ...]
    start: str  #: from where they are measured
    over: str


def wood_blocks(bench: Bench, crated: Crated) -> tuple[Block, ...]:
    """What to buy, where sheets meet, then each kind of sheet with its cuts, drawn and told."""
    units = bench.design.order.job.units
    heads = ("Wood", f"To buy for {count(crated.crates, crated.shell)}", "Bought", "Sawn of it")
    rows = tuple(wood_rows(crated, units))
    seams = tuple(Words(words) for words in seam_words(crated, units))
    return (words_table(heads, rows), *seams, *_sheets(crated, units))


def wood_rows(crated: Crated, units: Units) -> Iterator[tuple[str, str, str, str]]:
    """Each size of wood: bars or sheets for all crates, how much that is, and what is in boards."""
    for each in amounts(crated.crate, crated.crates, crated.wood):
        if each.of in _SOLD_BY:
            sawn = each.count * crated.crates
            bought = sum(one.count * _measure(one) for one in each.sold) or sawn
            words = ", ".join(_sold(one, units) for one in each.sold) or _unsold(each, crated)
            all_, in_it = (counted(exact(amount), _SOLD_BY[each.of], units) for amount in (bought, sawn))
            yield _named(each, units), words, all_, in_it


def _measure(one: Sold) -> float:
    """Of one bar or sheet. [m, m2]"""
    return one.long_mm * MM * (one.wide_mm * MM if one.wide_mm else 1.0)


def _sold(one: Sold, units: str) -> str:
    sides = " × ".join(told(side, units) for side in (one.long_mm, one.wide_mm) if side)
    return f"{one.count} × {sides}"


def _unsold(each: Amount, crated: Crated) -> str:
    """Why no bars or sheets are told."""
    if each.of == "batten":
        return "by the metre"
    larger = any(one.asked for one in crated.bought if one.of(each.thick_mm, 0.0))
    return LARGER if larger else "cut to size"


def _named(each: Amount, units: str) -> str:
    if each.of == "plywood":
        return f"plywood {thin_words(each.thick_mm, units)}"
    return f"softwood {section_words(Section(each.thick_mm, each.wide_mm), units)}"


def seam_words(crated: Crated, units: str) -> Iterator[str]:
    """Where two sheets meet, and over what."""
    crate = crated.crate
    if not isinstance(crate, Crate):
        return
    for found in _joints_of(crate):
        if found.at_mm:
            at = listed([told(sawn_mm(each), units) for each in found.at_mm])
            yield f"{found.name}: joined {at} from {found.start}, {found.over}, half of it under each."
    if any(board.name.startswith("strip over") for board in crated.boards):
        strip = told(STRIP_MM, units)
        yield f"Loose boards larger than a sheet: a strip {strip} wide glued over each joint."


def _joints_of(crate: Crate) -> Iterator[_Joined]:
    floor, side, end = crate.seams.lid, crate.seams.side, crate.seams.end
    lid = "Floor and lid are {} than a sheet"
    under = "the lid’s under a batten of it, the floor’s over one across"
    along = "the lid’s under pieces of a batten between those over it, the floor’s over a sill more"
    level = "over pieces of a batten between its uprights"
    yield _Joined(lid.format("longer"), floor.along_mm, "one end", under)
    yield _Joined(lid.format("wider"), floor.across_mm, "one side", along)
    yield _Joined("Sides are longer than a sheet", side.along_mm, "one end", "over an upright")
    yield _Joined("Sides are higher than a sheet", side.across_mm, "the floor up", level)
    yield _Joined("Ends are wider than a sheet", end.along_mm, "one end", "over an upright more")
    yield _Joined("Ends are higher than a sheet", end.across_mm, "the floor up", level)


def _sheets(crated: Crated, units: str) -> Iterator[Block]:
    """Each kind of sheet, the fullest first, and its cuts; of very many crates the first kinds.

    Both bear the sheet's number: a table may stand on the page after its picture.
    """
    cuts = [(each.thick_mm, *pair) for each in crated.bought if each.sheets for pair in each.sheets.grouped]
    for place, (thick, cut, number) in enumerate(cuts[:_MOST_DRAWN], 1):
        words = f"Sheet {place}, {number} × of plywood {thin_words(thick, units)}; cut by the numbers"
        yield replace(sheet_figure(cut, number, units, _LETTER_MM, _ROOM_MM), caption=words)
        yield steps_table(cut, units, f"Sheet {place}, cut")
    if left := sum(number for _, _, number in cuts[_MOST_DRAWN:]):
        them = "It is sawn otherwise and is" if left == 1 else "They are sawn otherwise and are"
        yield Words(f"And {count(left, 'sheet')} more. {them} not drawn: saw the pieces that are left.")
