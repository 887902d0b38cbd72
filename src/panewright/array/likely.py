"""Between which bounds a year's energy will likely lie, and why, in plain words.

Each cause has a standard uncertainty as a share of the energy, found from the year itself where that tells
it: what dirt, shadow and heat take there, what two models of the sky's light differ by on these planes.
Causes know nothing of each other, so their squares add (JCGM 100:2008, 5.1.2, recalled). Energy is a product
of all of them and cannot fall below nothing: its logarithm is taken as a bell's, whose middle is the year
that was reckoned. That drawing each cause by chance comes to the same is a test.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, hypot, log, log1p, sqrt
from statistics import NormalDist

import numpy as np

from panewright.array.doubts import SOURCES, Doubts
from panewright.array.member import Member
from panewright.array.year import Year
from panewright.circuit.chords.panels import curve_of, panels_of
from panewright.climate.hourly import SHEDS
from panewright.sky.hours import Floats, Hours
from panewright.sky.place import Plane
from panewright.sky.received import Standing, received
from panewright.sky.tilted import Way

COVERAGE = 0.8  #: four years in five, unasked
_WAYS: tuple[Way, ...] = ("Hay-Davies", "Perez")  # isotropic is known to be short
_ALBEDO_SHARE = 0.4  # of what a bare ground throws back: 0.08 of 0.2, as in `sky.light`
_BRIGHT_W_M2, _COOL_C, _WARM_C = 800.0, 30.0, 60.0
_FULL_SUN = 1000.0


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that is not known."""

    name: str
    share: float  #: one standard uncertainty, of the year's energy
    why: str  #: with its source, or that there is none


@dataclass(frozen=True, slots=True)
class Likely:
    """A year's energy as it may come out: in `coverage` of all years between low and high."""

    low_kwh: float
    middle_kwh: float
    high_kwh: float
    coverage: float
    causes: tuple[Cause, ...]  #: the greatest first

    @property
    def share(self) -> float:
        """All causes together, one standard uncertainty."""
        return sqrt(sum(cause.share**2 for cause in self.causes))


def likely(year: Year, members: Sequence[Member], doubts: Doubts, coverage: float = COVERAGE) -> Likely:
    """The year with its bounds; `ValueError` where panels and ratings are not as many."""
    if len(members) != len(doubts.ratings):
        raise ValueError(f"{len(members)} panels have as many ratings, got {len(doubts.ratings)}")
    weight = year.panel_w.sum(axis=0)
    if not weight.sum() > 0:
        return bounds(0.0, (), coverage)
    weight = weight / weight.sum()
    causes = (
        Cause("weather from year to year", doubts.years[0], f"Years differ; {doubts.years[1]}."),
        Cause("where the weather is from", SOURCES[doubts.source][0], f"It is {SOURCES[doubts.source][1]}."),
        _tilted(year.hours, members, weight),
        _ratings(doubts, weight),
        _ages(doubts, weight),
        _dirt(year, members, doubts),
        _heat(year, members, doubts),
        _shade(year, doubts),
        Cause(
            "colours of the light",
            doubts.colours_share,
            "Silicon's share of them; common practice, no source.",
        ),
    )
    return bounds(year.kwh, causes, coverage)


def bounds(middle_kwh: float, causes: Sequence[Cause], coverage: float = COVERAGE) -> Likely:
    """An energy with its bounds, by its causes; leave one out to see what knowing it would bring.

    >>> found = bounds(1000.0, (Cause("a", 0.03, ""), Cause("b", 0.04, "")))
    >>> round(found.low_kwh), round(found.high_kwh), found.causes[0].name
    (938, 1066, 'b')
    """
    if not 0 < coverage < 1 or any(cause.share < 0 for cause in causes):
        raise ValueError(
            f"bounds hold a share between 0 and 1, and causes are 0 or more: {coverage}, {causes}"
        )
    wide = NormalDist().inv_cdf(0.5 + coverage / 2)
    spread = sqrt(log1p(sum(cause.share**2 for cause in causes)))
    ordered = tuple(sorted(causes, key=lambda cause: -cause.share))
    return Likely(
        middle_kwh * exp(-wide * spread), middle_kwh, middle_kwh * exp(wide * spread), coverage, ordered
    )


def _tilted(hours: Hours, members: Sequence[Member], weight: Floats) -> Cause:
    """What two ways to lay the sky's light on a plane differ by, and the ground's part."""
    sky = ground = 0.0
    kept: dict[Plane, tuple[float, float]] = {}
    for member, part in zip(members, weight, strict=True):
        plane = member.pane.plane
        kept[plane] = kept.get(plane) or _of_plane(hours, member)
        sky, ground = sky + part * kept[plane][0], ground + part * kept[plane][1]
    why = (
        f"Two models of the sky, Hay and Davies 1980 and Perez 1990, differ by {sky:.1%} on these planes; "
        f"the ground throws back {ground:.1%}, known to {_ALBEDO_SHARE:.0%} (common practice)."
    )
    return Cause("light on the tilted panel", hypot(sky, _ALBEDO_SHARE * ground), why)


def _of_plane(hours: Hours, member: Member) -> tuple[float, float]:
    """What two ways differ by, and the ground's part; shares of all light."""
    found = [received(hours, Standing(member.pane.plane, member.face, way=way)).cells for way in _WAYS]
    sums = np.array([each.whole_w_m2.sum() for each in found])
    if not sums.mean() > 0:
        return 0.0, 0.0
    return float(np.ptp(sums) / sums[0]), float(found[0].ground_w_m2.sum() / sums[0])


def _ratings(doubts: Doubts, weight: Floats) -> Cause:
    """Each panel's own doubt and, way by way, what all share."""
    own = sum((part * rated.own_share) ** 2 for rated, part in zip(doubts.ratings, weight, strict=True))
    ways = {rated.why: 0.0 for rated in doubts.ratings}
    for rated, part in zip(doubts.ratings, weight, strict=True):
        ways[rated.why] += part * rated.common_share
    told = "; ".join(f"{share:.1%} for panels {why}" for why, share in ways.items())
    why = f"What is off in all alike adds up: {told}. What each has of its own evens out."
    return Cause("the panels' ratings", sqrt(own + sum(share**2 for share in ways.values())), why)


def _ages(doubts: Doubts, weight: Floats) -> Cause:
    """Ageing since power was known, and what first light takes of new cells."""
    ages = np.array(doubts.ages or (0.0,) * len(weight))
    new = np.array([not rated.settled for rated in doubts.ratings])
    settles = float(weight @ new) * doubts.settles_share
    slower = float(weight @ ages) * doubts.age_a_year
    why = (
        f"Half a percent a year, more or less by as much, for {weight @ ages:.1f} years (Jordan and Kurtz "
        f"2013, recalled); what first light takes of new cells, {settles:.1%} (common practice)."
    )
    return Cause("ageing", hypot(settles, slower), why)


def _dirt(year: Year, members: Sequence[Member], doubts: Doubts) -> Cause:
    faced = float((year.faced_w * [member.left for member in members]).sum())
    taken = _share(faced - year.clean_w.sum(), faced)
    share = max(doubts.least_dirt, doubts.dirt_share * taken)
    return Cause("dirt", share, f"It takes {taken:.1%}, known to {share:.1%}; common practice, no source.")


def _heat(year: Year, members: Sequence[Member], doubts: Doubts) -> Cause:
    """By the warmth of the cells over the air, in the mean of the energy, and what a kelvin takes."""
    watts, wind = year.panel_w, year.hours.wind_m_s
    laws = panels_of([member.law for member in members])
    rise = per_k = 0.0
    for p, member in enumerate(members):
        part = watts[:, p].sum() / watts.sum()
        if not part > 0:
            continue
        still, blown = SHEDS[member.behind]
        over = year.light_w[:, p] / member.rated_w * _FULL_SUN / (still + blown * wind)
        rise += part * float(over @ watts[:, p] / watts[:, p].sum())
        cool, warm = (max(curve_of(laws, p, _BRIGHT_W_M2, heat).power_w) for heat in (_COOL_C, _WARM_C))
        per_k += part * log(cool / warm) / (_WARM_C - _COOL_C)
    share = per_k * hypot(doubts.rise_share * rise, doubts.air_k)
    why = (
        f"Cells are {rise:.0f} K over the air, known to {doubts.rise_share:.0%}, and the air to "
        f"{doubts.air_k:g} K; a kelvin takes {per_k:.2%}. Common practice, no source."
    )
    return Cause("the panels' heat", share, why)


def _shade(year: Year, doubts: Doubts) -> Cause:
    taken = _share(year.open_w.sum() - year.alone_w.sum(), year.open_w.sum())
    share = max(doubts.least_shade, doubts.shade_share * taken)
    why = f"Shadows and snow take {taken:.1%}, known to {share:.1%}; common practice, no source."
    return Cause("shadows and snow", share, why)


def _share(taken: float, whole: float) -> float:
    return max(0.0, float(taken / whole)) if whole > 0 else 0.0
