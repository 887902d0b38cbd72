"""Years made from twelve means keep them, come out alike from one seed, and cloud as their formulas say."""

from dataclasses import replace
from pathlib import Path
from time import process_time

import numpy as np
import pvlib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.errors import SkyError
from panewright.intake.weather.weather import read_weather
from panewright.sky.course import course_over
from panewright.sky.hours import MONTH_DAYS
from panewright.sky.made.days import (
    DULLEST_DAY,
    clearest_day,
    day_at,
    day_months,
    drawn_days,
    gamma,
    to_the_mean,
)
from panewright.sky.made.heat import air_c, day_wave
from panewright.sky.made.kept import scaled_under
from panewright.sky.made.means import Means, of_days, of_extremes, outside_kwh_m2
from panewright.sky.made.years import make_years
from panewright.sky.place import Place, Plane
from panewright.sky.tilted import on_plane

VALE = Place(47.1, 8.6, 430.0)
LEVEL = (34.0, 52.0, 95.0, 128.0, 155.0, 165.0, 172.0, 148.0, 108.0, 65.0, 36.0, 27.0)
AIR = (0.5, 1.5, 5.5, 9.0, 13.5, 17.0, 19.0, 18.5, 14.5, 10.0, 4.5, 1.5)
MEANS = Means(VALE, LEVEL, AIR)


@pytest.fixture(scope="module")
def twenty():
    return make_years(MEANS, seed=5, years=20)


def monthly(hours, years):
    ends = np.cumsum((0, *MONTH_DAYS)) * 24
    return np.add.reduceat(np.atleast_2d(hours), ends[:-1], axis=1)[:years]


def test_one_year_keeps_each_month_s_light_and_air():
    made = make_years(MEANS, seed=1)
    assert monthly(made.level_w_m2, 1)[0] / 1e3 == pytest.approx(LEVEL, rel=1e-9)
    hours = monthly(np.ones(8760), 1)[0]
    assert monthly(made.air_c, 1)[0] / hours == pytest.approx(AIR, rel=1e-9)
    year = made.year(0)
    assert year.by_month(year.level_w_m2) / 1e3 == pytest.approx(LEVEL, rel=1e-9)


def test_months_of_hardly_any_sun_may_be_told_as_none():
    """72° N: tables of one decimal tell 0.0 where the sun shows itself for some days."""
    north, level = Place(72, 25), (0, 0.2, 1.1, 2.9, 4.4, 5.1, 4.8, 3.1, 1.6, 0.5, 0, 0)
    made = make_years(of_days(north, level, (-5.0,) * 12), seed=1, years=3)
    months = monthly(made.level_w_m2, 3).mean(0) / 1e3
    assert months == pytest.approx(np.array(level) * MONTH_DAYS, rel=1e-9, abs=1e-9)
    assert np.isfinite(made.direct_w_m2).all()
    with pytest.raises(SkyError, match="March"):
        of_days(north, (*level[:2], 0, *level[3:]), (-5.0,) * 12)


def test_twenty_years_together_keep_the_means_and_differ_as_stated(twenty):
    light = monthly(twenty.level_w_m2, 20) / 1e3
    assert light.mean(0) == pytest.approx(LEVEL, rel=1e-9)
    assert twenty.spread_share == pytest.approx(0.04, rel=0.02)
    assert light[:, 6].std() / LEVEL[6] > 0.04  # a month differs by more than a year
    assert 0.01 < twenty.chain_share < 0.04
    assert f"differs by {twenty.spread_share:.1%} between years, as stated" in twenty.told()


def test_where_the_sky_is_too_clear_to_differ_so_much_that_is_told():
    level = 0.75 * outside_kwh_m2(Place(10.0, 0.0), 0.0)
    made = make_years(Means(Place(10.0, 0.0), tuple(level), AIR), seed=1, years=5)
    assert made.spread_share < 0.03
    assert "short of the 4.0% stated, for so clear a sky has no room" in made.told()


def test_without_a_spread_each_year_keeps_the_means():
    made = make_years(MEANS, seed=2, years=3, spread_share=0.0)
    for light in monthly(made.level_w_m2, 3):
        assert light / 1e3 == pytest.approx(LEVEL, rel=1e-9)
    assert np.std(made.level_w_m2[0] - made.level_w_m2[1]) > 50  # but not its days


def test_one_seed_one_year_and_another_seed_another():
    first, again, other = (make_years(MEANS, seed).level_w_m2 for seed in (3, 3, 4))
    assert np.array_equal(first, again)
    assert np.abs(first - other).max() > 100


def test_light_closes_and_none_is_more_than_the_sun_sends(twenty):
    course = course_over(VALE, twenty.middles)
    level, direct, diffuse = twenty.level_w_m2, twenty.direct_w_m2, twenty.diffuse_w_m2
    assert np.abs(level - direct * course.upright - diffuse).max() < 1e-9
    assert min(level.min(), direct.min(), diffuse.min()) >= 0
    assert (level <= 0.88 * course.outside_w_m2 * course.upright + 1e-9).all()
    assert (direct < 1100).all()


def test_twenty_years_are_made_in_under_three_seconds():
    make_years(MEANS, seed=1)  # what is loaded and kept once
    start = process_time()
    make_years(MEANS, seed=5, years=20)
    assert process_time() - start < 3


@pytest.fixture(scope="module", params=["723170TYA.CSV", "12839.tm2", "703165TY.csv"])
def beside(request):
    """A real year (Greensboro, Miami, Sand Point: pvlib's files) and twenty made from its means."""
    real = read_weather((Path(pvlib.__file__).parent / "data" / request.param).read_bytes(), request.param)
    light, hours = real.by_month(real.level_w_m2) / 1e3, real.by_month(np.ones(8760))
    means = Means(real.place, tuple(light), tuple(real.by_month(real.air_c) / hours))
    return real, make_years(means, seed=7, years=20)


def test_from_a_real_year_s_means_a_tilted_plane_gets_that_year_s_light_within_two_percent(beside):
    real, made = beside
    plane = Plane(abs(real.place.latitude_deg), 180)

    def tilted(year):
        course = course_over(real.place, year.middles)
        return on_plane(replace(year.light, albedo=None), course, plane).whole_w_m2.sum(-1).mean()

    assert tilted(made) == pytest.approx(tilted(real), rel=0.02)


def test_made_days_scatter_more_than_those_of_a_typical_year_and_their_dull_weeks_are_no_brighter(beside):
    """Typical years are chosen without extremes, and Miami's sky is steadier than the formula's: measured."""
    real, made = beside
    course = course_over(real.place, made.middles)
    outside = (course.outside_w_m2 * course.upright).reshape(365, 24).sum(1)
    true, drawn = (each.reshape(-1, 365, 24).sum(2) / outside for each in (real.level_w_m2, made.level_w_m2))
    assert 1.0 < drawn.std() / true.std() < 1.7
    week = np.ones(5) / 5
    dull = [np.convolve(days * outside, week, "valid").min() for days in drawn]
    assert min(dull) < np.convolve(true[0] * outside, week, "valid").min()
    assert np.corrcoef(drawn[:, 1:].ravel(), drawn[:, :-1].ravel())[0, 1] == pytest.approx(0.28, abs=0.03)


@settings(max_examples=6)  # each reckons the sun of a year anew
@given(
    st.floats(-60, 60),
    st.floats(-180, 180),
    st.lists(st.floats(0.12, 0.76), min_size=12, max_size=12),
    st.integers(0, 99),
)
def test_any_place_keeps_any_means(latitude, longitude, clear, seed):
    place = Place(latitude, longitude)
    level = np.array(clear) * outside_kwh_m2(place, round(longitude / 15))
    made = make_years(Means(place, tuple(level), AIR), seed, years=2)
    assert monthly(made.level_w_m2, 2).mean(0) / 1e3 == pytest.approx(level, rel=1e-9)
    assert made.spread_share < 0.08
    assert np.isfinite(made.direct_w_m2).all()


# Days


@given(st.floats(0.15, 0.75))
def test_the_distribution_has_the_month_s_mean_and_its_own_bounds(mean):
    shares = (np.arange(2000) + 0.5) / 2000
    days = day_at(shares, np.array(mean))
    assert days.mean() == pytest.approx(mean, abs=1e-4)
    assert days.min() >= DULLEST_DAY
    assert days.max() <= clearest_day(np.array(mean))
    assert (np.diff(days) >= 0).all()


@pytest.mark.parametrize("mean", [0.3, 0.4, 0.5, 0.6, 0.7])
def test_gamma_beside_herzog_s_formula_for_it(mean):
    """M. Herzog's explicit gamma, as Duffie and Beckman print it in 2.9 (recalled), an approximation."""
    top = float(clearest_day(np.array(mean)))
    xi = (top - DULLEST_DAY) / (top - mean)
    herzog = -1.498 + (1.184 * xi - 27.182 * np.exp(-1.5 * xi)) / (top - DULLEST_DAY)
    assert float(gamma(np.array(mean))) == pytest.approx(herzog, abs=0.35)


def test_drawn_days_follow_the_distribution_and_the_day_before():
    days = drawn_days(np.full(12, 0.5), 200, np.random.default_rng(0))
    shares = (np.arange(73000) + 0.5) / 73000
    asked = day_at(shares, np.array(0.5))
    assert np.abs(np.sort(days.ravel()) - asked).max() < 0.015
    follows = np.corrcoef(days[:, 1:].ravel(), days[:, :-1].ravel())[0, 1]
    assert follows == pytest.approx(0.28, abs=0.02)  # 0.29 of the normal variable behind them


def test_moving_days_to_their_mean_leaves_their_bounds_alone():
    rng, weights = np.random.default_rng(1), np.ones(365)
    asked = np.linspace(0.2, 0.7, 12)
    days = to_the_mean(drawn_days(asked, 5, rng), asked, weights)
    for month in range(12):
        part = days[:, day_months() == month]
        assert part.mean(1) == pytest.approx(asked[month], abs=1e-9)
        assert part.min() >= DULLEST_DAY
        assert part.max() <= clearest_day(asked[month]) + 1e-12


# Sums kept, air


@given(st.lists(st.floats(0.01, 10), min_size=3, max_size=24), st.floats(0.05, 0.95))
def test_light_scaled_under_its_cap_adds_up_to_what_is_wanted(light, share):
    hours, most = np.array(light), np.array(light[::-1]) + 1
    wanted = np.array(share * most.sum())
    found = scaled_under(np.minimum(hours, most), most, wanted)
    assert found.sum() == pytest.approx(float(wanted), rel=1e-9)
    assert (found <= most + 1e-12).all()


def test_air_has_its_means_its_swing_and_is_warmest_in_the_afternoon():
    wave = day_wave()
    assert wave.sum() == pytest.approx(0, abs=1e-12)
    assert wave.max() - wave.min() == pytest.approx(1.0, abs=0.03)
    assert int(wave.argmax()) in (14, 15)
    hours = air_c(np.array(AIR), np.full(12, 10.0)).reshape(365, 24)
    july = hours[181:212]
    assert july.mean() == pytest.approx(AIR[6], rel=1e-9)
    assert (july.max(1) - july.min(1)).mean() == pytest.approx(10.0, abs=0.3)
    assert np.abs(np.diff(hours.mean(1))).max() < 0.4  # no step where a month ends


# What a person may get wrong


def wrong(call):
    with pytest.raises(SkyError) as refused:
        call()
    return refused.value.problems


def test_means_of_a_day_given_as_those_of_a_month_are_told_so_month_by_month():
    days = tuple(level / count for level, count in zip(LEVEL, MONTH_DAYS, strict=True))
    problems = wrong(lambda: Means(VALE, days, AIR))
    assert len(problems) == 12
    assert problems[6].key == "light, July"
    assert problems[6].cure.endswith("Of a day? Multiply by 31.")
    assert of_days(VALE, days, AIR).level_kwh_m2 == pytest.approx(LEVEL)


def test_a_usual_day_s_coldest_and_warmest_the_wrong_way_round_are_told():
    low, high = (2.0,) * 12, (9.0,) * 11 + (1.0,)
    assert [problem.key for problem in wrong(lambda: of_extremes(low, high))] == ["air, December"]
    assert "There are 11 means." in wrong(lambda: of_extremes(low, high[:11]))[0].reason


def test_other_means_that_cannot_be_are_told_all_at_once():
    problems = wrong(lambda: Means(VALE, LEVEL[:11], (99.0, *AIR[1:])))
    assert [problem.key for problem in problems] == ["light", "air, January"]
    assert "more than 78%" in wrong(lambda: Means(VALE, (*LEVEL[:11], 90.0), AIR))[0].cure
    assert wrong(lambda: make_years(MEANS, 1, years=0, spread_share=0.5))[1].key == "spread"


def test_where_the_sun_does_not_rise_a_month_has_no_light():
    north = Place(78.0, 15.0)
    outside = outside_kwh_m2(north, 1.0)
    level = tuple(0.5 * outside)
    made = make_years(Means(north, level, (-10.0,) * 12), seed=1, years=2)
    assert made.level_w_m2[:, : 20 * 24].max() == 0
    assert monthly(made.level_w_m2, 2).mean(0) / 1e3 == pytest.approx(level, rel=1e-9, abs=1e-9)
    assert "does not rise" in wrong(lambda: Means(north, (9.0, *level[1:]), AIR))[0].reason
