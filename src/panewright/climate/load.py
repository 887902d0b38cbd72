"""Wind pressure on a panel, each way, with every step shown.

Two levels are kept apart by name. Service: what an allowable-stress rule is held against (ASCE: 0.6 of the
pressure of 7-10 and later, the whole of 7-05; EN: characteristic). Strength: the factored level (ASCE:
1.0 of 7-10 and later, 1.6 of 7-05; EN: 1.5). Families are never mixed.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.climate import asce, asce_net, en, en_net
from panewright.climate.asce_net import Net
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site


@dataclass(frozen=True, slots=True)
class WindLoad:
    """Pressure across the panel, all figures positive. `down` presses on the face, `up` lifts it."""

    down_pa: float  #: service level
    up_pa: float  #: service level
    velocity_pressure_pa: float  #: q of ASCE 7, qp of EN 1991-1-4
    reckoning: tuple[Reckoning, ...]
    checks: tuple[Check, ...]
    strength_down_pa: float
    strength_up_pa: float
    level: str  #: what 'service' means here


def wind_pressures(site: Site) -> WindLoad:
    """Wind on the panel of a site by its own family of codes."""
    return _by_asce(site) if site.family == "ASCE" else _by_en(site)


def _by_asce(site: Site) -> WindLoad:
    wind = site.wind
    wrong = _kind_checks(site, "3 s gust", wind.edition.startswith("ASCE"))
    cladding = site.mounting != "free-standing"
    pressure, steps = asce.velocity_reckoning(site, cladding=cladding)
    net = asce_net.net_coefficients(site.mounting, site.tilt_deg, site.height_m, asce.GUST)
    least = asce_net.least_pressure_pa(wind.edition)
    down, up = max(pressure * net.down, least), max(pressure * net.up, least)
    service, strength = asce.to_allowable(wind.edition), asce.to_strength(wind.edition)
    words = f"allowable level, {service:g} W of {wind.edition}"
    return WindLoad(
        down_pa=service * down,
        up_pa=service * up,
        velocity_pressure_pa=pressure,
        reckoning=steps
        + _net_steps(net)
        + (Reckoning("least pressure on cladding", least, "Pa"),)
        + _level_steps(words, service, down, up),
        checks=wrong + net.checks,
        strength_down_pa=strength * down,
        strength_up_pa=strength * up,
        level=words,
    )


def _by_en(site: Site) -> WindLoad:
    wrong = _kind_checks(site, "10 min mean", site.wind.edition == "EN 1991-1-4")
    pressure, steps = en.peak_reckoning(site)
    net = en_net.net_coefficients(site.mounting, site.tilt_deg)
    down, up = pressure * net.down, pressure * net.up
    high = Check(
        "height within the wind profile",
        site.height_m,
        en.MOST_HEIGHT_M,
        "m",
        "EN 1991-1-4 1.1",
        "Let an engineer find the wind at this height.",
        "climate",
    )
    words = "characteristic level of EN 1991-1-4"
    return WindLoad(
        down_pa=down,
        up_pa=up,
        velocity_pressure_pa=pressure,
        reckoning=steps + _net_steps(net) + _level_steps(words, 1.0, down, up),
        checks=(*wrong, high, *net.checks),
        strength_down_pa=en.PARTIAL_FACTOR * down,
        strength_up_pa=en.PARTIAL_FACTOR * up,
        level=words,
    )


def _net_steps(net: Net) -> tuple[Reckoning, ...]:
    return (
        Reckoning(f"pressing: {net.words}", net.down, "-"),
        Reckoning(f"lifting: {net.words}", net.up, "-"),
    )


def _level_steps(words: str, factor: float, down_pa: float, up_pa: float) -> tuple[Reckoning, ...]:
    return (
        Reckoning("wind pressing on the face, the code's own level", down_pa, "Pa"),
        Reckoning("wind lifting the panel, the code's own level", up_pa, "Pa"),
        Reckoning(f"wind pressing on the face, {words}", factor * down_pa, "Pa"),
        Reckoning(f"wind lifting the panel, {words}", factor * up_pa, "Pa"),
    )


def _kind_checks(site: Site, kind: str, edition_fits: bool) -> tuple[Check, ...]:
    """A check that never passes where the speed is not of the kind the family asks for."""
    if site.wind.kind == kind and edition_fits:
        return ()
    return (
        Check(
            f"wind speed is a {kind}, as {site.family} asks",
            site.wind.speed_m_s,
            None,
            "m/s",
            f"{site.family}: {kind}; stated: {site.wind.kind}, {site.wind.edition}",
            f"State the wind as a {kind} from the map of the {site.family} rules.",
            "climate",
        ),
    )
