"""Work that takes a while, as functions that another process can be asked for by name."""

from __future__ import annotations

import pickle
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, Literal

from panewright.desk import Made
from panewright.desk.arrays.in_records import looked as weather_looked
from panewright.desk.arrays.jobs import array_arranged, array_basis, array_paper, array_year
from panewright.desk.dealt import (
    cells_listed,
    cells_looked,
    cells_not_read,
    cells_weighed,
    deal_cell,
    deal_made,
    deal_paper,
    deal_swapped,
    offers_ranked,
)
from panewright.desk.designed import designed
from panewright.desk.documents import Paper, look, pages, paper, papers
from panewright.desk.measuring import charts_seen, curve_looked, fault_found, panel_rated
from panewright.desk.orders.shown import Refused, Shown, repriced, shown
from panewright.desk.progress import at
from panewright.desk.records import keeping
from panewright.errors import PanewrightError

if TYPE_CHECKING:
    from panewright.desk.orders.offered import KitShown, OfferShown
    from panewright.desk.orders.planned import PlanAsked, PlanShown
    from panewright.desk.ranges import Priced
    from panewright.desk.records.place import Place
    from panewright.desk.shop.who import Who
    from panewright.desk.stores.bought import Bought
    from panewright.desk.stores.cut_plan import Job as Asked
    from panewright.desk.stores.cut_plan import Plan
    from panewright.panel.built import Built
    from panewright.panel.happened import Happened
    from panewright.price.actuals import Actuals

__all__ = [  # asked for by name as those below
    "Paper",
    "array_arranged",
    "array_basis",
    "array_paper",
    "array_year",
    "cells_listed",
    "cells_looked",
    "cells_not_read",
    "cells_weighed",
    "charts_seen",
    "curve_looked",
    "deal_cell",
    "deal_made",
    "deal_paper",
    "deal_swapped",
    "fault_found",
    "look",
    "offers_ranked",
    "pages",
    "panel_rated",
    "paper",
    "papers",
    "weather_looked",
]


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
