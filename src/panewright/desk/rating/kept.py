"""Ratings in the shop's records: the serial as built, the shop's instruments, ratings with their files."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from panewright.bench.rate.rated import UNITS
from panewright.desk.rating import papers, recorded
from panewright.desk.rating.instruments import Written
from panewright.desk.rating.rated import Panel, PanelRated

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.bench.ratings import RatingKept
    from panewright.ledger.open import Ledger
    from panewright.panel.happened import Happened

STEP = "measure-sun"  #: under which its readings stand
_LATEST = 40  #: ratings among which it is looked for
_QUANTITIES = {
    "power_w": "rated-power",
    "isc_a": "rated-short-circuit-current",
    "voc_v": "rated-open-circuit-voltage",
}


def panel_of(ledger: Ledger, serial: str) -> Panel:
    """The serial as it was built; as designed where nothing was told of it."""
    from panewright.ledger.orders.designs import design_of_serial
    from panewright.ledger.orders.orders import versions
    from panewright.ledger.serials.serials import find_serial

    found, design = find_serial(ledger, serial), design_of_serial(ledger, serial)
    text = next(each.text for each in versions(ledger, found.order) if each.version == design.version)
    return panel(text, found.order, serial, told_of(ledger, serial))


def told_of(ledger: Ledger, serial: str) -> Happened | None:
    """What was told of how it was built."""
    from panewright.desk.built.noted import happened

    noted = happened(ledger, serial)
    return noted.built.happened if noted else None


def panel(text: str, order: str, serial: str, told: Happened | None) -> Panel:
    """The same from the order's text and what was told."""
    from panewright.desk.designed import designed
    from panewright.desk.own_shelf import own_shelf
    from panewright.panel.built import as_built

    made = designed(text, f"{order}.toml")
    if told is None:
        return Panel(made.design, serial)
    measured = sum(each.own is not None for each in told.cells)
    return Panel(as_built(made.design, own_shelf(), told), serial, as_built=True, measured=measured)


def shop_instruments(ledger: Ledger) -> dict[str, Written]:
    """Every instrument of the shop, with what is written of its accuracy."""
    from panewright.ledger.bench.accuracies import accuracies
    from panewright.ledger.bench.readings import instruments as every

    known = accuracies(ledger)
    made = {}
    for each in every(ledger):
        own = Written(each.name, each.kind, calibrated=each.calibrated, due=each.due)
        if (told := known.get(each.name)) is not None:
            own = replace(
                own, within=told.within, certificate=told.certificate, digit=told.digit, at_stc=told.at_stc
            )
        made[each.name] = own
    return made


def keep(ledger: Ledger, made: PanelRated, curve: bytes, who: Who) -> RatingKept:
    """The raw file, the report, the readings and the rating, all with the serial; kept once for one tap."""
    return keep_told(ledger, recorded.of_rating(made), (curve, papers.report_bytes(made)), who)


def keep_told(
    ledger: Ledger, told: dict[str, object], curve_and_report: tuple[bytes, bytes], who: Who
) -> RatingKept:
    """The same of a rating that is told already, as a page has it."""
    from panewright.ledger.bench.ratings import Rating, keep_rating
    from panewright.ledger.files import attach, store

    curve, report = curve_and_report
    by: dict[str, Any] = {"by": who.by, "at": who.at}
    serial, day = str(told["serial"]), str(told["day"])
    name = f"test-report-{papers.plain(serial)}-{day}.pdf"
    raw = store(ledger, curve, name=str(told["file"])[:120], media="application/octet-stream", **by)
    paper = store(ledger, report, name=name, media="application/pdf", **by)
    rating = Rating.told(told, curve=raw.sha256, report=paper.sha256, text=json.dumps(told))
    kept = keep_rating(ledger, serial, rating, **by, tap=who.tap)
    titles = f"{told['file']}, read {day}"[:80], f"Test report of {day}: {told['verdict']}"
    papers_of = ((raw.sha256, "reading", "r", titles[0]), (paper.sha256, "report", "p", titles[1]))
    for digest, kind, mark, title in papers_of:
        tap = f"{who.tap}{mark}" if who.tap else ""
        attach(ledger, digest, kind=kind, serial=serial, title=title, **by, tap=tap)
    keep_readings(ledger, told, raw.sha256, who)
    return kept


def keep_readings(ledger: Ledger, told: dict[str, object], raw: str, who: Who) -> None:
    """The figures at STC as readings of the panel, those that were rated."""
    from panewright.ledger.bench.readings import Reading, read
    from panewright.ledger.bench.readings import instruments as every

    known = {each.name for each in every(ledger)}
    named = next((each for each in _names(told) if each in known), "")
    figures = told["figures"]
    assert isinstance(figures, dict)
    for name, quantity in _QUANTITIES.items():
        value, expanded = figures[name]["value"], figures[name]["expanded"]
        if value is None:
            continue
        note = f"at STC, ± {expanded:.2g} {UNITS[name]} with k = 2"
        reading = Reading(
            f"{STEP}.{quantity}", value, UNITS[name], serial=str(told["serial"]), step=STEP,
            light_w_m2=1000.0, heat_c=25.0, instrument=named, file=raw, note=note,
        )  # fmt: skip
        tap = f"{who.tap}{quantity[-3:]}" if who.tap else ""
        read(ledger, reading, by=who.by, at=who.at, tap=tap)


def _names(told: dict[str, object]) -> list[str]:
    rows = told["instruments"]
    assert isinstance(rows, list)
    return [str(each["name"]) for each in rows]


def known_mapping(ledger: Ledger, proposed: str) -> str:
    """How columns of the same headings were settled last; empty where none were."""
    from panewright.desk.curves.settled import same_shape
    from panewright.ledger.bench.ratings import last_of_each

    for each in reversed(last_of_each(ledger, most=_LATEST)):
        text = str(json.loads(each.rating.text).get("mapping", ""))
        if text and same_shape(text, proposed):
            return text
    return ""
