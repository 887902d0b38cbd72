"""Money is Decimal, in one currency, and is rounded in one place.

Every sum that is shown or added is rounded half up to cents first, so that a list adds up by hand to
the figure under it. Quantities are measured and come as floats; they turn into Decimal here, once,
before they meet a price. No price is ever a float.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

CENT = Decimal("0.01")
_DIGITS = 9  #: of a step, past which an amount says nothing


def cents(amount: Decimal) -> Decimal:
    """The amount rounded half up to cents.

    >>> cents(Decimal("1.005"))
    Decimal('1.01')
    """
    return amount.quantize(CENT, rounding=ROUND_HALF_UP)


def exact(quantity: float) -> Decimal:
    """A measured quantity as Decimal, to a millionth of its unit.

    >>> exact(0.1 + 0.2)
    Decimal('0.3')
    """
    return Decimal(repr(round(quantity, 6))).normalize() + Decimal(0)


def up_to(quantity: Decimal, step: Decimal) -> Decimal:
    """The quantity raised to the next whole number of steps, as a shop sells it.

    A share of a crate times the panels in it may miss the whole by a last digit: that buys no further step.

    >>> up_to(Decimal("4.2"), Decimal(1))
    Decimal('5')
    >>> up_to(Decimal("1.31"), Decimal("0.05"))
    Decimal('1.35')
    """
    steps = round(quantity / step, _DIGITS)
    return steps.to_integral_value(rounding=ROUND_CEILING) * step


def whole(money: Decimal, currency: str) -> str:
    """Money at a glance, to the whole unit: '1235 EUR'.

    >>> whole(Decimal("1234.50"), "EUR")
    '1235\u2009EUR'
    """
    return f"{money.quantize(Decimal(1), rounding=ROUND_HALF_UP)}\u2009{currency}"


def amount(money: Decimal, currency: str) -> str:
    """Money as it is written everywhere: figure, thin space, currency.

    >>> amount(Decimal("1234.5"), "EUR")
    '1\\u2009234.50\\u2009EUR'
    """
    figure = f"{cents(money):,.2f}".replace(",", "\u2009")
    return f"{figure}\u2009{currency}" if currency else figure
