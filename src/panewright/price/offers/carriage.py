"""Carriage as a line of an offer: what the order states, or what was reckoned from the crate.

Nobody guesses a charge: where neither the order nor a carrier's tariff has one, the line says that it is to
be asked, and no sum holds it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from panewright.order.terms import Terms

UNKNOWN = "to be asked"


@dataclass(frozen=True, slots=True)
class Carriage:
    """What sending the whole order costs, without tax."""

    words: str  #: such as 'carriage by freight'
    cost: Decimal | None  #: None where it is to be asked
    goods: str = ""  #: what is sent: how many crates, sizes, mass, mass by volume
    because: str = ""  #: why so


def carriage_of(terms: Terms, reckoned: Carriage | None = None) -> Carriage | None:
    """The order's own figure before a reckoned one; None where nobody knows it.

    >>> carriage_of(Terms(carriage=Decimal(60)), Carriage("carriage by freight", Decimal(109), "one crate"))
    Carriage(words='carriage', cost=Decimal('60'), goods='one crate', because='')
    """
    if terms.carriage is None:
        return reckoned
    known = reckoned or Carriage("", None)
    return replace(known, words="carriage", cost=terms.carriage, because="")
