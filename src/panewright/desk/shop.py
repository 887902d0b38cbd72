"""The shop: one folder with the records, the files, the keys, and what is being tried.

Everything that a page does to the records goes through here, each thing one function.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.desk.drafts import Drafts
from panewright.errors import Problem, RecordError, StaleError

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.ledger.changes import Change
    from panewright.ledger.files import Attached
    from panewright.ledger.life import Life
    from panewright.ledger.lots import LotVersion
    from panewright.ledger.open import Ledger
    from panewright.ledger.orders import OrderVersion
    from panewright.ledger.readings import ReadingKept
    from panewright.ledger.serials import Serial
    from panewright.ledger.steps import Tick, Timer
    from panewright.ledger.stock import Movement, Remnant, Stock

NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,29}")
_TRIES = 6


@dataclass(frozen=True, slots=True)
class Who:
    """Who does something, when, and by which tap of a page."""

    by: str
    at: datetime
    tap: str = ""

    @classmethod
    def now(cls, by: str, tap: str = "") -> Who:
        """At this moment."""
        return cls(by, datetime.now(UTC), tap)


@dataclass(frozen=True, slots=True)
class Listed:
    """One line of the list of orders."""

    number: str
    name: str
    customer: str
    panels: str
    version: int
    serials: int
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Theirs:
    """A conflict: what another screen wrote meanwhile, beside what was typed here."""

    key: str
    theirs: str
    mine: str
    by: str


@dataclass(frozen=True, slots=True)
class Progress:
    """A panel begun, and how many of its steps are ticked."""

    serial: Serial
    ticked: int


@dataclass(frozen=True, slots=True)
class AtBench:
    """What the records say of a panel on the bench."""

    serial: Serial
    text: str  #: of the order's version that it is built by
    ticks: tuple[Tick, ...]
    clocks: tuple[Timer, ...]
    read: tuple[ReadingKept, ...]
    papers: tuple[Attached, ...]


@dataclass(frozen=True, slots=True)
class Shelved:
    """What lies on the shelf."""

    stock: tuple[Stock, ...]
    remnants: tuple[Remnant, ...]
    lots: tuple[LotVersion, ...]
    expiring: tuple[str, ...]  #: marks of lots past their day within a month


class Shop:
    """An open shop."""

    def __init__(self, folder: Path, ledger: Ledger, drafts: Drafts) -> None:
        self.folder, self.ledger, self.drafts = folder, ledger, drafts

    @classmethod
    def open(cls, folder: Path, records: str = "") -> Shop:
        """The shop in a folder, made where it is missing; `records` may be another database's URL."""
        from panewright.ledger.open import open_ledger

        for each in (folder, folder / "files", folder / "keys", folder / "backups"):
            each.mkdir(parents=True, exist_ok=True, mode=0o700)
        ledger = open_ledger(records or folder / "shop.db", files=folder / "files")
        return cls(folder, ledger, Drafts(folder / "drafts.db"))

    def close(self) -> None:
        """Close the files."""
        self.drafts.close()
        self.ledger.close()

    # Orders

    def orders(self, most: int = 40) -> tuple[Listed, ...]:
        """The orders saved last."""
        from panewright.ledger.orders import find_order, orders

        return tuple(
            _listed(find_order(self.ledger, each.number), each.serials)
            for each in orders(self.ledger, most=most)
        )

    def order(self, number: str) -> OrderVersion:
        """An order as it stands."""
        from panewright.ledger.orders import find_order

        return find_order(self.ledger, number)

    def begin_order(self, number: str, name: str, who: Who) -> OrderVersion:
        """A new order from the commented one; an order that is there already is never touched."""
        from panewright import desk
        from panewright.desk.form import edited

        _refuse_strange(number)
        text = edited(desk.new_order(), "order.number", number)
        text = edited(text, "order.name", name) if name.strip() else text
        return self._save(number, text, 0, who)

    def take_order(self, text: str, who: Who) -> OrderVersion:
        """An order that was written elsewhere, under its own number."""
        from panewright.desk.form import value_of

        number = value_of(text, "order.number") or "1"
        _refuse_strange(number)
        return self._save(number, text, 0, who)

    def say(self, number: str, key: str, typed: str, was: str, who: Who) -> OrderVersion | Theirs:
        """One answer in an order; what another screen wrote to the same key meanwhile is told, not lost."""
        from panewright.desk.form import edited, value_of

        if key == "order.number" and typed.strip() != number:
            cure = f"It is kept as {number}. Begin a new order for another number."
            raise RecordError([Problem("An order keeps its number.", cure, key=key, value=typed[:40])])
        for _ in range(_TRIES):
            stands = self.order(number)
            now = value_of(stands.text, key)
            if now == _plain(typed):
                return stands
            if now != _plain(was) and not self._written(who.tap):
                return Theirs(key, now, typed, stands.by)
            try:
                return self._save(number, edited(stands.text, key, typed), stands.version, who)
            except StaleError:
                continue
        raise RecordError([Problem("Too many write to this order at once.", "Try again.", key=key)])

    def write_text(self, number: str, text: str, seen: int, who: Who) -> OrderVersion:
        """The whole text of an order; `StaleError` with what stands where another screen was faster."""
        return self._save(number, text, seen, who)

    def earlier(self, number: str, version: int, who: Who) -> OrderVersion:
        """An earlier text once more, as the newest version."""
        from panewright.ledger.orders import versions

        known = {each.version: each for each in versions(self.ledger, number)}
        if version not in known:
            raise RecordError(
                [Problem("There is no such version.", "Choose one of the list.", key="version")]
            )
        return self._save(number, known[version].text, max(known), who)

    def versions(self, number: str) -> tuple[OrderVersion, ...]:
        """Every version of an order, oldest first."""
        from panewright.ledger.orders import versions

        return versions(self.ledger, number)

    def _save(self, number: str, text: str, seen: int, who: Who) -> OrderVersion:
        from panewright.ledger.orders import save_order

        return save_order(self.ledger, number, text, seen=seen, by=who.by, at=who.at, tap=who.tap)

    def _written(self, tap: str) -> bool:
        """Whether this tap is in the records already."""
        from panewright.ledger.changes import tapped

        return bool(tap) and tapped(self.ledger, tap)

    # What is tried on a panel

    def cells(self, number: str) -> dict[int, str]:
        """The cells that somebody tries something on."""
        return self.drafts.cells(number)

    def try_cells(self, number: str, cells: Mapping[int, str], who: Who) -> bool:
        """Shade, crack, swap or mend cells; False where this tap came before."""
        return self.drafts.mark(number, cells, tap=who.tap, now_s=who.at.timestamp())

    # Serials and the bench

    def begin_serials(self, number: str, version: int, made: Made, who: Who) -> tuple[str, ...]:
        """Begin every panel of an order by the design of one version of it."""
        from panewright.desk.bench import design_record
        from panewright.ledger.designs import record_design
        from panewright.ledger.serials import open_serials

        record = design_record(made, number, version)
        record_design(self.ledger, record, by=who.by, at=who.at, tap=f"{who.tap}d" if who.tap else "")
        return open_serials(self.ledger, number, by=who.by, at=who.at, tap=who.tap)

    def serials(self, number: str = "") -> tuple[Progress, ...]:
        """The panels begun, of one order or the newest of all, with how far each is."""
        from panewright.ledger.serials import serials
        from panewright.ledger.steps import ticks

        return tuple(
            Progress(each, sum(tick.done for tick in ticks(self.ledger, each.serial)))
            for each in serials(self.ledger, order=number, most=60)
        )

    def find_serial(self, words: str) -> Serial | None:
        """The panel whose serial stands in what was typed or scanned; None where there is none."""
        from panewright.ledger.serials import find_serial

        for each in dict.fromkeys((words.strip(), *reversed(words.split()))):
            try:
                return find_serial(self.ledger, each[:60])
            except RecordError:
                continue
        return None

    def bench(self, serial: str) -> AtBench:
        """All that the bench page asks of the records."""
        from panewright.desk.readings import standing
        from panewright.ledger.designs import design_of_serial
        from panewright.ledger.files import attached
        from panewright.ledger.orders import versions
        from panewright.ledger.serials import find_serial
        from panewright.ledger.steps import ticks, timers

        found = find_serial(self.ledger, serial)
        design = design_of_serial(self.ledger, serial)
        text = next(
            each.text for each in versions(self.ledger, found.order) if each.version == design.version
        )
        return AtBench(
            found,
            text,
            ticks(self.ledger, serial),
            timers(self.ledger, serial),
            standing(self.ledger, serial),
            attached(self.ledger, serial=serial),
        )

    def tick(self, serial: str, step: str, done: bool, who: Who, minutes: Decimal | None = None) -> None:
        """Tick a step, with the minutes where somebody tells them, or take the tick back."""
        from panewright.ledger.steps import tick

        told = minutes if done else None
        tick(self.ledger, serial, step, by=who.by, at=who.at, done=done, minutes=told, tap=who.tap)

    def start_clock(self, serial: str, step: str, wait: timedelta, who: Who) -> None:
        """Start a step's clock."""
        from panewright.ledger.steps import start_timer

        start_timer(self.ledger, serial, step, by=who.by, at=who.at, ends=who.at + wait, tap=who.tap)

    def stop_clock(self, serial: str, step: str, who: Who) -> None:
        """Stop it."""
        from panewright.ledger.steps import stop_timer

        stop_timer(self.ledger, serial, step, by=who.by, at=who.at, tap=who.tap)

    def keep_photograph(self, serial: str, picture: bytes, title: str, who: Who) -> None:
        """Keep a photograph of a panel."""
        from panewright.ledger.files import attach, store

        kept = store(
            self.ledger,
            picture,
            name="photograph.jpg",
            media="image/jpeg",
            by=who.by,
            at=who.at,
            tap=f"{who.tap}f" if who.tap else "",
        )
        attach(
            self.ledger,
            kept.sha256,
            kind="photograph",
            title=title[:80],
            serial=serial,
            by=who.by,
            at=who.at,
            tap=who.tap,
        )

    def file(self, sha256: str) -> bytes:
        """A kept file's bytes."""
        from panewright.ledger.files import fetch

        return fetch(self.ledger, sha256)

    def life(self, serial: str) -> Life:
        """Everything that is known of a panel."""
        from panewright.ledger.life import life

        return life(self.ledger, serial)

    # The shelf

    def stock(self) -> Shelved:
        """What is there, the pieces left over, and the lots."""
        from panewright.ledger.lots import expiring, lots
        from panewright.ledger.stock import remnants, stock

        today = datetime.now(UTC).date()
        return Shelved(
            stock(self.ledger),
            remnants(self.ledger),
            lots(self.ledger),
            tuple(each.mark for each in expiring(self.ledger, today + timedelta(days=30))),
        )

    def move(self, movement: Movement, who: Who) -> None:
        """Something came in or went out."""
        from panewright.ledger.stock import move

        move(self.ledger, movement, by=who.by, at=who.at, tap=who.tap)

    def count(self, item: str, unit: str, amount: Decimal, who: Who) -> None:
        """What was counted."""
        from panewright.ledger.stock import count

        count(self.ledger, item, unit, amount, by=who.by, at=who.at, tap=who.tap)

    def keep_remnant(self, remnant: Remnant, who: Who) -> None:
        """A piece left over."""
        from panewright.ledger.stock import keep_remnant

        keep_remnant(self.ledger, remnant, by=who.by, at=who.at, tap=who.tap)

    def use_remnant(self, mark: str, state: str, who: Who) -> None:
        """A piece cut up or thrown away."""
        from panewright.ledger.stock import use_remnant

        use_remnant(self.ledger, mark, state=state, by=who.by, at=who.at, tap=who.tap)

    # What pages follow

    def newest_change(self) -> int:
        """The number of the last thing written."""
        from panewright.ledger.changes import newest

        return newest(self.ledger)

    def changes(self, since_number: int) -> tuple[Change, ...]:
        """What was written after that."""
        from panewright.ledger.changes import since

        return since(self.ledger, since_number)


def _refuse_strange(number: str) -> None:
    """An order's number becomes part of an address."""
    if not NUMBER.fullmatch(number):
        cure = "Write letters, figures, points and dashes, 30 at most, such as B-12."
        problem = Problem("This is no number for an order.", cure, key="number", value=number[:40])
        raise RecordError([problem])


def _plain(typed: str) -> str:
    return " ".join(typed.split())


def _listed(order: OrderVersion, serials: int) -> Listed:
    said = _job(order.text)
    return Listed(
        order.number,
        said.get("name") or "no name yet",
        said.get("customer", ""),
        said.get("panels", "1"),
        order.version,
        serials,
        order.by,
        order.at,
    )


def _job(text: str) -> dict[str, str]:
    """What the text says of the job, as far as it can be read."""
    try:
        table = tomllib.loads(text).get("order", {})
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return {}
    return {key: str(value) for key, value in table.items()} if isinstance(table, dict) else {}
