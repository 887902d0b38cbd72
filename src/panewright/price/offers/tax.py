"""From the price without tax to what is to pay, and back to what of it is tax.

    told without tax   to pay = net + tax,  tax = net × rate, rounded half up to cents once, on the whole
    told with tax      each = net each × (1 + rate), rounded half up to cents; carriage likewise;
                       to pay = each × panels + carriage; tax = to pay × rate / (1 + rate), rounded half up;
                       net is what is left

So an offer adds up by hand in either way. The two ways may differ by cents; both are usual. Which one is
lawful for whom, and whether any tax is due, the maker's own country decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.order.terms import Tax
from panewright.price.money import cents


@dataclass(frozen=True, slots=True)
class Payable:
    """What is to pay for so many panels."""

    panels: int
    each: Decimal  #: as it is told: with or without tax
    carriage: Decimal | None  #: told in the same way; None where it is not offered
    net: Decimal
    tax: Decimal
    total: Decimal  #: to pay

    @property
    def goods(self) -> Decimal:
        """All panels, as the price is told."""
        return self.each * self.panels


def payable(net_each: Decimal, panels: int, carriage: Decimal | None, tax: Tax | None) -> Payable:
    """What is to pay.

    >>> made = payable(Decimal("100.00"), 3, None, Tax("VAT", Decimal("0.19")))
    >>> made.net, made.tax, made.total
    (Decimal('300.00'), Decimal('57.00'), Decimal('357.00'))
    """
    if tax is not None and tax.included:
        return _with_tax(net_each, panels, carriage, tax)
    net = net_each * panels + (carriage or Decimal(0))
    due = cents(net * tax.rate) if tax else Decimal("0.00")
    return Payable(panels, net_each, carriage, net, due, net + due)


def _with_tax(net_each: Decimal, panels: int, carriage: Decimal | None, tax: Tax) -> Payable:
    each = cents(net_each * (1 + tax.rate))
    sent = None if carriage is None else cents(carriage * (1 + tax.rate))
    total = each * panels + (sent or Decimal(0))
    due = cents(total * tax.rate / (1 + tax.rate))
    return Payable(panels, each, sent, total - due, due, total)


@dataclass(frozen=True, slots=True)
class Deposit:
    """What is due when ordering, and what later."""

    now: Decimal
    later: Decimal


def deposit(total: Decimal, share: Decimal) -> Deposit | None:
    """A share of what is to pay, rounded half up to cents; None where none is asked.

    >>> deposit(Decimal("357.00"), Decimal("0.4"))
    Deposit(now=Decimal('142.80'), later=Decimal('214.20'))
    """
    if share <= 0:
        return None
    now = cents(total * share)
    return Deposit(now, total - now)
