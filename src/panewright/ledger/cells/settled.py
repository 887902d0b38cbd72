"""What a maker settled of cells that were measured: kept, left out, put right, or left open again."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import Connection, exists, func, select
from sqlalchemy.orm import aliased

from panewright.errors import Problem, RecordError
from panewright.ledger.asking import all_of
from panewright.ledger.cells.measured import lot_of
from panewright.ledger.open import Ledger
from panewright.ledger.tables.measured import CellSettledRow as Settlements
from panewright.ledger.writing import add, write

WHATS = ("keep", "leave out", "correct", "open")


@dataclass(frozen=True, slots=True)
class Settlement:
    """What is settled of a cell (row 0), or of one row of it; the figures in SI, as they should be."""

    mark: str
    what: str  #: of WHATS
    row: int = 0
    figures: Mapping[str, float] = field(default_factory=dict)
    mark_anew: str = ""
    reason: str = ""


def settle(ledger: Ledger, table: int, what: Settlement, *, by: str, at: datetime, tap: str = "") -> None:
    """Settle something of a cell; what was settled of it before stays in the records."""
    if what.what not in WHATS:
        cure = f"Say one of: {', '.join(WHATS)}."
        raise RecordError([Problem("This settles nothing.", cure, key="what", value=what.what[:40])])

    def work(db: Connection) -> int:
        its = (Settlements.table_id == table, Settlements.mark == what.mark, Settlements.row == what.row)
        last = db.scalar(select(func.max(Settlements.version)).where(*its)) or 0
        told = {name: getattr(what, name) for name in ("mark", "what", "row", "mark_anew", "reason")}
        figures = json.dumps(dict(what.figures), sort_keys=True)
        return add(db, Settlements, table_id=table, version=last + 1, figures=figures, who=by, at=at, **told)

    write(ledger, work, kind="lot", key=lot_of(ledger, table), at=at, tap=tap)


def settled(ledger: Ledger, table: int) -> tuple[Settlement, ...]:
    """What is settled now, the latest last."""
    later = aliased(Settlements)
    newer = exists().where(
        later.table_id == Settlements.table_id,
        later.mark == Settlements.mark,
        later.row == Settlements.row,
        later.version > Settlements.version,
    )
    names = ("mark", "what", "row", "figures", "mark_anew", "reason")
    wanted = select(*(getattr(Settlements, name) for name in names)).order_by(Settlements.id)
    mine = wanted.where(Settlements.table_id == table, Settlements.what != "open", ~newer)
    with ledger.reading() as db:
        return all_of(db, mine, _settlement)


def _settlement(mark: str, what: str, row: int, figures: str, mark_anew: str, reason: str) -> Settlement:
    return Settlement(mark, what, row, json.loads(figures), mark_anew, reason)
