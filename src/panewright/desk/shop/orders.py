"""The orders of an open shop: listed, begun, answered key by key, and taken back."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from itertools import islice
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError, StaleError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.orders.orders import OrderVersion, Which

NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,29}")
_TRIES = 6
_AT_ONCE = 100  #: orders that are looked through


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


class Orders:
    """What an open shop does with its orders."""

    ledger: Ledger

    def orders(
        self, most: int = 40, skip: int = 0, *, which: Which = "all", find: str = ""
    ) -> tuple[Listed, ...]:
        """The orders saved last: all, those still open, or those delivered and called off.

        `find` is in an order's number, name or customer.
        """
        if not find:
            return tuple(self._leaf(most, skip, which=which))
        met = islice(self._met(find, which), skip, skip + most)
        return tuple(met)

    def _met(self, find: str, which: Which) -> Iterator[Listed]:
        """What is sought, as far as somebody asks: the records look through texts, remarks are sorted out."""
        first, wanted = 0, find.casefold()
        while leaf := list(self._leaf(_AT_ONCE, first, which=which, find=find)):
            for each in leaf:
                if any(wanted in words.casefold() for words in (each.number, each.name, each.customer)):
                    yield each
            first += _AT_ONCE

    def _leaf(self, most: int, skip: int, *, which: Which, find: str = "") -> Iterator[Listed]:
        from panewright.ledger.orders.orders import find_order, orders

        for each in orders(self.ledger, most=most, skip=skip, which=which, find=find):
            yield _listed(find_order(self.ledger, each.number), each.serials)

    def next_number(self) -> str:
        """The first whole number that no order bears."""
        from panewright.ledger.orders.orders import numbers

        taken = numbers(self.ledger)
        return next(str(n) for n in range(1, len(taken) + 2) if str(n) not in taken)

    def order(self, number: str) -> OrderVersion:
        """An order as it stands."""
        from panewright.ledger.orders.orders import find_order

        return find_order(self.ledger, number)

    def begin_order(self, number: str, name: str, who: Who) -> OrderVersion:
        """A new order from the commented one; an order that is there already is never touched."""
        from panewright import desk
        from panewright.desk.orders.form import edited

        _refuse_strange(number)
        text = edited(desk.new_order(), "order.number", number)
        text = edited(text, "order.name", name) if name.strip() else text
        return self._save(number, text, 0, who)

    def take_order(self, text: str, who: Who) -> OrderVersion:
        """An order that was written elsewhere, under its own number."""
        from panewright.desk.orders.form import value_of

        number = value_of(text, "order.number") or "1"
        _refuse_strange(number)
        return self._save(number, text, 0, who)

    def say(self, number: str, key: str, typed: str, was: str, who: Who) -> OrderVersion | Theirs:
        """One answer in an order; what another screen wrote to the same key meanwhile is told, not lost."""
        from panewright.desk.orders.form import edited, value_of

        if key == "order.number" and typed.strip() != number:
            raise _another_number(number, typed)
        for _ in range(_TRIES):
            stands = self.order(number)
            now = value_of(stands.text, key)
            if now == _plain(typed):
                return stands
            if now != _plain(was) and not self.written(who.tap):
                return Theirs(key, now, typed, stands.by)
            try:
                return self._save(number, edited(stands.text, key, typed), stands.version, who)
            except StaleError:
                continue
        raise RecordError([Problem("Too many write to this order at once.", "Try again.", key=key)])

    def write_text(self, number: str, text: str, seen: int, who: Who) -> OrderVersion:
        """The whole text of an order; `StaleError` with what stands where another screen was faster."""
        said = _job(text).get("number") or number
        if said != number:
            raise _another_number(number, said)
        return self._save(number, text, seen, who)

    def earlier(self, number: str, version: int, who: Who) -> OrderVersion:
        """An earlier text once more, as the newest version."""
        from panewright.ledger.orders.orders import versions

        known = {each.version: each for each in versions(self.ledger, number)}
        if version not in known:
            raise RecordError(
                [Problem("There is no such version.", "Choose one of the list.", key="version")]
            )
        return self._save(number, known[version].text, max(known), who)

    def versions(self, number: str) -> tuple[OrderVersion, ...]:
        """Every version of an order, oldest first."""
        from panewright.ledger.orders.orders import versions

        return versions(self.ledger, number)

    def _save(self, number: str, text: str, seen: int, who: Who) -> OrderVersion:
        from panewright.ledger.orders.orders import save_order

        return save_order(self.ledger, number, text, seen=seen, by=who.by, at=who.at, tap=who.tap)

    def written(self, tap: str) -> bool:
        """Whether this tap is in the records already."""
        from panewright.ledger.changes import tapped

        return bool(tap) and tapped(self.ledger, tap)


def _refuse_strange(number: str) -> None:
    """An order's number becomes part of an address."""
    if not NUMBER.fullmatch(number):
        cure = "Write letters, figures, points and dashes, 30 at most, such as B-12."
        problem = Problem("This is no number for an order.", cure, key="number", value=number[:40])
        raise RecordError([problem])


def _another_number(number: str, said: str) -> RecordError:
    cure = f"It is kept as {number}. Begin a new order for another number."
    return RecordError([Problem("An order keeps its number.", cure, key="order.number", value=said[:40])])


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
