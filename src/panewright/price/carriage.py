"""Carriage as a line of an offer: what the order states, or what somebody reckoned from the crate."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.order.terms import Terms


@dataclass(frozen=True, slots=True)
class Carriage:
    """What sending the whole order costs, without tax."""

    words: str  #: such as 'one crate by freight'
    cost: Decimal


def carriage_of(terms: Terms, reckoned: Carriage | None = None) -> Carriage | None:
    """The order's own figure before a reckoned one; None where nobody knows it."""
    if terms.carriage is not None:
        return Carriage("packing and carriage", terms.carriage)
    return reckoned
