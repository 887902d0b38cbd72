"""J. Duffie, W. Beckman, Solar Engineering of Thermal Processes: worked examples of chapters 1 and 2.

Examples 1.5.1 and 1.6.1 seen as reprinted; 1.8.1, 1.8.2, 1.10.1, 1.10.2 recalled. The book's sun is Cooper's
declination, off by up to 1.1 degrees about the equinoxes, and 1367 W/m2; it is put in where an example hangs
on it, so that the printed digits are met.
"""

from math import cos, radians, sin

import numpy as np
import pytest

from panewright.sky.course import Course, course_over
from panewright.sky.made.days import clearest_day
from panewright.sky.made.means import outside_kwh_m2
from panewright.sky.place import Place, Plane
from panewright.sky.split import sky_share

MADISON = Place(43.0, -89.4, 270.0)
MJ = 3.6e-3  # in a watt hour


def sun(latitude, declination, hour):
    """Where the book's sun stands, as we count: azimuth from north over east."""
    phi, delta, omega = radians(latitude), radians(declination), radians(hour)
    up = sin(phi) * sin(delta) + cos(phi) * cos(delta) * cos(omega)
    east = -cos(delta) * sin(omega)
    north = cos(phi) * sin(delta) - sin(phi) * cos(delta) * cos(omega)
    zenith = np.degrees(np.arccos([up]))
    return Course(zenith, np.degrees(np.arctan2([east], [north])) % 360, np.ones(1), np.ones(1))


def test_1_6_1_incidence_on_a_plane_45_degrees_steep_15_degrees_west_of_south():
    plane = Plane(45, 195)
    assert sun(43, -14.0, -22.5).projection(plane)[0] == pytest.approx(0.817, abs=5e-4)
    assert sun(43, -13.946341, -22.5).incidence_deg(plane)[0] == pytest.approx(35.176, abs=0.05)


@pytest.mark.parametrize(
    ("latitude", "declination", "hour", "plane", "ratio"),
    [(43, -14.0, -22.5, Plane(45, 195), 1.66), (40, -13.0, -37.5, Plane(30, 180), 1.61)],
)
def test_1_8_1_and_1_8_2_beam_on_the_plane_over_beam_on_level_ground(
    latitude, declination, hour, plane, ratio
):
    """The book divides cosines of three digits."""
    found = sun(latitude, declination, hour)
    upright, slanted = round(found.upright[0], 3), round(found.projection(plane)[0], 3)
    assert slanted / upright == pytest.approx(ratio, abs=5e-3)


def test_1_5_1_solar_time_on_3_february_at_half_past_ten():
    """The sun stands due south at its noon: 10:30 by the clock is 10:19 by the sun."""
    clock = np.datetime64("1990-02-03T18:00", "s") + np.arange(60) * np.timedelta64(60, "s")  # 12:00 CST on
    noon = np.interp(180, course_over(MADISON, clock).azimuth_deg, np.arange(60))
    assert 630 - noon == pytest.approx(619, abs=0.5)


def outside(day, latitude, hours):
    """Light outside the air over hours by the sun, with the book's sun. [MJ/m2]"""
    declination = 23.45 * sin(radians(360 * (284 + day) / 365))
    cosines = [sun(latitude, declination, 15 * (hour - 12)).upright[0] for hour in hours]
    return 1367 * (1 + 0.033 * cos(radians(360 * day / 365))) * np.mean(cosines) * MJ


def test_1_10_1_a_day_s_light_outside_the_air_on_15_april():
    found = 24 * outside(105, 43, (np.arange(24 * 60) + 0.5) / 60)
    assert found == pytest.approx(33.8, abs=0.05)
    clock = np.datetime64("1990-04-15T06:30", "s") + np.arange(24) * np.timedelta64(3600, "s")
    true = course_over(MADISON, clock)
    assert (true.outside_w_m2 * true.upright).sum() * MJ == pytest.approx(
        found, rel=0.012
    )  # Cooper's 0.2 deg


def test_1_10_2_an_hour_s_light_outside_the_air():
    """10 to 11 by the sun."""
    assert outside(105, 43, 10 + (np.arange(60) + 0.5) / 60) == pytest.approx(3.79, abs=5e-3)


def test_h0_of_klein_s_mean_days_at_40_degrees_north():
    """Derived with the book's formulas; by the true sun a month's mean lies within 2.5 % of it."""
    day = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344]
    told = [
        15.211189, 20.538725, 27.438441, 34.626567, 39.694872, 41.756541, 40.666235, 36.533124, 29.994133,
        22.531845, 16.441649, 13.757891,
    ]  # fmt: skip
    hours = (np.arange(24 * 20) + 0.5) / 20
    assert [24 * outside(n, 40, hours) for n in day] == pytest.approx(told, rel=2e-3)
    days = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    assert outside_kwh_m2(Place(40.0, 0.0), 0.0) * 3.6 / days == pytest.approx(told, rel=0.025)


def test_erbs_s_three_pieces_meet():
    """The formula of 2.10 (recalled): at 0.22 and at 0.80 its pieces agree to its own last digits."""
    for edge in (0.22, 0.80):
        below, above = sky_share(np.array([edge - 1e-9, edge + 1e-9]))
        assert below == pytest.approx(above, abs=2e-3)


def test_the_clearest_day_of_a_month():
    """Hollands and Huget's curve at K 0.6 (derived by hand): 0.6313 + 0.1602 - 11.9 x 0.15^8."""
    assert clearest_day(np.array(0.6)) == pytest.approx(0.6313 + 0.1602 - 11.9 * 2.563e-7, abs=1e-6)
