"""Which drill makes a hole: the size itself in millimetres, or the nearest common one of an inch set.

A hole is made at most a hair too small for what goes through it, and no wider than it must be. Sixty-fourths
of an inch lie 0.4 mm apart; where the nearest of them is too far off, a drill by number is taken.

Numbers and their inches: the twist drill gauge of ANSI B94.11M (recalled).
"""

from __future__ import annotations

import math
from fractions import Fraction

from panewright.drawing.dimension import figure_digits
from panewright.units import INCH_MM, THIN, show

TIGHT_MM = 0.06  #: a hole may be so much too small; common practice
FAR_MM = 0.12  #: farther off, a drill by number is looked for; common practice
_PARTS = 64
_GAUGE_IN = (
    *(0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935),
    *(0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610),
    *(0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285),
)  #: numbers 1 to 30


def drill_words(hole_mm: float, system: str) -> str:
    """The drill for a hole as an order's papers name it.

    >>> [drill_words(mm, "us").replace("\\u2009", " ") for mm in (5.5, 6.0, 6.6)]
    ['7/32 in (5.5 mm)', '15/64 in (6 mm)', '17/64 in (6.6 mm)']
    >>> [drill_words(mm, "us").replace("\\u2009", " ") for mm in (4.5, 4.9)], drill_words(6.6, "metric")
    (['No. 16 (4.5 mm)', 'No. 11 (4.9 mm)'], '6.6\\u2009mm')
    """
    metric = show(hole_mm, "mm", "metric", figure_digits(hole_mm))
    return metric if system != "us" else f"{_inch_drill(hole_mm)[0]} ({metric})"


def drill_mm(hole_mm: float, system: str) -> float:
    """Diameter of that drill. [mm]"""
    return hole_mm if system != "us" else _inch_drill(hole_mm)[1]


def _inch_drill(hole_mm: float) -> tuple[str, float]:
    """The least drill that is wide enough: of the fractions, or of the numbers where that is far too wide."""
    enough = hole_mm - TIGHT_MM
    parts = math.ceil(enough / INCH_MM * _PARTS)
    wide_mm = parts / _PARTS * INCH_MM
    fit = [(inches * INCH_MM, n) for n, inches in enumerate(_GAUGE_IN, 1) if inches * INCH_MM >= enough]
    if wide_mm - hole_mm > FAR_MM and fit and min(fit)[0] < wide_mm:
        return f"No. {min(fit)[1]}", min(fit)[0]
    return f"{_mixed(Fraction(parts, _PARTS))}{THIN}in", wide_mm


def _mixed(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    return " ".join(str(part) for part in (whole, rest) if part)
