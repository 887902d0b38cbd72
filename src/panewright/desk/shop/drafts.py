"""What is tried and not kept yet: cells of an order shaded, cracked or swapped, and strings of an array.

A small file of its own beside the records, so that a tap costs a thousandth of a second. A tap that comes
twice counts once.
"""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable, Mapping
from pathlib import Path

_TABLES = """
CREATE TABLE IF NOT EXISTS cell (
    number TEXT NOT NULL, cell INTEGER NOT NULL, state TEXT NOT NULL, PRIMARY KEY (number, cell)
) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS strings (array TEXT PRIMARY KEY, told TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS tap (
    tap TEXT PRIMARY KEY, number TEXT NOT NULL, at REAL NOT NULL
) WITHOUT ROWID;
"""
SOUND = "sound"
_KEPT_S = 7 * 24 * 3600.0


class Drafts:
    """The file and its one writer."""

    def __init__(self, path: Path) -> None:
        self._db = sqlite3.connect(path, check_same_thread=False, isolation_level=None, timeout=10.0)
        self._lock = threading.Lock()
        for pragma in ("journal_mode=WAL", "synchronous=NORMAL"):
            self._db.execute(f"PRAGMA {pragma}")
        self._db.executescript(_TABLES)
        self._db.execute("DELETE FROM tap WHERE at < ?", (time.time() - _KEPT_S,))

    def cells(self, number: str) -> dict[int, str]:
        """The cells of an order that are not sound."""
        with self._lock:
            rows = self._db.execute("SELECT cell, state FROM cell WHERE number = ? ORDER BY cell", (number,))
            return {int(cell): str(state) for cell, state in rows}

    def mark(self, number: str, cells: Mapping[int, str], *, tap: str, now_s: float) -> bool:
        """Give cells a state; False where this tap was counted before."""
        with self._lock, self._db:
            self._db.execute("BEGIN IMMEDIATE")
            if self._db.execute("SELECT 1 FROM tap WHERE tap = ?", (tap,)).fetchone():
                return False
            for cell, state in cells.items():
                self._put(number, cell, state)
            self._db.execute("INSERT INTO tap VALUES (?, ?, ?)", (tap, number, now_s))
        return True

    def strings(self, array: str) -> str | None:
        """The strings that are tried of an array; None where nothing is."""
        with self._lock:
            found = self._db.execute("SELECT told FROM strings WHERE array = ?", (array,)).fetchone()
            return str(found[0]) if found else None

    def try_strings(
        self, array: str, change: Callable[[str | None], str | None], *, tap: str, now_s: float
    ) -> bool:
        """What stands becomes what `change` makes of it, None to let go; False where the tap was counted.

        Many taps go into one arrangement, so each is on the disk before it is confirmed.
        """
        with self._lock:
            self._db.execute("PRAGMA synchronous=FULL")
            try:
                return self._changed(array, change, tap, now_s)
            finally:
                self._db.execute("PRAGMA synchronous=NORMAL")

    def _changed(
        self, array: str, change: Callable[[str | None], str | None], tap: str, now_s: float
    ) -> bool:
        with self._db:
            self._db.execute("BEGIN IMMEDIATE")
            if self._db.execute("SELECT 1 FROM tap WHERE tap = ?", (tap,)).fetchone():
                return False
            found = self._db.execute("SELECT told FROM strings WHERE array = ?", (array,)).fetchone()
            fresh = change(str(found[0]) if found else None)
            if fresh is None:
                self._db.execute("DELETE FROM strings WHERE array = ?", (array,))
            else:
                self._db.execute("INSERT OR REPLACE INTO strings VALUES (?, ?)", (array, fresh))
            self._db.execute("INSERT INTO tap VALUES (?, ?, ?)", (tap, array, now_s))
        return True

    def taps(self, number: str) -> int:
        """How many taps were counted for an order."""
        with self._lock:
            return int(self._db.execute("SELECT count(*) FROM tap WHERE number = ?", (number,)).fetchone()[0])

    def close(self) -> None:
        """Close the file."""
        with self._lock:
            self._db.close()

    def _put(self, number: str, cell: int, state: str) -> None:
        if state == SOUND:
            self._db.execute("DELETE FROM cell WHERE number = ? AND cell = ?", (number, cell))
        else:
            self._db.execute("INSERT OR REPLACE INTO cell VALUES (?, ?, ?)", (number, cell, state))
