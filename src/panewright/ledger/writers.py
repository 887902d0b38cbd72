"""One writes at a time: the lock that a writer takes."""

from __future__ import annotations

from sqlalchemy import Connection

WRITER_LOCK = 7_263_911  #: a number of ours; PostgreSQL holds a lock by it while one writes


def lock_writers(db: Connection) -> None:
    """One writes at a time; SQLite's own way of beginning sees to that already."""
    if db.dialect.name == "postgresql":
        db.exec_driver_sql(f"SELECT pg_advisory_xact_lock({WRITER_LOCK})")
