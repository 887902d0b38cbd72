"""Years of weather made from twelve means: hours that keep the means and cloud over as real ones do.

    means -> how clear each month is -> each day (Bendt) -> each hour (TAG) -> scaled to day and month
          -> straight light and sky (Erbs) -> air, wind

Same means and seed, same years.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.errors import Problem, SkyError
from panewright.sky.course import Course, course_over
from panewright.sky.hours import MONTH_DAYS, YEAR_HOURS, Floats, Hours, Light, Moments, typical_middles
from panewright.sky.made.days import drawn_days, to_the_mean
from panewright.sky.made.heat import air_c, swings_k
from panewright.sky.made.kept import scaled_under
from panewright.sky.made.means import CLEAREST, Means
from panewright.sky.made.spread import MOST_SHARE, USUAL_SHARE, chain_share, month_factors
from panewright.sky.made.within_day import ceiling, drawn_hours
from panewright.sky.place import Place
from panewright.sky.split import split

MOST_YEARS = 200
METHOD = (
    "made from twelve means: days by Bendt, Collares-Pereira and Rabl 1981 in the order of Graham, Hollands "
    "and Huget 1988, hours by Aguiar and Collares-Pereira 1992, sky light by Erbs, Klein and Duffie 1982"
)


@dataclass(frozen=True)
class MadeYears:
    """Years of hours, made; arrays by year and hour."""

    place: Place
    zone_h: float
    middles: Moments  #: of one year's hours, UTC; each year has the same
    level_w_m2: Floats
    direct_w_m2: Floats
    diffuse_w_m2: Floats
    air_c: Floats  #: of one year; each has the same
    wind_m_s: Floats
    seed: int
    asked_share: float  #: of a year's light between years, standard deviation, as stated
    chain_share: float  #: between years, what the chain of days has by itself, as a share

    def __len__(self) -> int:
        return len(self.level_w_m2)

    @property
    def spread_share(self) -> float:
        """Standard deviation of a year's light on level ground between these years, as a share."""
        sums = self.level_w_m2.sum(1)
        return float(sums.std(ddof=1) / sums.mean()) if len(self) > 1 else 0.0

    @property
    def light(self) -> Light:
        """The light of all years, above each other."""
        return Light(self.level_w_m2, self.direct_w_m2, self.diffuse_w_m2)

    def year(self, number: int) -> Hours:
        """One of them, from 0."""
        return Hours(
            place=self.place,
            zone_h=self.zone_h,
            middles=self.middles,
            level_w_m2=self.level_w_m2[number],
            direct_w_m2=self.direct_w_m2[number],
            diffuse_w_m2=self.diffuse_w_m2[number],
            air_c=self.air_c,
            wind_m_s=self.wind_m_s,
            source=f"{METHOD}; seed {self.seed}{self._which(number)}",
            said=(self.told(),),
        )

    def _which(self, number: int) -> str:
        return f", year {number + 1} of {len(self)}" if len(self) > 1 else ""

    def told(self) -> str:
        """How far the years differ, and why that is stated."""
        own = f"a chain of days alone has {self.chain_share:.1%}, which true years exceed"
        if len(self) == 1:
            return f"One year alone keeps its means; true years do not ({own})."
        short = self.spread_share < 0.98 * self.asked_share
        how = (
            f"short of the {self.asked_share:.1%} stated, for so clear a sky has no room"
            if short
            else "as stated"
        )
        return f"A year's light differs by {self.spread_share:.1%} between years, {how}: {own}."


def make_years(means: Means, seed: int, years: int = 1, spread_share: float | None = None) -> MadeYears:
    """Years that together keep the means; one alone keeps them by itself. `SkyError` for a wrong count."""
    _must_be(years, USUAL_SHARE if spread_share is None else spread_share)
    rng = np.random.default_rng(seed)
    middles = typical_middles(means.zone_h)
    course = course_over(means.place, middles)
    outside = course.outside_w_m2 * course.upright
    daily = outside.reshape(365, 24).sum(1)
    chain = chain_share(means.clearness, daily, rng)
    spread = max(USUAL_SHARE, chain) if spread_share is None else spread_share
    asked = _asked(means, years, spread, rng)
    days = to_the_mean(drawn_days(asked, years, rng), asked, daily)
    light = split(_level(days, asked, course, rng), course)
    swings = swings_k(means.clearness) if means.swing_k is None else np.array(means.swing_k)
    return MadeYears(
        means.place, means.zone_h, middles, light.level_w_m2, light.direct_w_m2, light.diffuse_w_m2,
        air_c(np.array(means.air_c), swings),
        np.repeat(means.wind_m_s, np.array(MONTH_DAYS) * 24),
        seed, spread if years > 1 else 0.0, chain,
    )  # fmt: skip


def _asked(means: Means, years: int, spread_share: float, rng: np.random.Generator) -> Floats:
    """How clear each month of each year is to be."""
    clear = means.clearness
    room = np.maximum(CLEAREST / np.maximum(clear, 1e-3) - 1, 0.0)
    return np.asarray(clear * month_factors(spread_share, years, room, np.array(means.level_kwh_m2), rng))


def _level(days: Floats, asked: Floats, course: Course, rng: np.random.Generator) -> Floats:
    """Light on level ground by year and hour: each day's and each month's sum is kept."""
    outside = (course.outside_w_m2 * course.upright).reshape(365, 24)
    most = outside * ceiling(_from_noon_h(course)).reshape(365, 24)
    hours = drawn_hours(days, course.upright.reshape(365, 24), rng) * outside
    daily = scaled_under(np.minimum(hours, most), most, days * outside.sum(1))
    light = daily.reshape(len(days), YEAR_HOURS)
    first = 0
    for month, count in enumerate(MONTH_DAYS):
        part = slice(first * 24, (first + count) * 24)
        wanted = asked[:, month] * outside.ravel()[part].sum()
        light[:, part] = scaled_under(light[:, part], most.ravel()[part], wanted)
        first += count
    return np.asarray(light)


def _from_noon_h(course: Course) -> Floats:
    """Hours from the sun's noon, which each day has where it stands highest."""
    daily = course.zenith_deg.reshape(365, 24)
    before = np.arange(24) + 0.5
    weights = np.maximum(np.cos(np.radians(daily)), 0) + 1e-9
    noon = (weights * before).sum(1, keepdims=True) / weights.sum(1, keepdims=True)
    return np.asarray((before - noon).ravel())


def _must_be(years: int, spread_share: float) -> None:
    problems = []
    if not 1 <= years <= MOST_YEARS:
        problems.append(
            Problem("So many are not made.", f"Ask for 1 to {MOST_YEARS}.", key="years", value=f"{years}")
        )
    if not 0 <= spread_share <= MOST_SHARE:
        cure = f"Give 0 to {MOST_SHARE:g}; usual is {USUAL_SHARE:g}."
        problems.append(Problem("Years do not differ so.", cure, key="spread", value=f"{spread_share:g}"))
    if problems:
        raise SkyError(problems)
