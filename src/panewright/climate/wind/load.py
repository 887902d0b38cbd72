"""Wind pressure on a panel, each way, with every step shown.

Two levels are kept apart by name. Service: what an allowable-stress rule is held against (ASCE: 0.6 of the
pressure of 7-10 and later, the whole of 7-05; EN: characteristic). Strength: the factored level (ASCE:
1.0 of 7-10 and later, 1.6 of 7-05; EN: 1.5). Families are never mixed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site, Size
from panewright.climate.wind import asce, asce_net, en, en_net
from panewright.climate.wind.net import Grip, Net
from panewright.climate.wind.speed import EN_KINDS, as_ten_minutes


@dataclass(frozen=True, slots=True)
class WindForce:
    """The wind on the whole panel, for what holds it: a mean pressure square to the pane, and its place.

    Times the panel's area it is the force. Plus presses on the face, minus lifts.
    """

    words: str
    service_pa: float
    strength_pa: float
    along_share: float  #: of the sloping length, from the middle towards the high edge; minus: the low edge
    across_share: float  #: of the width, to either side


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
    forces: tuple[WindForce, ...] = ()  #: on the whole panel, where it stands in the open
    edge_down: float = 1.0  #: times the pressure on the pane: for the line loads on rails and bead
    edge_up: float = 1.0

    def __hash__(self) -> int:
        """Of its pressures: they tell most winds apart."""
        return hash((self.down_pa, self.up_pa, self.edge_down, self.edge_up))


@dataclass(frozen=True, slots=True)
class _Level:
    """Factors from the code's own level to service and to strength, and what the first is called."""

    service: float
    strength: float
    words: str


def wind_pressures(site: Site, size: Size | None = None) -> WindLoad:
    """Wind on the panel of a site by its own family of codes.

    The rule for flat roofs asks for the panel's size; without one the smallest, worst area is taken.
    """
    return _by_asce(site, size) if site.family == "ASCE" else _by_en(site)


def _by_asce(site: Site, size: Size | None) -> WindLoad:
    edition = site.wind.edition
    pressure, steps = asce.velocity_reckoning(site, cladding=not site.in_the_open)
    service = asce.to_allowable(edition)
    level = _Level(service, asce.to_strength(edition), f"allowable level, {service:g} W of {edition}")
    least = asce_net.least_pressure_pa(edition)
    net = asce_net.net_coefficients(site, size)
    wrong = _edition_checks(site, fits=edition.startswith("ASCE"))
    floor = (Reckoning("least pressure on cladding", least, "Pa"),)
    return _load(net, pressure, (steps, floor), level, wrong, least)


def _by_en(site: Site) -> WindLoad:
    mean, converted = as_ten_minutes(site.wind)
    pressure, steps = en.peak_reckoning(site, mean)
    level = _Level(1.0, en.PARTIAL_FACTOR, "characteristic level of EN 1991-1-4")
    net = en_net.net_coefficients(site)
    wrong = _edition_checks(site, fits=site.wind.edition == "EN 1991-1-4") or _kind_checks(site)
    high = Check(
        "height within the wind profile",
        site.height_m,
        en.MOST_HEIGHT_M,
        "m",
        "EN 1991-1-4 1.1",
        "Let an engineer find the wind at this height.",
        "climate",
    )
    return _load(net, pressure, (converted + steps, ()), level, (*wrong, high), 0.0)


def _load(
    net: Net,
    pressure_pa: float,
    steps: tuple[tuple[Reckoning, ...], tuple[Reckoning, ...]],
    level: _Level,
    checks: tuple[Check, ...],
    least_pa: float,
) -> WindLoad:
    """Velocity pressure times coefficients, no less than the least, at both levels."""
    down, up = max(pressure_pa * net.down, least_pa), max(pressure_pa * net.up, least_pa)
    first, last = steps
    return WindLoad(
        down_pa=level.service * down,
        up_pa=level.service * up,
        velocity_pressure_pa=pressure_pa,
        reckoning=first + net.notes + _net_steps(net) + last + _level_steps(level, down, up),
        checks=checks + net.checks,
        strength_down_pa=level.strength * down,
        strength_up_pa=level.strength * up,
        level=level.words,
        forces=_forces(net, pressure_pa, level, least_pa),
        edge_down=net.edge_down,
        edge_up=net.edge_up,
    )


def _forces(net: Net, pressure_pa: float, level: _Level, least_pa: float) -> tuple[WindForce, ...]:
    return tuple(
        _force(grip, _no_less(pressure_pa * grip.coefficient, least_pa), level) for grip in net.grips
    )


def _force(grip: Grip, mean_pa: float, level: _Level) -> WindForce:
    return WindForce(
        grip.words, level.service * mean_pa, level.strength * mean_pa, grip.along_share, grip.across_share
    )


def _no_less(pressure_pa: float, least_pa: float) -> float:
    """The pressure, its size no less than the least, its sign kept. [Pa]"""
    return math.copysign(max(abs(pressure_pa), least_pa), pressure_pa)


def _net_steps(net: Net) -> tuple[Reckoning, ...]:
    """Each direction that presses and each that lifts, in its own row."""
    presses = [
        Reckoning(f"{way.words}, pressing: {net.words}", way.down, "-") for way in net.ways if way.down
    ]
    lifts = [Reckoning(f"{way.words}, lifting: {net.words}", way.up, "-") for way in net.ways if way.up]
    return (*presses, *lifts)


def _level_steps(level: _Level, down_pa: float, up_pa: float) -> tuple[Reckoning, ...]:
    return (
        Reckoning("wind pressing on the face, the code's own level", down_pa, "Pa"),
        Reckoning("wind lifting the panel, the code's own level", up_pa, "Pa"),
        Reckoning(f"wind pressing on the face, {level.words}", level.service * down_pa, "Pa"),
        Reckoning(f"wind lifting the panel, {level.words}", level.service * up_pa, "Pa"),
    )


def _edition_checks(site: Site, *, fits: bool) -> tuple[Check, ...]:
    """A check that never passes where the speed is from the other family's map."""
    if fits:
        return ()
    return (
        Check(
            f"wind speed from a map of the {site.family} family",
            site.wind.speed_m_s,
            None,
            "m/s",
            f"{site.family}; stated: {site.wind.kind}, {site.wind.edition}",
            f"State the wind from a map of the {site.family} rules.",
            "climate",
        ),
    )


def _kind_checks(site: Site) -> tuple[Check, ...]:
    """A check that never passes where EN has no rule to convert the speed by."""
    if site.wind.kind in EN_KINDS:
        return ()
    return (
        Check(
            "wind speed of a kind that EN can convert",
            site.wind.speed_m_s,
            None,
            "m/s",
            f"EN 1991-1-4: 10 min mean, or a gust by its own turbulence; stated: {site.wind.kind}",
            "State the wind as a 10 min mean from the national map, or as a 3 s gust.",
            "climate",
        ),
    )
