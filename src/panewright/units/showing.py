"""A number becomes words, in one way for every page and screen."""

from __future__ import annotations

import math
from fractions import Fraction

from panewright.units.scale import INCH_MM, KSI, POUND_N, PSF

THIN = "\u2009"  #: the thin space between a figure and its unit
_SIGN_OF = {"degC": "°C", "degF": "°F", "deg": "°", "ohm": "Ω", "mm2": "mm²", "m2": "m²", "in2": "in²"}
_SIGN_OF |= {
    "kg/m2": "kg/m²",
    "W/m2": "W/m²",
    "cm2": "cm²",
    "mm3": "mm³",
    "ft2": "ft²",
    "kg/m3": "kg/m³",
    "lb/ft3": "lb/ft³",
}
_SIGN_OF |= {"ohm/m": "Ω/m", "mohm": "mΩ", "Mohm": "MΩ", "N/m3": "N/m³", "lbf/ft3": "lbf/ft³"}
_US = {
    "Pa": ("psf", 1 / float(Fraction(PSF))),
    "kPa": ("psf", 1000 / float(Fraction(PSF))),
    "MPa": ("ksi", 1e6 / float(Fraction(KSI))),
    "N": ("lbf", 1 / float(POUND_N)),
    "N/m": ("lbf/ft", 0.3048 / float(POUND_N)),
    "N/m3": ("lbf/ft3", 0.3048**3 / float(POUND_N)),
    "N m": ("lbf ft", 1 / float(POUND_N) / 0.3048),
    "kg": ("lb", 1 / 0.45359237),
    "kg/m2": ("psf", 9.80665 / float(Fraction(PSF))),
    "kg/m3": ("lb/ft3", 0.3048**3 / 0.45359237),
    "m/s": ("mph", 1 / 0.44704),
    "m": ("ft", 1 / 0.3048),
    "m2": ("ft2", 1 / 0.3048**2),
    "J": ("ft lbf", 1 / 1.3558179483314004),
    "ml": ("fl oz", 1 / 29.5735295625),
}
_FINEST = 32  # parts of an inch on a shop rule
_MOST_DIGITS = 8
_LEASTKSI = 0.1  # smaller stresses read in psi


def show(value: float, unit: str, system: str = "metric", digits: int = 3) -> str:
    """A figure with its unit, as every page and screen writes it; never rounds before the decimal point.

    In 'us' a size in mm becomes inches to 1/32 with the millimetres beside, a small stress psi.

    >>> show(38.1, "mm", "us"), show(1565.0, "mm"), show(0.25, "V")
    ('1 1/2\\u2009in (38.1\\u2009mm)', '1565\\u2009mm', '0.250\\u2009V')
    """
    if system == "us" and math.isfinite(value):
        if unit == "mm":
            return f"{_inches(value)} ({_with_unit(value, 'mm', digits)})"
        if unit == "mm2":
            return f"{_with_unit(value / INCH_MM**2, 'in2', digits)} ({_with_unit(value, 'mm2', digits)})"
        if unit == "degC":
            return _with_unit(value * 9 / 5 + 32, "degF", digits)
        if unit in _US:
            name, factor = _US[unit]
            if name == "ksi" and 0 < abs(value * factor) < _LEASTKSI:
                name, factor = "psi", 1000 * factor
            return _with_unit(value * factor, name, digits)
    return _with_unit(value, unit, digits)


def against(
    demand: float, limit: float, unit: str, system: str = "metric", digits: int = 3
) -> tuple[str, str]:
    """Demand and limit with their unit; a demand past its limit never reads the same as the limit.

    >>> against(1.0004, 1.0, "1"), against(0.998, 1.0, "1")
    (('1.0004', '1.0000'), ('0.998', '1.00'))
    >>> against(10300.000000000002, 10300.0, "Pa")
    ('10300\\u2009Pa', '10300\\u2009Pa')
    """
    for more in range(digits, _MOST_DIGITS + 1):
        said = show(demand, unit, system, more), show(limit, unit, system, more)
        if not demand > limit * (1 + 1e-12) or said[0] != said[1]:  # as a check passes
            return said
    return f"just over {said[0]}", said[1]


def figure(value: float, digits: int = 3) -> str:
    """A number alone, with so many significant digits; a whole number given as one stays whole.

    >>> figure(0.012345), figure(9.996), figure(36), figure(1565.4)
    ('0.0123', '10.0', '36', '1565')
    """
    if isinstance(value, int):
        return str(value)
    if not math.isfinite(value):
        return "unknown" if math.isnan(value) else "∞" if value > 0 else "-∞"
    if value == 0:
        return "0"
    exponent = int(f"{value:.{digits - 1}e}".split("e")[1])  # after rounding: 9.996 counts as 10.0
    if exponent < -4 or exponent > 9:
        head, tail = f"{value:.{digits - 1}e}".split("e")
        return f"{head}e{int(tail)}"
    return f"{value:.{max(0, digits - 1 - exponent)}f}"


def _with_unit(value: float, unit: str, digits: int) -> str:
    number = figure(value, digits)
    if math.isnan(value):
        return number
    if unit in ("", "-", "1"):
        return number
    if unit == "deg":
        return f"{number}°"
    return f"{number}{THIN}{_SIGN_OF.get(unit, unit)}"


def _inches(value_mm: float) -> str:
    """Inches to the nearest 1/32; thin things, which a rule cannot show, in decimals."""
    inches = value_mm / INCH_MM
    parts = round(abs(inches) * _FINEST)
    if abs(abs(inches) * _FINEST - parts) > 1e-6 and parts < 4:
        return _with_unit(inches, "in", 3)
    whole, rest = divmod(parts, _FINEST)
    fraction = Fraction(rest, _FINEST)
    said = " ".join(str(part) for part in (whole, fraction) if part) or "0"
    return f"{'-' if inches < 0 < parts else ''}{said}{THIN}in"
