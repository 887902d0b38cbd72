"""A panel as it was really built, in the records: told at the bench, judged afresh, kept, and read back.

The records keep it twice: whole, so that the very same panel comes back, and as rows, so that one question
finds every panel of a lot.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from importlib.metadata import version as program_version
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials import built as kept
    from panewright.panel.built import Built
    from panewright.panel.happened import Batch, Deviation, Happened, Redone


@dataclass(frozen=True, slots=True)
class Noted:
    """A panel as somebody told that it is."""

    version: int
    built: Built
    by: str
    at: datetime
    warnings: tuple[str, ...]  #: to be told at once: lots past their day, another design than it was begun by


def note(
    ledger: Ledger, made: Made, told: Happened, *, seen: int, by: str, at: datetime, tap: str = ""
) -> Noted:
    """Judge a serial as it is and keep it; `seen` is the version looked at, 0 for the first.

    `BuiltError` with every mistake in what is told; `RecordError` for a lot or cell that the records do not
    know; `StaleError` where somebody else told of it in the meantime. Nothing is kept then.
    """
    from panewright import desk

    return keep(ledger, desk.build(made, told), seen=seen, by=by, at=at, tap=tap)


def keep(ledger: Ledger, built: Built, *, seen: int, by: str, at: datetime, tap: str = "") -> Noted:
    """Keep a serial that was judged already, as `note` does."""
    from panewright.ledger.serials.built import record_built

    row = record_built(ledger, built.serial, row_of(built), seen=seen, by=by, at=at, tap=tap)
    return _noted(ledger, row)


def happened(ledger: Ledger, serial: str) -> Noted | None:
    """A panel as it was told last; None where nothing was told of it yet."""
    from panewright.ledger.serials.built import last_built

    row = last_built(ledger, serial)
    return _noted(ledger, row) if row else None


def versions(ledger: Ledger, serial: str) -> tuple[Noted, ...]:
    """Everything that was ever told of how a panel is, oldest first."""
    from panewright.ledger.serials.built import builts

    return tuple(_noted(ledger, each) for each in builts(ledger, serial))


def _noted(ledger: Ledger, row: kept.BuiltVersion) -> Noted:
    built = built_of(row.built)
    return Noted(row.version, built, row.by, row.at, tuple(_warnings(ledger, row.serial, built)))


def _warnings(ledger: Ledger, serial: str, built: Built) -> Iterator[str]:
    from panewright.ledger.orders.designs import design_of_serial
    from panewright.ledger.serials.expiry import past_their_day

    yield from (str(each) for each in past_their_day(ledger, serial))
    begun = design_of_serial(ledger, serial).revision
    if begun != built.revision:
        yield f"It was begun by design {begun} and is judged by design {built.revision}."


def row_of(built: Built) -> kept.Built:
    """A built panel as the records keep it."""
    from panewright.ledger.serials import built as kept
    from panewright.panel.built_record import as_record

    whole, told = as_record(built), built.happened
    checks = whole.pop("checks")
    return kept.Built(
        program=program_version("panewright"),
        figures=json.dumps(whole),
        checks=json.dumps(checks),
        proven=built.proven,
        seats=tuple(kept.Seat(str(each.place), each.lot, each.mark) for each in told.cells),
        joints=tuple(_joint(each) for each in told.joints),
        uses=tuple(_use(each) for each in told.batches),
        substitutions=tuple(
            kept.Substitution(each.key, each.planned, each.really, each.reason) for each in told.substitutions
        ),
        deviations=tuple(_deviation(each) for each in told.deviations),
    )


def built_of(row: kept.Built) -> Built:
    """The very same panel back; `RecordError` where another Panewright wrote it in another way."""
    from panewright.panel.built_record import from_record

    try:
        return from_record({**json.loads(row.figures), "checks": json.loads(row.checks)})
    except (ValueError, TypeError, KeyError) as reason:
        cure = "`panewright ledger show` prints what it says."
        problem = Problem(f"Panewright {row.program} wrote this panel in another way.", cure, key="built")
        raise RecordError([problem]) from reason


def _joint(each: Redone) -> kept.Joint:
    from panewright.ledger.serials.built import Joint

    start = f"cell {each.after_cell}" if each.after_cell else "minus end"
    times = "" if each.times == 1 else f" {each.times} times"
    return Joint(start, "the next", f"{each.kind} soldered again{times}", note=each.note)


def _use(each: Batch) -> kept.Use:
    """What went in of a lot; nothing said is nothing measured."""
    from panewright.ledger.serials.built import Use

    return Use(each.lot, Decimal(f"{each.amount:.6f}") if each.amount else None, each.unit)


def _deviation(each: Deviation) -> kept.Deviation:
    from panewright.ledger.serials.built import Deviation as Row

    places = {
        "crack": f"cell {each.place}: {each.amount:g} of it cut off",
        "cold joint": f"cell {each.place}: {each.amount:g} ohm too many",
        "bracket": f"bracket {each.place}: {each.amount:g} mm from the left end",
        "other": "",
    }
    return Row(each.what, places.get(each.what, f"{each.amount:g} mm"), each.note)
