"""Amounts that the shelf sells by metric measure, as an order in US customary units reads them.

What is bought and what it costs stay as they are; only how the page writes them changes, and the price of
one foot is that of a metre times 0.3048, rounded.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Units = Literal["metric", "us"]


@dataclass(frozen=True, slots=True)
class Measure:
    """How an amount is written: by which unit, and how much of the shelf's measure one such unit is."""

    name: str
    of_one: Decimal = Decimal(1)
    finest: Decimal = Decimal("0.01")  #: amounts are written to this

    def amount(self, shelf: Decimal) -> Decimal:
        """An amount in this unit. [name]"""
        return (shelf / self.of_one).quantize(self.finest).normalize()

    def price(self, shelf: Decimal) -> Decimal:
        """The price of one such unit."""
        return shelf * self.of_one


_METRIC = {
    "each": Measure(""),
    "metre": Measure("m"),
    "square metre": Measure("m²"),
    "kilogram": Measure("kg"),
    "litre": Measure("l"),
}
_FINE = {
    "kilogram": Measure("g", Decimal("0.001"), Decimal(1)),
    "litre": Measure("ml", Decimal("0.001"), Decimal(1)),
}
_US = {
    "each": Measure(""),
    "metre": Measure("ft", Decimal("0.3048"), Decimal("0.1")),
    "square metre": Measure("ft²", Decimal("0.09290304"), Decimal("0.1")),
    "kilogram": Measure("lb", Decimal("0.45359237")),
    "litre": Measure("fl oz", Decimal("0.0295735295625")),
}


def counted(amount: Decimal, sold_by: str, units: Units) -> str:
    """An amount with its unit, a sign or a word; words have their plural.

    >>> counted(Decimal(4), "cartridge", "metric"), counted(Decimal(10), "metre", "metric")
    ('4\\u2009cartridges', '10\\u2009m')
    """
    by = measure(sold_by, units)
    number = by.amount(amount)
    word = by.name == sold_by and by.name not in ("", "each")
    name = f"{by.name}s" if word and number != 1 and not by.name.endswith("s") else by.name
    return f"{number:f}\u2009{name}" if name else f"{number:f}"


def finely(amount: Decimal, sold_by: str, units: Units) -> str:
    """The same of what is measured out at the bench: less than a kilogram in grams, a litre in millilitres.

    >>> finely(Decimal("0.04"), "litre", "metric"), finely(Decimal("1.2"), "kilogram", "metric")
    ('40\\u2009ml', '1.2\\u2009kg')
    """
    fine = _FINE.get(sold_by) if units == "metric" and amount < 1 else None
    if fine is None:
        return counted(amount, sold_by, units)
    return f"{max(fine.amount(amount), fine.finest):f}\u2009{fine.name}"


def measure(sold_by: str, units: Units) -> Measure:
    """How amounts sold so are written in the order's units.

    >>> measure("metre", "us").amount(Decimal("3.048")), measure("cartridge", "us").name
    (Decimal('1E+1'), 'cartridge')
    """
    return (_US if units == "us" else _METRIC).get(sold_by, Measure(sold_by))
