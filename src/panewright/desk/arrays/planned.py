"""An array's text planned: read, its panels found, its weather read, everything reckoned."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from panewright.desk.arrays.known import Sources, panels_of
from panewright.errors import PanewrightError, Problem, RecordError

if TYPE_CHECKING:
    from panewright.array.plan.plan import Placed, Plan
    from panewright.array.plan.weather import Weathered
    from panewright.order.site.site import Site

Told = Callable[[float, str], None]


def site_of(text: str, file: str) -> Site:
    """The site in a text; `OrderError` with every mistake."""
    from panewright.order.site.parse import parse_site

    return parse_site(text, file)


def placed_of(site: Site, sources: Sources) -> tuple[Placed, ...]:
    """Its panels in their places: enough for limits and fuses, without any weather."""
    from panewright.array.plan.placing import placed

    return placed(site, panels_of(site, sources))


def planned(text: str, sources: Sources, told: Told = lambda _share, _words: None) -> Plan:
    """The plan; a `PanewrightError` with every mistake of text, panels and weather."""
    from panewright.array.plan.composed import plan_of

    site = site_of(text, sources.file)
    told(0.0, "panels and weather")
    panels, weather = both_of(site, sources)
    return plan_of(site, panels, weather, told)


def both_of(site: Site, sources: Sources) -> tuple[tuple[Placed, ...], Weathered]:
    """Panels and weather; what is wrong with either is told together."""
    problems: list[Problem] = []
    panels, weather = None, None
    try:
        panels = placed_of(site, sources)
    except PanewrightError as mistake:
        problems += mistake.problems
    try:
        weather = weather_of(site, sources)
    except PanewrightError as mistake:
        problems += mistake.problems
    if panels is None or weather is None:
        raise RecordError(problems)
    return panels, weather


def weather_of(site: Site, sources: Sources) -> Weathered:
    """The site's weather; the sun goes by a file's own place, and the plan tells where that is far off."""
    from panewright.array.plan.weather import weathered
    from panewright.intake.weather.weather import read_weather
    from panewright.order.site.site import OfFile

    told = site.weather
    if not isinstance(told, OfFile):
        return weathered(site, None)
    return weathered(site, read_weather(sources.beside(told.file), told.file))
