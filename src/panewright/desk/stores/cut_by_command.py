"""A cutting plan by command: order files, and what lies in a shop; nothing is kept or ticked there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from panewright.desk.own_shelf import own_shelf
from panewright.desk.stores.cut_papers import paper, words
from panewright.desk.stores.cut_plan import Asked, Job, Plan, proven
from panewright.desk.stores.cutting import planned
from panewright.errors import OrderError, Problem
from panewright.price.buying.cuts_together import Tools

__all__ = ["plan", "sure", "words", "write"]


def plan(
    files: Sequence[tuple[str, bytes]], shop: Path | None, stage: Callable[[str], None], *, buys_sheets: bool
) -> Plan:
    """One plan over the orders in these files; `OrderError` with every mistake of all of them.

    `stage` hears what is done next, a sentence each. With `buys_sheets` whole sheets are bought for every
    front that may be cut, also where the order has it cut to size by who sells it.
    """
    orders = _orders(files)
    if shop is None:
        return planned(Job(orders, (), Tools(), buys=True, cut=(), buys_sheets=buys_sheets), stage)
    from panewright.desk.records.place import opened, place
    from panewright.desk.stores.cutting import tools_now
    from panewright.desk.stores.racks import sources
    from panewright.ledger.stores.cuts import pieces_cut

    with opened(place(shop)) as ledger:
        numbers = {each.number for each in orders}
        mine = tuple(each for each in pieces_cut(ledger) if each.order in numbers)
        there, tools = sources(ledger), tools_now(ledger)
    told = Job(orders, there, tools, buys=True, cut=mine, buys_sheets=buys_sheets)
    return planned(told, stage)


def _orders(files: Sequence[tuple[str, bytes]]) -> tuple[Asked, ...]:
    """Every order by its number; two files of one number are told apart by their names."""
    from panewright.order.parse import parse_bytes

    shelf, found, problems = own_shelf(), list[Asked](), list[Problem]()
    for name, data in files:
        try:
            order = parse_bytes(data, name, shelf)
        except OrderError as mistake:
            problems += mistake.problems
            continue
        taken = any(each.number == order.job.number for each in found)
        found.append(Asked(name if taken else order.job.number, order.text))
    if problems:
        raise OrderError(problems)
    return tuple(found)


def write(made: Plan, folder: Path) -> tuple[str, ...]:
    """The plan as pages and as a list; the names of the files."""
    from panewright.desk.folder import write_all

    files = {f"cutting.{kind}": paper(0, made, kind) for kind in ("pdf", "csv")}
    write_all(folder, files)
    return tuple(files)


def sure(made: Plan) -> bool:
    """Whether everything that can be cut is in the plan and proven to hold, and no other costs less."""
    return all(proven(made).values()) and not made.notes and not made.unproven
