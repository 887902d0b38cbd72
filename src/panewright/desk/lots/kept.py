"""Measured cells of a lot, between a page and the records."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.desk.lots.looked import Looked, anew, number
from panewright.desk.lots.settled import Settled
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.intake.cells import CellRows
    from panewright.ledger.cells.measured import CellMapping, CellTable
    from panewright.ledger.cells.settled import Settlement
    from panewright.ledger.open import Ledger

_KINDS = ("keep", "leave out", "correct", "open")


@dataclass(frozen=True, slots=True)
class Kept:
    """The measured cells of a lot as the records hold them."""

    table: CellTable
    mapping: CellMapping
    settled: tuple[Settlement, ...]

    @property
    def read(self) -> bool:
        """Whether its rows were read."""
        return bool(json.loads(self.mapping.told)["read"])

    @property
    def key(self) -> str:
        """What the lot's weight hangs on: another key, another weight."""
        return f"{self.mapping.number} {self.mapping.kind} {self.settled!r}"

    @property
    def bad(self) -> tuple[dict[str, str], ...]:
        """The rows that could not be read: row, column, value, reason, cure."""
        return tuple(json.loads(self.mapping.told).get("bad", ()))

    @property
    def counts(self) -> tuple[int, int]:
        """How many rows are bad, and how many hold no cell."""
        told = json.loads(self.mapping.told)
        return int(told.get("all_bad", 0)), len(told.get("passed", ()))

    @property
    def notes(self) -> tuple[str, ...]:
        """What was said while it was read."""
        return tuple(json.loads(self.mapping.told).get("notes", ()))


def lots_measured(ledger: Ledger) -> tuple[CellTable, ...]:
    """The lots whose cells were measured, the latest first."""
    from panewright.ledger.cells.measured import tables

    return tables(ledger)


def find(ledger: Ledger, lot: str) -> Kept | None:
    """The measured cells of a lot; None where none were."""
    from panewright.ledger.cells.measured import newest_mapping, newest_table
    from panewright.ledger.cells.settled import settled

    table = newest_table(ledger, lot)
    mapping = newest_mapping(ledger, table.number) if table else None
    return Kept(table, mapping, settled(ledger, table.number)) if table and mapping else None


def known_mapping(ledger: Ledger, looked: Looked) -> str:
    """A mapping that was settled before for a table of the same headings; '' where there is none.

    In which light that other table was read says nothing of this one: it is asked again.
    """
    from panewright.ledger.cells.measured import mapping_of_shape

    before = mapping_of_shape(ledger, looked.shape)
    return anew(before, looked.text) if before else ""


def take(ledger: Ledger, lot: str, data: bytes, looked: Looked, hand: Who) -> None:
    """A table taken in: the lot where it is new, the file as it is, its columns, and what they give."""
    from panewright.ledger.cells.measured import keep_mapping, keep_table
    from panewright.ledger.files import store

    _begin(ledger, lot, hand)
    by, at = hand.by, hand.at
    name = " ".join(looked.name.split())[:120] or "cells"
    file = store(ledger, data, name=name, media="application/octet-stream", by=by, at=at, tap=f"{hand.tap}f")
    number = keep_table(ledger, lot, file.sha256, name, by=by, at=at, tap=f"{hand.tap}t")
    rows = looked.rows if looked.sure else None
    keep_mapping(ledger, number, looked.text, rows, seen=0, by=by, at=at, tap=f"{hand.tap}m")


def _begin(ledger: Ledger, mark: str, hand: Who) -> None:
    """The lot itself, where the shop has none of that mark."""
    from panewright.ledger.stores.lots import Lot, find_lot, save_lot

    try:
        find_lot(ledger, mark)
    except RecordError:
        save_lot(
            ledger, mark, Lot("cells", "cells", "each"), seen=0, by=hand.by, at=hand.at, tap=f"{hand.tap}l"
        )


def file_of(ledger: Ledger, kept: Kept) -> bytes:
    """The table as it was dropped."""
    from panewright.ledger.files import fetch

    return fetch(ledger, kept.table.sha256)


def rows_of(ledger: Ledger, kept: Kept) -> CellRows | None:
    """The readings as they were kept; None where a column is still open."""
    from panewright.ledger.cells.measured import readings

    return readings(ledger, kept.mapping)


def keep_columns(ledger: Ledger, kept: Kept, looked: Looked, kind: str, hand: Who, *, seen: int) -> None:
    """Columns settled, and the readings that they give."""
    from panewright.ledger.cells.measured import keep_mapping

    how = ledger, kept.table.number, looked.text, looked.rows
    keep_mapping(*how, seen=seen, kind=kind, by=hand.by, at=hand.at, tap=hand.tap)


def settle(ledger: Ledger, kept: Kept, typed: Mapping[str, str], hand: Who) -> Settlement:
    """What a maker says of a cell, or of a row of it, as typed."""
    from panewright.ledger.cells.settled import Settlement, settle

    what = typed.get("what", "")
    if what not in _KINDS:
        raise RecordError([Problem("This settles nothing.", "Tap one of the buttons.", key="what")])
    row = int(typed["row"]) if typed.get("row", "").isdecimal() else 0
    figures = _figures(typed) if what == "correct" else {}
    anew = " ".join(typed.get("anew", "").split())[:60] if what == "correct" else ""
    mark = typed.get("cell", "")
    told = Settlement(mark, what, row, figures, "" if anew == mark else anew, typed.get("why", "")[:400])
    settle(ledger, kept.table.number, told, by=hand.by, at=hand.at, tap=hand.tap)
    return told


def settled_of(kept: Kept) -> tuple[Settled, ...]:
    """The same as the lot's weighing takes it."""
    return tuple(
        Settled(each.mark, each.what, each.row, each.figures, each.mark_anew)  # type: ignore[arg-type]
        for each in kept.settled
    )


def _figures(typed: Mapping[str, str]) -> dict[str, float]:
    """Figures in SI as a form sends them: `figure-isc_a` and so on."""
    from panewright.intake.cells import FIGURES

    found = {name: number(typed.get(f"figure-{name}", ""), said) for name, said in FIGURES.items()}
    figures = {name: value for name, value in found.items() if value is not None}
    if wrong := [name for name, value in figures.items() if value <= 0 and name != "cell_c"]:
        cure = "Write a number above zero, or leave it empty where nothing was read."
        raise RecordError([Problem("A cell shows more than this.", cure, key=FIGURES[wrong[0]])])
    if not set(figures) - {"irradiance_w_m2", "cell_c", "at_v", "reverse_v"}:
        raise RecordError([Problem("There is no reading in it.", "Write one, or leave the row out.")])
    return figures
