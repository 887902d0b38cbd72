"""Who ordered; kept apart from the technical record. How they are erased stands in `erasing.py`."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, exists, select
from sqlalchemy.orm import aliased

from panewright.ledger.asking import Wanted, all_of, first_of
from panewright.ledger.open import Ledger
from panewright.ledger.stale import refuse_stale
from panewright.ledger.tables.customers import CustomerRow as Customers
from panewright.ledger.tables.customers import DetailRow as Details
from panewright.ledger.tables.customers import OrderCustomerRow as Whose
from panewright.ledger.tables.orders import OrderRow as Orders
from panewright.ledger.tables.repairs import ClaimRow as Claims
from panewright.ledger.tables.serials import SerialRow as Serials
from panewright.ledger.writing import add, known, unknown, write


@dataclass(frozen=True, slots=True)
class Person:
    """What the shop knows of a customer."""

    name: str
    address: str = ""
    mail: str = ""
    phone: str = ""


@dataclass(frozen=True, slots=True)
class Customer:
    """A customer as somebody wrote them down. `mark` is the shop's own and tells nothing of the person."""

    mark: str
    version: int
    person: Person
    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Known:
    """Everything the records hold of a customer: what is handed out on request."""

    mark: str
    versions: tuple[Customer, ...]  #: newest first
    orders: tuple[str, ...]
    serials: tuple[str, ...]
    claims: tuple[str, ...]  #: in the customer's words


def save_customer(
    ledger: Ledger, mark: str, person: Person, *, seen: int, by: str, at: datetime, tap: str = ""
) -> Customer:
    """Write a customer down, or anew; `seen` is the version looked at, 0 for a new customer."""

    def work(db: Connection) -> int:
        stands = first_of(db, _customers().where(Customers.mark == mark), _customer)
        refuse_stale("customer", mark, seen=seen, stands=stands)
        key = db.scalar(select(Customers.id).where(Customers.mark == mark))
        key = key or add(db, Customers, mark=mark, who=by, at=at)
        told = {field: getattr(person, field) for field in Person.__dataclass_fields__}
        return add(db, Details, customer_id=key, version=seen + 1, who=by, at=at, **told)

    row = write(ledger, work, kind="customer", key=mark, at=at, tap=tap)
    with ledger.reading() as db:
        return _found(mark, first_of(db, _customers().where(Details.id == row), _customer))


def find_customer(ledger: Ledger, mark: str) -> Customer:
    """A customer as written down last; blank where they were erased."""
    with ledger.reading() as db:
        return _found(mark, first_of(db, _customers().where(Customers.mark == mark), _customer))


def customers(ledger: Ledger, *, most: int = 200) -> tuple[Customer, ...]:
    """The customers written down last, newest first."""
    after = aliased(Details)
    newer = exists().where(after.customer_id == Details.customer_id, after.version > Details.version)
    wanted = _customers().where(~newer).order_by(None).order_by(Details.id.desc())
    with ledger.reading() as db:
        return all_of(db, wanted.limit(most), _customer)


def order_is_for(ledger: Ledger, order: str, mark: str, *, by: str, at: datetime, tap: str = "") -> None:
    """Say whose an order is."""

    def work(db: Connection) -> int:
        keys = {
            "order_id": known(db, Orders.number, order, "order"),
            "customer_id": known(db, Customers.mark, mark, "customer"),
        }
        return add(db, Whose, who=by, at=at, **keys)

    write(ledger, work, kind="order", key=order, at=at, tap=tap)


def customer_of(ledger: Ledger, order: str) -> str | None:
    """The mark of the customer an order is for."""
    wanted = (
        select(Customers.mark)
        .join(Whose, Whose.customer_id == Customers.id)
        .join(Orders, Whose.order_id == Orders.id)
        .where(Orders.number == order)
        .order_by(Whose.id.desc())
    )
    with ledger.reading() as db:
        return db.scalar(wanted.limit(1))


def all_of_customer(ledger: Ledger, mark: str) -> Known:
    """Everything the records hold of a customer."""
    with ledger.reading() as db:
        key = known(db, Customers.mark, mark, "customer")
        versions = all_of(db, _customers().where(Customers.id == key), _customer)
        theirs = orders_of(db, key)
        serials = select(Serials.serial).where(Serials.order_id.in_(theirs)).order_by(Serials.id)
        claims = select(Claims.words).join(Serials, Claims.serial_id == Serials.id)
        return Known(
            mark,
            versions,
            tuple(db.scalars(select(Orders.number).where(Orders.id.in_(theirs)).order_by(Orders.id))),
            tuple(db.scalars(serials)),
            tuple(db.scalars(claims.where(Serials.order_id.in_(theirs)).order_by(Claims.id))),
        )


def orders_of(db: Connection, customer_id: int) -> list[int]:
    """The ids of the orders that are, or once were, a customer's."""
    return list(db.scalars(select(Whose.order_id).where(Whose.customer_id == customer_id).distinct()))


def customer_of_order(db: Connection, order_id: int) -> int | None:
    """The id of the customer an order is for now."""
    wanted = select(Whose.customer_id).where(Whose.order_id == order_id).order_by(Whose.id.desc())
    return db.scalar(wanted.limit(1))


def _customers() -> Wanted:
    """Versions of customers, newest first."""
    told = [getattr(Details, field) for field in Person.__dataclass_fields__]
    return (
        select(Customers.mark, Details.version, Details.who, Details.at, *told)
        .join(Customers, Details.customer_id == Customers.id)
        .order_by(Details.version.desc())
    )


def _customer(mark: str, version: int, by: str, at: datetime, *told: str) -> Customer:
    return Customer(mark, version, Person(*told), by, at)


def _found(mark: str, found: Customer | None) -> Customer:
    if found is None:
        raise unknown("customer", mark)
    return found
