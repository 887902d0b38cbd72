"""How the book of an array writes its figures."""

from __future__ import annotations

from panewright.array.plan.plan import Plan
from panewright.units import figure, show

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
GALLONS = 1000 / 3.785411784  #: in a cubic metre; 231 cubic inches each
_FEW = 1e-9


def say(plan: Plan, value: float, unit: str, digits: int = 3) -> str:
    """A figure with its unit, in the site's measure."""
    return show(value, unit, plan.site.named.units, digits)


def typed(plan: Plan, value: float, unit: str) -> str:
    """A figure that a person typed: whole where it is whole in the unit that is shown.

    A length in feet that was typed in metres is no whole number, and is told to three digits.
    """
    said = show(value, unit, plan.site.named.units)
    if plan.site.named.units == "us" and said != show(value, unit):
        return said
    whole = round(value)
    return show(whole if abs(value - whole) < _FEW else value, unit)


def heat(plan: Plan, celsius: float) -> str:
    """A temperature to a whole degree, or to the tenth that was typed."""
    us = plan.site.named.units == "us"
    value, unit = (celsius * 9 / 5 + 32, "°F") if us else (celsius, "°C")
    rounded = round(value, 1) + 0.0
    return f"{rounded:g}\u2009{unit}".replace("-", "−")


def flow(plan: Plan, m3_h: float) -> str:
    """Water through a pipe."""
    if plan.site.named.units == "us":
        return f"{figure(m3_h * GALLONS / 60)}\u2009gal/min"
    return f"{figure(m3_h)}\u2009m³/h"


def water(plan: Plan, m3: float) -> str:
    """A volume of water, with its unit."""
    us = plan.site.named.units == "us"
    return f"{figure(m3 * GALLONS)}\u2009gal" if us else f"{figure(m3)}\u2009m³"


def kwh(value: float) -> str:
    """Energy without its unit, for a table: to a tenth while it is small.

    >>> kwh(0.0), kwh(3.14159), kwh(1234.5)
    ('0', '3.1', '1234')
    """
    if abs(value) < 0.05:
        return "0"
    return f"{value:.1f}" if abs(value) < 100 else f"{value:.0f}"


def percent(share: float, decimals: int = 1) -> str:
    """A share in per cent.

    >>> percent(0.0314)
    '3.1\\u2009%'
    """
    return f"{100 * share:.{decimals}f}\u2009%"
