"""Units: what a person writes becomes a number once, and a number becomes words in one way."""

from panewright.units.reading import KINDS, UnitError, read, read_exact, written
from panewright.units.scale import GRAVITY_M_S2, INCH_MM, KELVIN, MM, PCF_N_M3, POUND_FORCE_N, PSF_PA
from panewright.units.showing import THIN, against, figure, show

__all__ = [
    "GRAVITY_M_S2",
    "INCH_MM",
    "KELVIN",
    "KINDS",
    "MM",
    "PCF_N_M3",
    "POUND_FORCE_N",
    "PSF_PA",
    "THIN",
    "UnitError",
    "against",
    "figure",
    "read",
    "read_exact",
    "show",
    "written",
]
