"""The instruments a shop reads with: which are good today, and which was at hand last."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from panewright.desk.stores.lots import day_of
from panewright.desk.stores.shelved import line_of
from panewright.errors import BenchError, Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.bench.accuracies import Accuracy
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials.affected import ReadBy

KINDS = (
    "multimeter",
    "clamp meter",
    "tracer",
    "electronic load",
    "reference cell",
    "reference panel",
    "light meter",
    "thermometer",
    "infrared gun",
    "insulation tester",
    "pull gauge",
    "calliper",
    "rule",
    "balance",
)

#: what of an instrument's paper a rating asks: words and an example
FIGURES = {
    "certificate": ("Its certificate, with k = 2", "2 %"),
    "within": ("Or its class: no reading is off by more", "0.5 %, or 1 K"),
    "digit": ("Its last digit", "0.01 V"),
    "at_stc": ("Of a cell or panel that tells the light: what it reads at STC", "100 mV"),
}


@dataclass(frozen=True, slots=True)
class Meter:
    """One instrument as a page shows it."""

    name: str
    kind: str
    number: str
    calibrated: str
    due: str
    wrong: str  #: with its calibration; empty where it is good
    accuracy: tuple[tuple[str, str], ...] = ()  #: what is written of it: key and words


def meters(ledger: Ledger) -> tuple[Meter, ...]:
    """Every instrument, by name."""
    from panewright.ledger.bench.accuracies import accuracies
    from panewright.ledger.bench.readings import instruments

    known, today = accuracies(ledger), datetime.now(UTC).date()
    return tuple(
        Meter(
            each.name,
            each.kind,
            each.number,
            str(each.calibrated or ""),
            str(each.due or ""),
            _wrong(each.calibrated, each.due, today),
            _written(known.get(each.name)),
        )
        for each in sorted(instruments(ledger), key=lambda each: each.name.lower())
    )


def _written(accuracy: Accuracy | None) -> tuple[tuple[str, str], ...]:
    return tuple((key, getattr(accuracy, key)) for key in FIGURES if accuracy and getattr(accuracy, key))


def _wrong(calibrated: date | None, due: date | None, today: date) -> str:
    """What is wrong with a calibration.

    >>> _wrong(date(2025, 1, 1), date(2026, 1, 1), date(2026, 3, 1))
    'calibration was due 2026-01-01'
    """
    if calibrated is None:
        return "no calibration on paper"
    return f"calibration was due {due}" if due is not None and due < today else ""


def at_hand(ledger: Ledger) -> dict[str, str]:
    """The instrument that read each unit last."""
    from panewright.ledger.bench.meters import last_by_unit

    return last_by_unit(ledger)


def meter(ledger: Ledger, name: str) -> Meter:
    """One instrument; `RecordError` where there is none of that name."""
    found = next((each for each in meters(ledger) if each.name == name), None)
    if found is None:
        cure = "Look how it is written, under Instruments."
        raise RecordError([Problem("There is no such instrument.", cure, key="instrument", value=name[:40])])
    return found


def panels_read_by(ledger: Ledger, name: str, typed: Mapping[str, str]) -> tuple[ReadBy, ...]:
    """The panels that it read, or whose cells it read, from one day to another."""
    from panewright.ledger.serials.affected import serials_of_instrument

    since, until = day_of(typed, "since"), day_of(typed, "until")
    return serials_of_instrument(ledger, name, since=since, until=until)


def keep_meter(ledger: Ledger, typed: Mapping[str, str], hand: Who) -> None:
    """A new instrument, with its calibration where that is told."""
    from panewright.ledger.bench.readings import add_instrument, instruments

    name, number = line_of(typed, "name")[:80], " ".join(typed.get("number", "").split())[:80]
    day_of(typed, "day"), day_of(typed, "due")
    if name not in {each.name for each in instruments(ledger)}:
        kind = line_of(typed, "kind").lower()
        add_instrument(ledger, name, kind=kind, number=number, by=hand.by, at=hand.at, tap=hand.tap)
    elif not typed.get("day"):
        problem = Problem("There is one of that name.", "Give it another name.", key="name", value=name)
        raise RecordError([problem])
    if typed.get("day"):
        keep_calibration(ledger, name, typed, hand)


def keep_calibration(ledger: Ledger, name: str, typed: Mapping[str, str], hand: Who) -> None:
    """The day an instrument was calibrated, and until when that holds."""
    from panewright.ledger.bench.readings import calibrate

    day, due = day_of(typed, "day"), day_of(typed, "due")
    if day is None or (due is not None and due < day):
        cure = "Write the day on its paper, and a later one until which it holds."
        raise RecordError([Problem("This is no calibration.", cure, key="day")])
    tap = f"{hand.tap}c" if hand.tap else ""
    calibrate(ledger, name, day=day, due=due, by=hand.by, at=hand.at, tap=tap)


def keep_accuracy(ledger: Ledger, name: str, typed: Mapping[str, str], hand: Who) -> None:
    """What is written on an instrument's paper; `BenchError` where it cannot be read."""
    from panewright.desk.rating.instruments import Written, mistakes
    from panewright.ledger.bench.accuracies import Accuracy
    from panewright.ledger.bench.accuracies import keep_accuracy as keep

    told = {key: " ".join(typed.get(key, "").split())[:60] for key in FIGURES}
    if problems := mistakes(
        Written(name, "", told["within"], told["certificate"], told["digit"], told["at_stc"])
    ):
        raise BenchError(problems)
    keep(ledger, name, Accuracy(**told), by=hand.by, at=hand.at, tap=hand.tap)
