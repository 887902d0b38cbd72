"""Laws of light on a plane that hold for any hour."""

from datetime import UTC

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.sky.course import Course, course_over
from panewright.sky.face import straight_share, through
from panewright.sky.hours import Hours, Light, typical_middles
from panewright.sky.place import Place, Plane
from panewright.sky.sun import incidence_deg, sun_at
from panewright.sky.tilted import on_plane

PLACE = Place(47.1, 8.6, 430.0)


def one(value):
    return np.array([float(value)])


def sun(zenith, azimuth):
    return Course(one(zenith), one(azimuth), one(1380), one(1.5))


LIGHT = st.tuples(st.floats(0, 950), st.floats(1, 400))


@given(LIGHT, st.floats(1, 85), st.floats(0, 360), st.sampled_from(["isotropic", "Hay-Davies"]))
def test_on_level_ground_nothing_is_won_or_lost(light, zenith, azimuth, way):
    direct, diffuse = light
    level = direct * np.cos(np.radians(zenith)) + diffuse
    found = on_plane(
        Light(one(level), one(direct), one(diffuse)), sun(zenith, azimuth), Plane(0, 180), way
    ).whole_w_m2
    assert found[0] == pytest.approx(level, rel=1e-9)


@given(LIGHT, st.floats(1, 85), st.floats(0, 360), st.floats(0, 90), st.floats(0, 360))
def test_parts_add_up_and_none_of_hay_and_davies_is_below_zero(light, zenith, azimuth, tilt, turned):
    direct, diffuse = light
    level = direct * np.cos(np.radians(zenith)) + diffuse
    parts = on_plane(Light(one(level), one(direct), one(diffuse)), sun(zenith, azimuth), Plane(tilt, turned))
    each = (parts.beam_w_m2, parts.halo_w_m2, parts.dome_w_m2, parts.rim_w_m2, parts.ground_w_m2)
    assert min(part[0] for part in each) >= 0
    assert sum(part[0] for part in each) == pytest.approx(parts.whole_w_m2[0], rel=1e-12)
    seen = through(parts, sun(zenith, azimuth), Plane(tilt, turned))
    assert seen.whole_w_m2[0] <= parts.whole_w_m2[0] * (1 + 1e-6)


def test_many_moments_are_the_single_moments_one_by_one():
    moments = np.arange("1990-06-20T08", "1990-06-20T14", dtype="datetime64[h]").astype("datetime64[s]")
    many, plane = course_over(PLACE, moments), Plane(35, 160)
    for place, moment in enumerate(moments):
        alone = sun_at(PLACE, moment.item().replace(tzinfo=UTC))
        assert many.zenith_deg[place] == pytest.approx(alone.zenith_deg, abs=1e-6)
        assert many.azimuth_deg[place] == pytest.approx(alone.azimuth_deg, abs=1e-6)
        aside = incidence_deg(alone.height_deg, alone.azimuth_deg, plane)
        assert many.incidence_deg(plane)[place] == pytest.approx(aside, abs=1e-5)


def test_several_years_above_each_other_are_each_year_by_itself():
    moments = typical_middles(1.0)[4000:4024]
    course, plane = course_over(PLACE, moments), Plane(30, 180)
    diffuse = np.linspace(0, 300, 48).reshape(2, 24)
    for way in ("isotropic", "Hay-Davies", "Perez"):
        both = on_plane(Light(diffuse * 2, diffuse, diffuse), course, plane, way).whole_w_m2
        alone = on_plane(Light(diffuse[1] * 2, diffuse[1], diffuse[1]), course, plane, way).whole_w_m2
        assert both[1] == pytest.approx(alone)


def test_light_from_behind_does_not_come_through():
    assert straight_share(np.array([90.0, 120.0]), "ashrae") == pytest.approx([0, 0])


def test_a_year_of_another_length_or_with_light_below_zero_is_our_own_mistake():
    year, none = typical_middles(0.0), np.zeros(8760)
    with pytest.raises(ValueError, match="8760"):
        Hours(PLACE, 0.0, year[:-1], *([none[:-1]] * 5), source="invented")
    with pytest.raises(ValueError, match="below zero"):
        Hours(PLACE, 0.0, year, none - 1, none, none, none, none, source="invented")
    with pytest.raises(ValueError, match="every hour"):
        Hours(PLACE, 0.0, year, none * np.nan, none, none, none, none, source="invented")
