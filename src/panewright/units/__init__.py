"""Units: what a person writes becomes a number once, and a number becomes words in one way."""

from panewright.units.reading import KINDS, UnitError, read, read_exact, written
from panewright.units.scale import INCH_MM, KELVIN, MM
from panewright.units.showing import THIN, figure, show

__all__ = [
    "INCH_MM",
    "KELVIN",
    "KINDS",
    "MM",
    "THIN",
    "UnitError",
    "figure",
    "read",
    "read_exact",
    "show",
    "written",
]
