"""Where earlier records of a shop still lie: backups, copies made before an upgrade or a restore."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from sqlalchemy import inspect

from panewright.ledger.open import Ledger


def copies(ledger: Ledger) -> tuple[str, ...]:
    """Those that were made where Panewright makes them by itself; others it cannot know."""
    return tuple(sorted({*_backups(ledger), *_beside(ledger)}))


def _backups(ledger: Ledger) -> Iterator[str]:
    if ledger.files is not None:
        yield from map(str, (ledger.files.parent / "backups").glob("*.zip"))


def _beside(ledger: Ledger) -> Iterator[str]:
    """Files beside a file of SQLite; schemas of a database of PostgreSQL."""
    if ledger.engine.dialect.name == "postgresql":
        with ledger.reading() as db:
            names = inspect(db).get_schema_names()
        yield from (f"schema {name}" for name in names if name.startswith("before_"))
    elif ledger.engine.url.database:
        place = Path(ledger.engine.url.database)
        for name in (f"{place.stem}-before-*", f"{place.name}.before-*", f"{place.name}-*.*"):
            yield from map(str, place.parent.glob(name))
