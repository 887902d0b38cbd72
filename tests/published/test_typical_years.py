"""Two typical years that pvlib ships, step by step from the file to a tilted plane.

Files: TMY3 of Greensboro, North Carolina, and TMY2 of Miami, Florida (National Solar Radiation Data Base).
Sums: pvlib 0.16.1 with the sun of its nrel_numpy at the middle of each hour of 1990, apparent zenith,
Spencer's light outside the air, Kasten and Young's air mass held at 87 degrees, albedo 0.2, facing south
(derived, so they hold our use of it). Each is to be met within 0.1 %. TMY3 of Sand Point, Alaska: the same
reckoned here.
"""

import warnings
from dataclasses import replace
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import pytest

from panewright.climate.rise import faiman_c
from panewright.intake.weather.weather import read_weather
from panewright.sky.course import course_over
from panewright.sky.place import Plane
from panewright.sky.tilted import on_plane

DATA = Path(pvlib.__file__).parent / "data"
GREENSBORO, MIAMI, SAND_POINT = "723170TYA.CSV", "12839.tm2", "703165TY.csv"
WAYS = {"isotropic": "isotropic", "Hay-Davies": "haydavies", "Perez": "perez"}


@pytest.fixture(scope="module")
def years():
    return {name: read_weather((DATA / name).read_bytes(), name) for name in (GREENSBORO, MIAMI, SAND_POINT)}


def plane_of(hours, tilt, way):
    light = replace(hours.light, albedo=None)  # 0.2 in every hour
    return on_plane(light, course_over(hours.place, hours.middles), Plane(tilt, 180), way).whole_w_m2


def test_sums_and_means_of_the_files(years):
    told = {
        GREENSBORO: (1566.203, 1476.549, 682.223, 14.421849, 3.0544406),
        MIAMI: (1792.618, 1504.922, 809.504, 24.314007, 4.3371804),
    }
    for name, (level, direct, diffuse, air, wind) in told.items():
        found = years[name]
        light = (found.level_w_m2, found.direct_w_m2, found.diffuse_w_m2)
        assert [each.sum() / 1e3 for each in light] == pytest.approx((level, direct, diffuse), rel=1e-7)
        assert (found.air_c.mean(), found.wind_m_s.mean()) == pytest.approx((air, wind), rel=1e-6)


def test_light_month_by_month(years):
    level = [
        74.848, 85.751, 131.766, 162.302, 174.719, 187.527, 188.581, 174.054, 132.813, 111.264, 73.045, 69.533
    ]  # fmt: skip
    hours = years[GREENSBORO]
    assert hours.by_month(hours.level_w_m2) / 1e3 == pytest.approx(level, abs=6e-4)
    steep = [
        106.37006, 114.48432, 150.46287, 164.32567, 162.88722, 167.96486, 171.34756, 169.06965, 143.88583,
        136.77489, 101.97767, 107.04751,
    ]  # fmt: skip
    assert hours.by_month(plane_of(hours, 36.1, "isotropic")) / 1e3 == pytest.approx(steep, rel=1e-3)


@pytest.mark.parametrize(
    ("name", "tilt", "sums"),
    [
        (GREENSBORO, 36.1, (1696.5981, 1737.4289, 1774.6573)),
        (GREENSBORO, 30, (1707.4928, 1744.457, 1777.0638)),
        (MIAMI, 25.8, (1861.1068, 1887.0787, 1919.9906)),
        (MIAMI, 30, (1849.2211, 1877.1178, 1913.8291)),
    ],
)
def test_a_year_on_a_tilted_plane_by_each_way(years, name, tilt, sums):
    for way, told in zip(WAYS, sums, strict=True):
        assert plane_of(years[name], tilt, way).sum() / 1e3 == pytest.approx(told, rel=1e-4), way


def test_on_level_ground_the_parts_give_back_what_the_file_has(years):
    for name, told in ((GREENSBORO, 1566.3638), (MIAMI, 1785.198)):
        assert plane_of(years[name], 0, "isotropic").sum() / 1e3 == pytest.approx(told, rel=1e-4)


def test_another_site_beside_pvlib_itself(years):
    """55 degrees north, where the sun is low: 60 degrees steep, facing south-east by south."""
    hours, when = years[SAND_POINT], pd.date_range("1990-01-01 09:30", periods=8760, freq="h", tz="UTC")
    place = hours.place
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        sun = pvlib.solarposition.get_solarposition(
            when, place.latitude_deg, place.longitude_deg, place.altitude_m
        )
        outside = pvlib.irradiance.get_extra_radiation(when)
    mass = pvlib.atmosphere.get_relative_airmass(np.minimum(sun.apparent_zenith, 87))
    light = replace(hours.light, albedo=None)
    for way, theirs in WAYS.items():
        found = pvlib.irradiance.get_total_irradiance(
            *(60, 155, sun.apparent_zenith, sun.azimuth),
            *(light.direct_w_m2, light.level_w_m2, light.diffuse_w_m2),
            dni_extra=outside,
            airmass=mass,
            albedo=0.2,
            model=theirs,
        )
        told = found["poa_global"].fillna(0).sum()
        ours = on_plane(light, course_over(place, hours.middles), Plane(60, 155), way).whole_w_m2
        assert ours.sum() == pytest.approx(told, rel=1e-4), way


def test_power_without_losses_and_the_cell_s_heat_weighed_by_the_light(years):
    """Faiman's rise, 0.43 % a kelvin; latitude tilt, Hay-Davies (derived)."""
    for name, tilt, power, heat in (
        (GREENSBORO, 36.1, 1682.2159, 32.390359),
        (MIAMI, 25.8, 1789.9913, 36.964769),
    ):
        hours = years[name]
        light = plane_of(hours, tilt, "Hay-Davies")
        cell = np.array([faiman_c(*each) for each in zip(light, hours.air_c, hours.wind_m_s, strict=True)])
        assert (light * (1 - 0.0043 * (cell - 25))).sum() / 1e3 == pytest.approx(power, rel=1e-3)
        assert (light * cell).sum() / light.sum() == pytest.approx(heat, rel=1e-3)
