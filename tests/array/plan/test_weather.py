"""The weather of a site: the year that stands for all, the bank's years, and how far off it is."""

import dataclasses

import pytest

from panewright.array.plan.weather import apart_said, weathered
from panewright.sky.place import Place
from planned import site

LIGHT = 'light = "1.0 1.8 3.0 4.3 5.2 5.7 5.6 4.9 3.5 2.1 1.1 0.8 kWh/m2/d"\nyears = 3'


def test_the_year_of_twelve_means_keeps_them_and_the_bank_s_years_do_together():
    own = site(('clearness = "60 %"', LIGHT))
    found = weathered(own, None)
    asked = [1.0 * 31, 1.8 * 28, 3.0 * 31, 4.3 * 30]
    usual = found.usual.by_month(found.usual.level_w_m2) / 1000
    assert usual[:4] == pytest.approx(asked, rel=0.01)
    assert len(found.years) == 3
    assert "One year alone" not in " ".join(found.usual.said)
    assert found.usual.said[0].endswith(found.years[0].said[0])
    mean = sum(each.by_month(each.level_w_m2) for each in found.years) / 3000
    assert mean[:4] == pytest.approx(asked, rel=0.01)
    assert len({each.level_kwh_m2 for each in found.years}) == 3


def test_the_same_seed_makes_the_same_years_and_another_others():
    one, same, other = (
        weathered(site(('clearness = "60 %"', f"{LIGHT}\nseed = {n}")), None) for n in (1, 1, 2)
    )
    assert (one.years[1].level_w_m2 == same.years[1].level_w_m2).all()
    assert (one.years[1].level_w_m2 != other.years[1].level_w_m2).any()


def test_weather_of_another_place_is_told_with_its_distance():
    """A degree of latitude is 111.2 km on a sphere of 6371 km."""
    own = site()
    hours = weathered(own, None).usual
    assert apart_said(own, hours) == ()
    far = dataclasses.replace(own, place=Place(48.0, 9.0))
    assert "111 km" in apart_said(far, hours)[0]


def test_a_file_that_was_not_read_is_our_own_mistake():
    air = 'clearness = "60 %"\nair = "0 1 5 9 14 17 19 18 14 10 5 1 degC"'
    with pytest.raises(ValueError, match=r"year\.epw"):
        weathered(site((air, 'weather = "year.epw"')), None)
