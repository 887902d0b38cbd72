"""An order's text becomes an `Order`, or every mistake in it at once."""

from __future__ import annotations

from panewright.errors import OrderError, Problem
from panewright.order.answers import Answers
from panewright.order.order import Order
from panewright.order.sections.cell import read_cell
from panewright.order.sections.closing import read_closing
from panewright.order.sections.crate import read_crate
from panewright.order.sections.job import read_job
from panewright.order.sections.layout import read_wishes
from panewright.order.sections.load import read_load
from panewright.order.sections.money import read_hands, read_kit, read_money
from panewright.order.sections.mounting import read_mounting
from panewright.order.sections.parts import read_parts
from panewright.order.sections.site import read_site
from panewright.order.sections.stocked import read_stocked
from panewright.order.source import decoded, read_source
from panewright.shelf.shelf import Shelf


def parse_bytes(data: bytes, file: str, shelf: Shelf) -> Order:
    """The order in a file's bytes; OrderError tells every mistake, also where it is no text at all."""
    return parse_order(decoded(data, file), file, shelf)


def parse_order(text: str, file: str, shelf: Shelf) -> Order:
    """The order in a text; OrderError tells every mistake with its line, reason and cure."""
    answers = Answers(read_source(text, file))
    job, load, cell = read_job(answers, shelf), read_load(answers), read_cell(answers, shelf)
    site, wishes = read_site(answers), read_wishes(answers)
    mounting = read_mounting(answers, shelf, site)
    parts = read_parts(answers, shelf)
    read_stocked(answers, shelf, parts)
    crate, money = read_crate(answers, shelf, parts), read_money(answers, shelf)
    closing = read_closing(answers, parts.encapsulation)
    kit, hands = read_kit(answers), read_hands(answers)
    if answers.problems or cell is None:
        raise OrderError(sorted(answers.problems, key=_place))
    assumed = tuple(answers.assumptions.values())
    return Order(
        job, load, cell, site, wishes, mounting, parts, crate, money, assumed, text, closing, kit, hands
    )


def _place(problem: Problem) -> tuple[int, str]:
    return problem.line or 1_000_000_000, problem.key
