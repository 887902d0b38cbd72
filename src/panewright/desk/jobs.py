"""Work that takes a while, as functions that another process can be asked for by name."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Literal

from panewright.desk import Made
from panewright.desk.designed import designed
from panewright.desk.measuring import charts_seen, curve_looked, fault_found, panel_rated
from panewright.desk.orders.shown import Refused, Shown, repriced, shown
from panewright.desk.own_shelf import Stand, stand
from panewright.desk.progress import at
from panewright.desk.records import keeping
from panewright.errors import PanewrightError

if TYPE_CHECKING:
    from panewright.desk.deals.held import Barred
    from panewright.desk.deals.seen import CellSeen
    from panewright.desk.deals.wish import Wish
    from panewright.desk.lots.looked import Looked
    from panewright.desk.lots.ranked import OffersSeen
    from panewright.desk.lots.seen import Weighed
    from panewright.desk.lots.settled import Settled
    from panewright.desk.orders.offered import KitShown, OfferShown
    from panewright.desk.orders.planned import PlanAsked, PlanShown
    from panewright.desk.paper import Paper as DeskPaper
    from panewright.desk.ranges import Priced
    from panewright.desk.records.place import Place
    from panewright.desk.shop.who import Who
    from panewright.desk.stores.bought import Bought
    from panewright.desk.stores.cut_plan import Job as Asked
    from panewright.desk.stores.cut_plan import Plan
    from panewright.intake.cells import CellRows
    from panewright.panel.built import Built
    from panewright.panel.happened import Happened
    from panewright.price.actuals import Actuals

__all__ = ["charts_seen", "curve_looked", "fault_found", "panel_rated"]  # asked for by name as those below

_ROWS, _COLUMNS = 8, 5  #: of a list, shown before it is opened


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What came of an order's text."""

    seen: Shown | Refused
    kept: bytes = b""  #: the design itself, to be taken out again by `made_of`
    own: Actuals | None = None  #: the shop's pace and breakage that it is priced at


def reckon(text: str, file: str, own: Actuals | None = None) -> Reckoned:
    """An order's text designed and priced at the shop's own pace, or every mistake in it."""
    from panewright import desk

    try:
        made = desk.priced(designed(text, file), own)
    except PanewrightError as mistake:
        return Reckoned(Refused(text, mistake.problems))
    return Reckoned(shown(made, own), pickle.dumps(made, protocol=5), own)


def reprice(before: Reckoned, own: Actuals) -> Reckoned:
    """The same design priced anew, as the shop's pace and breakage are now."""
    from panewright import desk

    made = desk.priced(made_of(before.kept), own)
    assert isinstance(before.seen, Shown)
    return Reckoned(repriced(before.seen, made, own), pickle.dumps(made, protocol=5), own)


def built(text: str, file: str, told: Happened) -> Built:
    """One serial as it really is, judged afresh."""
    from panewright import desk

    return desk.build(designed(text, file), told)


def catalogue(text: str, file: str, own: Actuals | None = None) -> tuple[tuple[str, bytes], ...]:
    """A range's price list in every form, by name; a process that was begun by another does it alone."""
    from panewright.desk import catalogue as desk_catalogue

    def told(done: int, of: int) -> None:
        at(95 * done // of)

    offer = desk_catalogue.catalogue(text.encode(), file, own, told=told)
    return tuple((name, desk_catalogue.content(offer, name)) for name in desk_catalogue.NAMES)


def price_list(text: str, own: Actuals | None = None) -> Priced:
    """A range's price list for a page, with its files."""
    from panewright.desk.ranges import priced

    return priced(text, own)


@dataclass(frozen=True, slots=True)
class Paper:
    """One document as the list of papers shows it: a picture, or the first lines."""

    name: str
    kind: str
    group: str  #: who takes it in hand
    opens: bool  #: a browser shows it
    paged: bool  #: its pages can be looked at one by one
    pictured: bool
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()


def papers(text: str, file: str, own: Actuals | None = None) -> tuple[Paper, ...]:
    """Every document of an order."""
    found = _papers(text, file, own, stand())
    listed = []
    for n, each in enumerate(found):
        at(70 + 30 * n // len(found))
        listed.append(_paper(each))
    return tuple(listed)


def paper(text: str, file: str, name: str, own: Actuals | None = None) -> tuple[str, bytes]:
    """One document's media type and bytes; nothing where there is no such document."""
    found = [each for each in _papers(text, file, own, stand()) if each.name == name]
    at(75)
    return (found[0].media, found[0].content()) if found else ("", b"")


def look(text: str, file: str, name: str, own: Actuals | None = None) -> tuple[str, bytes]:
    """A picture of one document; nothing where there is none."""
    from panewright.paper.look import picture

    found = [each for each in _papers(text, file, own, stand()) if each.name == name]
    return picture(found[0].leaf) if found else ("", b"")


def pages(text: str, file: str, name: str, own: Actuals | None = None) -> tuple[bytes, ...]:
    """Every page of one document as a picture; nothing where it has no pages."""
    from panewright.paper.look import pages as pictures

    found = [each for each in _papers(text, file, own, stand()) if each.name == name]
    at(75)
    return pictures(found[0].leaf) if found else ()


def cut_plan(told: Asked) -> Plan:
    """One cutting plan over some orders."""
    from panewright.desk.stores.cutting import planned

    return planned(told)


def cut_paper(number: int, plan: Plan, kind: str, marks: dict[int, tuple[str, ...]]) -> bytes:
    """A cutting plan as a paper: 'pdf' or 'csv'."""
    from panewright.desk.stores.cut_papers import paper as made

    return made(number, plan, kind, marks)


def offered(text: str, file: str, own: Actuals | None, day: date) -> OfferShown:
    """An order's offer of that day, in words."""
    from panewright import desk
    from panewright.desk.orders.offered import offered as shown_offer

    return shown_offer(desk.priced(designed(text, file), own), day)


def quote_pdf(text: str, file: str, own: Actuals | None, day: date) -> bytes:
    """The quote of that day, to send."""
    from panewright import desk
    from panewright.desk.orders.offered import quote_pdf as pdf

    return pdf(desk.priced(designed(text, file), own), day)


def day_plan(text: str, file: str, own: Actuals | None, asked: PlanAsked) -> PlanShown:
    """So many panels by so many people over days."""
    from panewright import desk
    from panewright.desk.orders.planned import shown

    return shown(desk.priced(designed(text, file), own), asked)


def day_plan_pdf(text: str, file: str, own: Actuals | None, asked: PlanAsked) -> bytes:
    """The same to hang up."""
    from panewright import desk
    from panewright.desk.orders.planned import pdf

    return pdf(desk.priced(designed(text, file), own), asked)


def kit(text: str, file: str, own: Actuals | None) -> KitShown:
    """What goes into each box of an order."""
    from panewright import desk
    from panewright.desk.orders.offered import kit as packed

    return packed(desk.priced(designed(text, file), own))


def box_pdf(text: str, file: str, own: Actuals | None, box: tuple[str, int, dict[str, str]]) -> bytes:
    """The packing list of one box: its serial, its number, and who put which line in."""
    from panewright import desk
    from panewright.desk.orders.offered import box_pdf as pdf

    return pdf(desk.priced(designed(text, file), own), *box)


def to_buy(place: Place, today: date) -> Bought:
    """What to buy for all accepted orders."""
    from panewright.desk.stores.bought import reckoned

    return reckoned(place, today)


def buying_papers(place: Place, today: date) -> Mapping[str, bytes]:
    """The buying papers by name."""
    from panewright.desk.stores.bought import papers as found

    return found(place, today)


def order_goods(place: Place, supplier: str, number: str, who: Who, today: date) -> int:
    """All that is to buy from one supplier, written down as ordered."""
    from panewright.desk.stores.bought import order_all

    return order_all(place, supplier, number, who, today)


def codes(data: bytes) -> tuple[str, ...]:
    """The codes in a photograph."""
    from panewright.intake.photograph import codes as read

    return read(data)


def photograph(data: bytes) -> bytes:
    """A photograph as it is kept."""
    from panewright.intake.photograph import picture

    return picture(data)


def _paper(each: DeskPaper) -> Paper:
    from panewright.pack.leaf import BookLeaf, CsvLeaf, RecordLeaf, TemplateLeaf, WorkbookLeaf

    paged = isinstance(each.leaf, BookLeaf | TemplateLeaf)
    known = each.name, each.kind, each.group
    opens = each.media.startswith(("application/pdf", "image/svg", "text/csv", "application/json"))
    match each.leaf:
        case WorkbookLeaf() | CsvLeaf():
            listing = each.leaf.listing if isinstance(each.leaf, CsvLeaf) else each.leaf.listings[0]
            head = tuple(column.head for column in listing.columns[:_COLUMNS])
            rows = tuple(tuple(map(_short, row[:_COLUMNS])) for row in listing.rows[:_ROWS])
            return Paper(*known, opens, paged, pictured=False, head=head, rows=rows)
        case RecordLeaf():
            rows = ((each.leaf.record.verdict,),) if hasattr(each.leaf.record, "verdict") else ()
            return Paper(*known, opens, paged, pictured=False, head=("Begins with",), rows=rows)
    return Paper(*known, opens, paged, pictured=True)


def cells_looked(data: bytes, name: str, mapping: str = "") -> Looked:
    """A table of measured cells: its columns, and its readings where none is open."""
    from panewright.desk.lots.looked import looked

    return looked(data, name, mapping)


def cells_weighed(rows: CellRows, kind: str, settled: tuple[Settled, ...]) -> Weighed:
    """A lot of measured cells as it stands."""
    from panewright.desk.lots.seen import weigh

    return weigh(rows, kind, settled)


def cells_listed(kept: bytes, name: str) -> bytes:
    """Every cell of a weighed lot as a list: CSV or XLSX by its name."""
    from panewright.desk.lots.listed import content
    from panewright.desk.lots.seen import stood_of

    return content(stood_of(kept), name)


def cells_not_read(data: bytes, name: str, mapping: str, to: str) -> bytes:
    """Every row of a table that was not read, as a list; of the table itself, as records keep only some."""
    from panewright.desk.lots.listed import bad_content
    from panewright.desk.lots.table import look

    return bad_content(look(data, name, mapping).read(), to)


def deal_made(order: tuple[str, str], lot: str, kept: bytes, wish: Wish, barred: Barred) -> str:
    """A weighed lot, less the cells barred, dealt to the panels of an order, as a deal is kept."""
    from panewright.desk.deals.deal import as_text
    from panewright.desk.deals.dealing import deal
    from panewright.desk.lots.seen import stood_of

    at(5)
    text, file = order
    design = designed(text, file).design
    at(30)
    return as_text(deal(design, file, (lot, stood_of(kept)), wish, barred=barred))


def deal_cell(text: str, mark: str, taken: tuple[str, ...]) -> CellSeen:
    """One cell of a deal: why it is where it is, and what may take its place."""
    from panewright.desk.deals.seen import cell_seen

    return cell_seen(text, mark, taken)


def deal_swapped(text: str, mark: str, into: str, why: str) -> str:
    """A deal with another cell in one place, as a deal is kept."""
    from panewright.desk.deals.seen import swapped_text

    return swapped_text(text, mark, into, why)


def deal_paper(text: str, name: str) -> bytes:
    """One paper of a deal by its name."""
    from panewright.desk.deals.deal import from_text
    from panewright.desk.deals.dealing import revived
    from panewright.desk.deals.papers import file

    deal = from_text(text)
    at(20)
    design = designed(deal.order, deal.file).design
    at(50)
    return file(design, deal, revived(deal, design), name)


def offers_ranked(text: str, order: str, file: str, panels: int, caution: float) -> OffersSeen:
    """Offers of cells ranked for the panels of an order."""
    from panewright.desk.lots.ranked import ranked_for

    return ranked_for(text, order, file, panels, caution)


def look_into(path: str) -> keeping.Inside:
    """What a backup holds."""
    return keeping.look_into(path)


def records(what: str, *arguments: Any) -> Any:
    """What keeps the records safe, by its name in `keeping.py`."""
    ways: dict[str, Any] = {
        "back_up": keeping.back_up,
        "look_over": keeping.look_over,
        "write_out": keeping.write_out,
        "look_into": keeping.look_into,
        "put_back": keeping.put_back,
        "erase": keeping.erase,
    }
    return ways[what](*arguments)


def order_text(data: bytes) -> str:
    """The text of an order file, `OrderError` where it is none."""
    from panewright.order.source import decoded, read_source

    return read_source(decoded(data, "the file"), "the file").text


def face(weight: Literal["regular", "strong"]) -> bytes:
    """The face as a web font."""
    from panewright.paper.face import web_font

    return web_font(weight)


def made_of(kept: bytes) -> Made:
    """The design that a process of our own has packed."""
    made = pickle.loads(kept)
    assert isinstance(made, Made)
    return made


def _short(cell: object) -> str:
    """A cell of a list, as short as it can be told."""
    if cell is None:
        return ""
    return f"{cell:g}" if isinstance(cell, float) else str(cell)


@lru_cache(maxsize=2)
def _papers(text: str, file: str, own: Actuals | None, _shelf: Stand) -> tuple[DeskPaper, ...]:
    from panewright import desk

    at(5)
    made = desk.priced(designed(text, file), own)
    at(40)
    return desk.papers(made)
