"""What came back and what was done about it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, select

from panewright.ledger.asking import all_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.repairs import ClaimRow as Claims
from panewright.ledger.tables.repairs import RepairRow as Repairs
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, unknown, write


@dataclass(frozen=True, slots=True)
class Claim:
    """What a customer says is wrong."""

    id: int
    words: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Repair:
    """What was done; `claim` is the number of the claim it answers."""

    words: str
    claim: int | None
    by: str
    at: datetime


def claim(ledger: Ledger, serial: str, words: str, *, by: str, at: datetime, tap: str = "") -> int:
    """Keep a claim; its number."""

    def work(db: Connection) -> int:
        return add(
            db, Claims, serial_id=known(db, Serials.serial, serial, "serial"), words=words, who=by, at=at
        )

    return write(ledger, work, kind="claim", key=serial, at=at, tap=tap)


def repair(
    ledger: Ledger, serial: str, words: str, *, by: str, at: datetime, claim: int | None = None, tap: str = ""
) -> None:
    """Keep what was done. Where cells or joints changed, `record_built` tells how the panel is now."""

    def work(db: Connection) -> int:
        panel = known(db, Serials.serial, serial, "serial")
        if claim is not None and not db.scalar(
            select(Claims.id).where(Claims.id == claim, Claims.serial_id == panel)
        ):
            raise unknown("claim", str(claim))
        return add(db, Repairs, serial_id=panel, claim_id=claim, words=words, who=by, at=at)

    write(ledger, work, kind="repair", key=serial, at=at, tap=tap)


def claims(ledger: Ledger, serial: str) -> tuple[Claim, ...]:
    """The claims of a panel, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        wanted = select(Claims.id, Claims.words, Claims.who, Claims.at).where(Claims.serial_id == panel)
        return all_of(db, wanted.order_by(Claims.id), Claim)


def repairs(ledger: Ledger, serial: str) -> tuple[Repair, ...]:
    """The repairs of a panel, oldest first."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        wanted = select(Repairs.words, Repairs.claim_id, Repairs.who, Repairs.at)
        return all_of(db, wanted.where(Repairs.serial_id == panel).order_by(Repairs.id), Repair)
