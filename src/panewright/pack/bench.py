"""What every step needs to know: the design, the work, and how this order writes numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from panewright.drawing.dimension import figure_digits
from panewright.panel.design import Design
from panewright.price.offers.quote import Quote
from panewright.structure.drilling.drill import drill_words
from panewright.units import INCH_MM, THIN, figure, show

SMALL_KG = 0.1  #: under it a mass is told in grams or ounces
OUNCE_KG = 0.45359237 / 16
_FINEST = 64  #: parts of an inch on a fine rule


@dataclass(frozen=True, slots=True)
class Bench:
    """A design and its quote, as the steps read them."""

    design: Design
    quote: Quote

    def say(self, value: float, unit: str, digits: int = 3) -> str:
        """A figure in the order's units."""
        return show(value, unit, self.design.order.job.units, digits)

    def size(self, length_mm: float) -> str:
        """A length as a drawing dimensions it: no digit that says nothing."""
        return told(length_mm, self.design.order.job.units)

    def off(self, length_mm: float) -> str:
        """How far a hand may be off, in inches down to a rule's 1/64; a finer one as it is."""
        parts = math.floor(length_mm / INCH_MM * _FINEST + 1e-9)
        if self.design.order.job.units != "us" or parts < 1:
            return self.size(length_mm)
        return f"{Fraction(parts, _FINEST)}{THIN}in ({figure(parts / _FINEST * INCH_MM, 2)}{THIN}mm)"

    def drill(self, hole_mm: float) -> str:
        """The drill for a hole."""
        return drill_words(hole_mm, self.design.order.job.units)

    def mass(self, mass_kg: float) -> str:
        """Kilograms or pounds; of small things whole grams, or tenths of an ounce; never nothing."""
        if mass_kg >= SMALL_KG:
            return self.say(mass_kg, "kg")
        least, unit, kg, digits = (1, "g", 0.001, 0) if self._metric else (0.1, "oz", OUNCE_KG, 1)
        if 0 < mass_kg / kg < least / 2:
            return f"under {least}{THIN}{unit}"
        return f"{mass_kg / kg:.{digits}f}{THIN}{unit}"

    @property
    def _metric(self) -> bool:
        return self.design.order.job.units == "metric"

    def heat(self, celsius: float) -> str:
        """A round temperature in the order's units."""
        return self.say(celsius, "degC", 2)

    @property
    def sun(self) -> str:
        """STC as one says it at the bench."""
        return f"full sun, {self.heat(25.0)}"

    def minutes(self, *beginnings: str) -> float:
        """Minutes for one panel of all work whose name begins so."""
        return float(round(self._minutes(beginnings) / self.design.order.job.panels))

    def minutes_once(self, *beginnings: str) -> float:
        """Minutes of work that is done once, however many panels there are; by each who builds from a kit."""
        of_builder = any(each.step.startswith(beginnings) for each in self.quote.customer_work)
        return float(self._minutes(beginnings) / (self.design.order.job.panels if of_builder else 1))

    def _minutes(self, beginnings: tuple[str, ...]) -> Decimal:
        work = (*self.quote.work, *self.quote.customer_work)
        return sum((each.minutes for each in work if each.step.startswith(beginnings)), Decimal(0))


def told(length_mm: float, system: str) -> str:
    """A length as a dimension tells it.

    >>> told(156.75, "metric"), told(3.0, "metric")
    ('156.75\u2009mm', '3\u2009mm')
    """
    return show(length_mm, "mm", system, figure_digits(length_mm))


def sawn_mm(length_mm: float) -> float:
    """What a saw's fence is set to, alike in words, tables and drawings: to a tenth. [mm]

    >>> sawn_mm(911.225)
    911.2
    """
    return round(length_mm, 1)


def by_rule(length_mm: float, system: str) -> str:
    """A length that a hand checks with a rule or a tape, to the half millimetre that can be read there.

    >>> by_rule(1369.5473, "metric"), by_rule(1872.74, "metric")
    ('1369.5\u2009mm', '1872.5\u2009mm')
    """
    return told(round(2.0 * length_mm) / 2.0, system)


def count(number: int, noun: str, nouns: str = "") -> str:
    """A number with its noun.

    >>> count(1, "cell"), count(4, "cell"), count(2, "box", "boxes")
    ('1 cell', '4 cells', '2 boxes')
    """
    return f"{number} {noun if number == 1 else nouns or noun + 's'}"


def listed(words: tuple[str, ...] | list[str]) -> str:
    """Words as a list in a sentence.

    >>> listed(["red", "black", "green"])
    'red, black and green'
    """
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else "".join(words)
