"""A kept rating set aside with a reason: a reading botched, a wrong serial. It stays and counts no more."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from panewright.desk.bench.readings import TAKEN_BACK
from panewright.desk.rating.kept import STEP
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.bench.ratings import RatingKept
    from panewright.ledger.open import Ledger

_MOST = 300  #: letters of a reason


def set_aside(ledger: Ledger, serial: str, number: int, why: str, who: Who) -> None:
    """The rating counts no more, and its figures are taken back; `RecordError` where that cannot be."""
    from panewright.ledger.bench.ratings import SET_ASIDE, keep_finding

    words, kept = " ".join(why.split()), _kept(ledger, serial, number)
    if not words or len(words) > _MOST:
        reason = f"It is longer than {_MOST} letters." if words else "No reason is written."
        cure = "Say in a sentence what was wrong with the measurement: it stays in the records with it."
        raise RecordError([Problem(reason, cure, key="why", value=words[:40])])
    if kept.aside:
        raise RecordError(
            [Problem("It was set aside already.", "Load the page again.", key="rating", value=str(number))]
        )
    told: dict[str, Any] = {"by": who.by, "at": who.at}
    keep_finding(ledger, serial, SET_ASIDE, words, "{}", rating=kept.id, tap=who.tap, **told)
    _take_back(ledger, kept, who)


def count_again(ledger: Ledger, serial: str, number: int, who: Who) -> None:
    """A rating that was set aside counts again; its figures are read anew."""
    from panewright.ledger.bench.ratings import COUNTS_AGAIN, keep_finding

    kept = _kept(ledger, serial, number)
    if not kept.aside:
        raise RecordError(
            [Problem("It counts already.", "Load the page again.", key="rating", value=str(number))]
        )
    said = f"set aside before: {kept.aside}"
    keep_finding(ledger, serial, COUNTS_AGAIN, said, "{}", rating=kept.id, by=who.by, at=who.at, tap=who.tap)
    _read_anew(ledger, kept, who)


def newest(ledger: Ledger, serial: str) -> int:
    """The number of the rating that holds; `RecordError` where none does."""
    from panewright.ledger.bench.ratings import ratings, that_holds

    if (kept := that_holds(ratings(ledger, serial))) is None:
        raise RecordError([Problem("No rating of it counts.", "Rate it first.", key="serial", value=serial)])
    return kept.id


def _kept(ledger: Ledger, serial: str, number: int) -> RatingKept:
    from panewright.ledger.bench.ratings import ratings

    found = next((each for each in ratings(ledger, serial) if each.id == number), None)
    if found is None:
        cure = "Choose one of this panel's."
        raise RecordError([Problem("This panel has no such rating.", cure, key="rating", value=str(number))])
    return found


def _take_back(ledger: Ledger, kept: RatingKept, who: Who) -> None:
    """Its figures at STC stand no more among the readings."""
    from panewright.ledger.bench.readings import read, readings

    for each in readings(ledger, serial=kept.serial):
        mine = each.reading.quantity.startswith(f"{STEP}.rated-") and each.reading.file == kept.rating.curve
        if mine and each.at == kept.at and not each.corrected and each.reading.note != TAKEN_BACK:
            back = replace(each.reading, corrects=each.id, note=TAKEN_BACK)
            read(ledger, back, by=who.by, at=who.at, tap=f"{who.tap}{each.id}" if who.tap else "")


def _read_anew(ledger: Ledger, kept: RatingKept, who: Who) -> None:
    import json

    from panewright.desk.rating.kept import keep_readings

    keep_readings(ledger, json.loads(kept.rating.text), kept.rating.curve, who)
