"""Whose an order is: customers as a page shows them and as a hand writes them down."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import asdict
from typing import TYPE_CHECKING

from panewright.desk.stores.shelved import line_of, short_of
from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger
    from panewright.ledger.orders.customers import Customer, Known

_MARK = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,29}")


def every(ledger: Ledger) -> tuple[Customer, ...]:
    """The customers written down last."""
    from panewright.ledger.orders.customers import customers

    return customers(ledger)


def of_order(ledger: Ledger, number: str) -> Customer | None:
    """The customer of an order; None where nobody said."""
    from panewright.ledger.orders.customers import customer_of, find_customer

    mark = customer_of(ledger, number)
    return find_customer(ledger, mark) if mark else None


def known(ledger: Ledger, mark: str) -> Known:
    """Everything the records hold of a customer."""
    from panewright.ledger.orders.customers import all_of_customer

    return all_of_customer(ledger, mark)


def taken_along(ledger: Ledger, mark: str) -> bytes:
    """The same as a JSON file, to be handed out."""
    told = json.dumps(asdict(known(ledger, mark)), indent=1, default=str, ensure_ascii=False)
    return f"{told}\n".encode()


def keep(ledger: Ledger, typed: Mapping[str, str], hand: Who) -> Customer:
    """A customer written down, or anew; `StaleError` where somebody else did so meanwhile."""
    from panewright.ledger.orders.customers import Person, save_customer

    mark = typed.get("mark", "").strip()
    if not _MARK.fullmatch(mark):
        cure = "Write letters, figures, points and dashes, 30 at most, such as K-7."
        raise RecordError([Problem("This is no mark for a customer.", cure, key="mark", value=mark[:40])])
    seen = int(typed["seen"]) if typed.get("seen", "").isdecimal() else 0
    rest = {name: short_of(typed, name) for name in ("address", "mail", "phone")}
    person = Person(line_of(typed, "name"), **rest)
    return save_customer(ledger, mark, person, seen=seen, by=hand.by, at=hand.at, tap=hand.tap)


def give(ledger: Ledger, number: str, mark: str, hand: Who) -> None:
    """Say whose an order is."""
    from panewright.ledger.orders.customers import order_is_for

    tap = f"{hand.tap}o" if hand.tap else ""
    order_is_for(ledger, number, mark, by=hand.by, at=hand.at, tap=tap)
