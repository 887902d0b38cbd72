"""What both families hand over: coefficients of the wind across a panel, and how it holds the whole."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site


@dataclass(frozen=True, slots=True)
class Way:
    """One direction of the wind: how far it presses on the face and how far it lifts, both positive."""

    words: str
    down: float
    up: float


@dataclass(frozen=True, slots=True)
class Grip:
    """The wind on the panel as a whole, for what holds it up: mean coefficient and where the force acts.

    The force stands square to the pane. `along_share` is its place on the sloping length, from the middle
    towards the high edge (minus: the low edge). `across_share` is how far it may lie to either side, of
    the width.
    """

    words: str
    coefficient: float  #: gust included; plus presses on the face, minus lifts
    along_share: float
    across_share: float


@dataclass(frozen=True, slots=True)
class Net:
    """Net coefficients, gust included, each way, and the range they hold in."""

    ways: tuple[Way, ...]
    words: str
    checks: tuple[Check, ...]
    grips: tuple[Grip, ...] = ()  #: of panels in the open
    edge_down: float = 1.0  #: times `down`: what the pane's edges see of it, where strips along them see more
    edge_up: float = 1.0
    notes: tuple[Reckoning, ...] = ()  #: which rule was taken and how far it reaches

    @property
    def down(self) -> float:
        """The largest that presses, over all directions."""
        return max(way.down for way in self.ways)

    @property
    def up(self) -> float:
        """The largest that lifts, over all directions."""
        return max(way.up for way in self.ways)


def two_ways(down: float, up: float, face: str, back: str) -> tuple[Way, Way]:
    """A wind that only presses and one that only lifts."""
    return Way(face, down, 0.0), Way(back, 0.0, up)


def tilt_check(tilt_deg: float, limit_deg: float, source: str) -> Check:
    """The tilt against the end of a rule book's table."""
    cure = f"Tilt the panel {limit_deg:g} degrees or less, or let an engineer find the wind on it."
    return Check("tilt within the wind table", tilt_deg, limit_deg, "deg", source, cure, "climate")


def roof_unruled(site: Site) -> tuple[Check, ...]:
    """A check that never passes: what stands on a roof where the family has no rule for it."""
    if site.mounting != "flat roof":
        return ()
    return (
        Check(
            "wind rule for a panel that stands on a roof",
            site.height_m,
            None,
            "m",
            f"{site.wind.edition}: no rule; figures of a panel in open ground taken (a judgement)",
            "Let an engineer find the wind on it, or order by the rules of ASCE 7-16 or 7-22.",
            "climate",
        ),
    )


def lean_check(tilt_deg: float, source: str) -> Check:
    """A wall panel leans no more than 15 degrees from upright."""
    cure = "Ask for free-standing where the panel leans away from the wall."
    return Check("lean of a wall panel", abs(90 - tilt_deg), 15.0, "deg", source, cure, "climate")
