"""Panels rated: what holds now, everything that was, and the ratings of many panels for a chart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, ScalarSelect, func, select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted, all_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.ratings import FindingRow as Findings
from panewright.ledger.tables.ratings import RatingRow as Ratings
from panewright.ledger.tables.readings import FileRow as Files
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, write

SET_ASIDE, COUNTS_AGAIN = "set aside", "counts again"


@dataclass(frozen=True, slots=True)
class Rating:
    """One rating, its raw file and its report by their digests."""

    day: date
    verdict: str
    label_w: float
    predicted_w: float
    power_w: float | None  #: None where it could not be rated
    power_off_w: float | None  #: its uncertainty, k = 2
    curve: str
    report: str
    text: str  #: JSON: everything told of it

    @classmethod
    def told(cls, told: dict[str, Any], *, curve: str, report: str, text: str) -> Rating:
        """Out of what was told of it."""
        power = told["figures"]["power_w"]
        return cls(
            date.fromisoformat(told["day"]), told["verdict"], told["label_w"], power["predicted"],
            power["value"], power["expanded"], curve, report, text,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class RatingKept:
    """A rating as it is kept."""

    id: int
    serial: str
    order: str
    rating: Rating
    by: str
    at: datetime
    aside: str = ""  #: why it was set aside; empty where it counts


@dataclass(frozen=True, slots=True)
class Found:
    """One thing told of what is wrong with a panel, or with a rating of it. `text` is JSON.

    `what`: found, told, mended; set aside, counts again.
    """

    id: int
    what: str
    said: str
    text: str
    rating: int | None
    by: str
    at: datetime


def keep_rating(
    ledger: Ledger, serial: str, rating: Rating, *, by: str, at: datetime, tap: str = ""
) -> RatingKept:
    """Keep a rating of a panel."""

    def work(db: Connection) -> int:
        keys = {
            "serial_id": known(db, Serials.serial, serial, "serial"),
            "curve_id": known(db, Files.sha256, rating.curve, "file"),
            "report_id": known(db, Files.sha256, rating.report, "file"),
        }
        names = ("day", "verdict", "label_w", "predicted_w", "power_w", "power_off_w", "text")
        told = {name: getattr(rating, name) for name in names}
        return add(db, Ratings, who=by, at=at, **told, **keys)

    row = write(ledger, work, kind="rating", key=serial, at=at, tap=tap)
    with ledger.reading() as db:
        return one_of(db, _ratings().where(Ratings.id == row), _kept)


def ratings(ledger: Ledger, serial: str) -> tuple[RatingKept, ...]:
    """Every rating of a panel, oldest first, those set aside among them."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        return all_of(db, _ratings().where(Ratings.serial_id == panel).order_by(Ratings.id), _kept)


def that_holds(every: Sequence[RatingKept]) -> RatingKept | None:
    """The newest that was not set aside; None where there is none."""
    return next((each for each in reversed(every) if not each.aside), None)


def last_of_each(ledger: Ledger, order: str = "", most: int = 500) -> tuple[RatingKept, ...]:
    """The newest rating of each panel that counts, of one order or all, oldest first; of many the newest."""
    newer = aliased(Ratings)
    later = select(newer.id).where(newer.serial_id == Ratings.serial_id, newer.id > Ratings.id, counts(newer))
    wanted = _ratings().where(counts(Ratings), ~later.exists()).order_by(Ratings.id.desc()).limit(most)
    with ledger.reading() as db:
        return all_of(db, wanted.where(Orders.number == order) if order else wanted, _kept)[::-1]


def keep_finding(
    ledger: Ledger,
    serial: str,
    what: str,
    said: str,
    text: str,
    *,
    by: str,
    at: datetime,
    rating: int | None = None,
    tap: str = "",
) -> None:
    """Keep one thing told of what is wrong with a panel."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        told = {"what": what, "said": said, "text": text, "rating_id": rating}
        return add(db, Findings, serial_id=panel, who=by, at=at, **told)

    write(ledger, work, kind="finding", key=serial, at=at, tap=tap)


def findings(ledger: Ledger, serial: str) -> tuple[Found, ...]:
    """Everything told of what is wrong with a panel, oldest first."""
    columns = (Findings.id, Findings.what, Findings.said, Findings.text, Findings.rating_id)
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        wanted = select(*columns, Findings.who, Findings.at).where(Findings.serial_id == panel)
        return all_of(db, wanted.order_by(Findings.id), Found)


def counts(rating: Any) -> ColumnElement[bool]:
    """Whether a rating was not set aside, or was said to count again."""
    told = aliased(Findings)
    last = select(told.what).where(told.rating_id == rating.id, told.what.in_((SET_ASIDE, COUNTS_AGAIN)))
    newest = last.order_by(told.id.desc()).limit(1).scalar_subquery()
    return func.coalesce(newest, COUNTS_AGAIN) == COUNTS_AGAIN


def _why_aside() -> ScalarSelect[str | None]:
    """What was said when it was set aside, or last."""
    told = aliased(Findings)
    mine = (told.rating_id == Ratings.id, told.what.in_((SET_ASIDE, COUNTS_AGAIN)))
    return select(told.said).where(*mine).order_by(told.id.desc()).limit(1).scalar_subquery()


def _ratings() -> Wanted:
    curve, report = aliased(Files), aliased(Files)
    told = (Ratings.day, Ratings.verdict, Ratings.label_w, Ratings.predicted_w)
    figures = (Ratings.power_w, Ratings.power_off_w, curve.sha256, report.sha256, Ratings.text)
    return (
        select(
            Ratings.id,
            Serials.serial,
            Orders.number,
            counts(Ratings),
            _why_aside(),
            *told,
            *figures,
            Ratings.who,
            Ratings.at,
        )
        .join(Serials, Ratings.serial_id == Serials.id)
        .join(Orders, Serials.order_id == Orders.id)
        .join(curve, Ratings.curve_id == curve.id)
        .join(report, Ratings.report_id == report.id)
    )


def _kept(key: int, serial: str, order: str, counted: bool, why: str | None, *rest: Any) -> RatingKept:
    *fields, by, at = rest
    return RatingKept(key, serial, order, Rating(*fields), by, at, "" if counted else why or "")
