"""Designs with exactly what made them: the order's version, the shelf as it was, the program."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, select

from panewright.ledger.asking import Wanted, all_of, one_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.orders import DesignRow as Designs
from panewright.ledger.tables.orders import DocumentRow as Documents
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.orders import OrderVersionRow as Versions
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, unknown, write


@dataclass(frozen=True, slots=True)
class DesignMade:
    """One design as it was made. `figures`, `checks` and `shelf` are JSON."""

    order: str
    version: int  #: of the order's text
    revision: str
    program: str  #: Panewright's version
    shelf: str
    figures: str
    checks: str
    serials: tuple[str, ...]  #: as planned, one a panel
    proven: bool


def record_design(ledger: Ledger, made: DesignMade, *, by: str, at: datetime, tap: str = "") -> int:
    """Keep a design; its id."""

    def work(db: Connection) -> int:
        asked = select(Versions.id).join(Orders, Versions.order_id == Orders.id)
        version = db.scalar(asked.where(Orders.number == made.order, Versions.version == made.version))
        if version is None:
            raise unknown("order", f"{made.order}, version {made.version}")
        return add(
            db,
            Designs,
            order_version_id=version,
            revision=made.revision,
            program=made.program,
            shelf_id=document(db, made.shelf),
            figures=made.figures,
            checks=made.checks,
            serials=json.dumps(made.serials),
            proven=made.proven,
            who=by,
            at=at,
        )

    return write(ledger, work, kind="design", key=made.order, at=at, tap=tap)


def designs(ledger: Ledger, order: str) -> tuple[DesignMade, ...]:
    """Every design of an order, oldest first."""
    with ledger.reading() as db:
        return all_of(db, _designs().where(Orders.number == order), _design)


def design_of_serial(ledger: Ledger, serial: str) -> DesignMade:
    """The design that a panel was begun by."""
    with ledger.reading() as db:
        panel = known(db, Serials.serial, serial, "serial")
        mine = _designs().join(Serials, Serials.design_id == Designs.id).where(Serials.id == panel)
        return one_of(db, mine, _design)


def figures_of(ledger: Ledger, design: int) -> str:
    """The figures of a design by its id."""
    with ledger.reading() as db:
        return db.scalars(select(Designs.figures).where(Designs.id == design)).one()


def document(db: Connection, text: str) -> int:
    """The id of a long text, kept once however many rows share it."""
    digest = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    found = db.scalar(select(Documents.id).where(Documents.digest == digest))
    return found if found is not None else add(db, Documents, digest=digest, text=text)


def _designs() -> Wanted:
    columns = (Designs.revision, Designs.program, Documents.text, Designs.figures, Designs.checks)
    return (
        select(Orders.number, Versions.version, *columns, Designs.serials, Designs.proven)
        .join(Versions, Designs.order_version_id == Versions.id)
        .join(Orders, Versions.order_id == Orders.id)
        .join(Documents, Designs.shelf_id == Documents.id)
        .order_by(Designs.id)
    )


def _design(*row: Any) -> DesignMade:
    order, version, revision, program, shelf, figures, checks, serials, proven = row
    planned = tuple(json.loads(serials))
    return DesignMade(order, version, revision, program, shelf, figures, checks, planned, proven)
