"""Lots and marked cells, as a hand at the shelf writes them down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from panewright.desk.stores.shelved import amount_of, line_of
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.serials.affected import Affected
    from panewright.ledger.stores.lots import Lot, LotVersion


@dataclass(frozen=True, slots=True)
class ShownLot:
    """One lot as a page shows it."""

    mark: str
    version: int
    kind: str
    name: str
    batch: str
    supplier: str
    received: str
    expires: str
    past: bool  #: its day is gone
    note: str
    typed: dict[str, str]  #: as one would type it again
    pieces: int  #: that it came in and that each bear a label: boxes, rolls, cartridges


_PIECES = ("cartridge", "tin", "bottle", "roll", "box", "boxe", "can", "tube", "reel", "sausage")
_CODE = "LOT-"  #: before the mark, so that a scanner never takes it for a serial


def every(ledger: Ledger) -> tuple[ShownLot, ...]:
    """The lots, newest first."""
    from panewright.ledger.stores.lots import lots

    return tuple(map(_shown, lots(ledger)))


def shown_lot(ledger: Ledger, mark: str) -> ShownLot:
    """One of them."""
    return _shown(find(ledger, mark))


def find(ledger: Ledger, mark: str) -> LotVersion:
    """A lot as it was described last."""
    from panewright.ledger.stores.lots import find_lot

    return find_lot(ledger, mark)


def code_of(mark: str) -> str:
    """What the square code on a lot's label says.

    >>> code_of("C1")
    'LOT-C1'
    """
    return f"{_CODE}{mark}"


def label_code(mark: str) -> str:
    """The same as a square code, one svg element for a page."""
    from panewright.desk.orders.shown import code_svg

    return code_svg(code_of(mark))


def kinds() -> tuple[str, ...]:
    """Kinds of lots that the steps at the bench know."""
    from panewright.pack.steps.material import KINDS

    return KINDS


def mark_of(ledger: Ledger, code: str) -> str:
    """The mark of the lot that a scanned or typed code names; empty where there is none.

    What a label says is read as a label's first: a scan is never wrong, whatever marks there are.
    """
    words = " ".join(code.split())[:80]
    plain = words[len(_CODE) :] if words.upper().startswith(_CODE) else ""
    for mark in filter(None, (plain, words)):
        try:
            return find(ledger, mark[:60]).mark
        except RecordError:
            continue
    return ""


def newest(ledger: Ledger) -> tuple[LotVersion, ...]:
    """The lots as the records hold them, newest first."""
    from panewright.ledger.stores.lots import lots

    return lots(ledger)


def panels_of_lot(ledger: Ledger, mark: str) -> tuple[Affected, ...]:
    """The panels that hold something of a lot, or once held it."""
    from panewright.ledger.serials.affected import serials_of_lot

    return serials_of_lot(ledger, mark)


def panels_of_batch(ledger: Ledger, batch: str) -> tuple[Affected, ...]:
    """The same for a maker's batch, in however many lots it came."""
    from panewright.ledger.serials.affected import serials_of_batch

    return serials_of_batch(ledger, batch)


def _shown(each: LotVersion) -> ShownLot:
    lot = each.lot
    names = ("kind", "name", "unit", "batch", "supplier", "received", "expires", "price", "currency")
    typed = {name: _again(getattr(lot, name)) for name in (*names, "amount", "note")}
    past = lot.expires is not None and lot.expires < datetime.now(UTC).date()
    words = {name: typed[name] for name in ("kind", "name", "batch", "supplier", "received", "expires")}
    typed |= {"mark": each.mark, "seen": str(each.version)}
    pieces = _pieces(lot)
    return ShownLot(each.mark, each.version, past=past, note=lot.note, typed=typed, pieces=pieces, **words)


def _pieces(lot: Lot) -> int:
    """Labels that a lot needs: one, but for what comes in cartridges, tins and the like."""
    whole = lot.amount is not None and lot.amount == lot.amount.to_integral_value()
    many = lot.unit.lower().removesuffix("s") in _PIECES and whole and lot.amount
    return int(lot.amount) if many and lot.amount else 1


def _again(value: object) -> str:
    return "" if value is None else f"{value.normalize():f}" if isinstance(value, Decimal) else str(value)


def mark_cell(ledger: Ledger, lot: str, mark: str, hand: Who) -> None:
    """A cell of a lot gets a mark of its own, where it has none yet."""
    from panewright.ledger.stores.lots import Cell, add_cells, cells_of

    if mark not in {each.mark for each in cells_of(ledger, lot)}:
        add_cells(ledger, lot, [Cell(mark)], by=hand.by, at=hand.at, tap=f"{hand.tap}m" if hand.tap else "")


def keep_lot(ledger: Ledger, typed: Mapping[str, str], hand: Who) -> LotVersion:
    """A lot written down, or described better; what came with a new one lies in the stock from then on."""
    from panewright.ledger.stores.lots import save_lot
    from panewright.ledger.stores.stock import Movement, move

    mark, lot = line_of(typed, "mark")[:60], lot_of(typed)
    seen = int(typed["seen"]) if typed.get("seen", "").isdecimal() else 0
    kept = save_lot(ledger, mark, lot, seen=seen, by=hand.by, at=hand.at, tap=hand.tap)
    if kept.version == 1 and lot.amount:
        came = Movement(lot.name, lot.amount, lot.unit, "received", lot=mark)
        move(ledger, came, by=hand.by, at=hand.at, tap=f"{hand.tap}s" if hand.tap else "")
    return kept


def lot_of(typed: Mapping[str, str]) -> Lot:
    """A lot as typed."""
    from panewright.ledger.stores.lots import Lot

    def said(name: str) -> str:
        return " ".join(typed.get(name, "").split())[:200]

    return Lot(
        kind=line_of(typed, "kind").lower(),
        name=line_of(typed, "name"),
        unit=line_of(typed, "unit"),
        batch=said("batch"),
        supplier=said("supplier"),
        received=day_of(typed, "received"),
        expires=day_of(typed, "expires"),
        price=_amount(typed, "price"),
        currency=said("currency"),
        amount=_amount(typed, "amount"),
        note=said("note"),
    )


def day_of(typed: Mapping[str, str], name: str) -> date | None:
    """A day as typed; None where nothing is."""
    words = typed.get(name, "").strip()
    try:
        return date.fromisoformat(words) if words else None
    except ValueError as mistake:
        cure = "Write year, month, day, such as 2026-04-30."
        raise RecordError([Problem("This is no day.", cure, key=name, value=words[:40])]) from mistake


def _amount(typed: Mapping[str, str], name: str) -> Decimal | None:
    return amount_of(typed[name]) if typed.get(name, "").strip() else None
