"""Light on a tilted plane against light that was measured there.

[R] Radiation instruments at the laboratory in Golden, Colorado, 1 to 5 February 2019, as pvanalytics 0.2.2
    carries them (data/irradiance_RMIS_NREL.csv): level, direct, diffuse and on a plane that looks south. Here
    every full hour from 11 to 16 whose three lights close to 5 % + 10 W/m2 with the sun 10 degrees up. The
    plane's tilt of 40 degrees and the place are recalled; the ground's albedo nobody wrote down.
"""

from __future__ import annotations

import numpy as np
import pytest

from panewright.sky.course import course_over
from panewright.sky.hours import Light
from panewright.sky.place import Place, Plane
from panewright.sky.tilted import on_plane

GOLDEN, ZONE_H = Place(39.742, -105.18, 1829.0), -7
READ = (  # local clock; level, direct, diffuse, on the plane [W/m2]
    ("2019-02-01T11:00", 565.7, 1008.3, 87.3, 996.6),
    ("2019-02-01T12:00", 623.5, 1037.1, 65.6, 1075.0),
    ("2019-02-01T13:00", 612.6, 1035.3, 57.8, 1058.0),
    ("2019-02-01T14:00", 532.9, 1008.0, 53.8, 947.1),
    ("2019-02-01T15:00", 399.4, 951.0, 48.4, 756.8),
    ("2019-02-01T16:00", 221.4, 813.7, 39.9, 491.4),
    ("2019-02-02T11:00", 584.8, 1038.2, 86.5, 1021.6),
    ("2019-02-02T12:00", 680.2, 1049.9, 107.1, 1156.9),
    ("2019-02-02T13:00", 320.4, 175.8, 229.8, 481.0),
    ("2019-02-02T14:00", 198.5, 2.8, 204.1, 223.6),
    ("2019-02-02T15:00", 467.4, 687.0, 209.3, 725.9),
    ("2019-02-02T16:00", 160.1, 176.6, 129.8, 239.9),
    ("2019-02-04T11:00", 598.8, 680.0, 269.5, 919.6),
    ("2019-02-04T12:00", 760.8, 941.0, 235.1, 1169.8),
    ("2019-02-04T13:00", 651.6, 967.5, 109.5, 1103.9),
    ("2019-02-04T14:00", 521.4, 750.9, 144.2, 885.0),
    ("2019-02-04T15:00", 453.2, 875.6, 109.6, 813.8),
    ("2019-02-04T16:00", 274.3, 638.2, 118.3, 505.2),
    ("2019-02-05T11:00", 610.7, 912.5, 137.2, 992.1),
    ("2019-02-05T12:00", 653.0, 1001.2, 92.2, 1077.0),
    ("2019-02-05T13:00", 627.3, 992.9, 70.6, 1054.7),
    ("2019-02-05T14:00", 553.3, 979.1, 63.3, 951.3),
    ("2019-02-05T15:00", 431.9, 974.8, 50.3, 783.9),
    ("2019-02-05T16:00", 253.1, 860.6, 41.9, 526.0),
)
WHEN = np.array([row[0] for row in READ], "datetime64[s]") - np.timedelta64(ZONE_H, "h")
LEVEL, DIRECT, DIFFUSE, PLANE = np.array([row[1:] for row in READ]).T


def reckoned(way, albedo=0.2):
    light = Light(LEVEL, DIRECT, DIFFUSE)
    return on_plane(light, course_over(GOLDEN, WHEN), Plane(40, 180, albedo), way).whole_w_m2


def test_level_light_is_direct_and_diffuse_where_the_sun_stands():
    closed = DIRECT * course_over(GOLDEN, WHEN).upright + DIFFUSE
    assert (np.abs(closed - LEVEL) <= 0.05 * LEVEL + 10).all()


@pytest.mark.parametrize("way", ["Hay-Davies", "Perez"])
def test_light_on_the_plane_is_what_was_measured_within_what_a_ground_may_be(way):
    """From bare ground (0.2) to snow (0.6) the sums lie about the measured one, within three in a hundred."""
    bare, snowy = reckoned(way).sum() / PLANE.sum(), reckoned(way, 0.6).sum() / PLANE.sum()
    assert abs(bare - 1) < 0.03
    assert 0 < snowy - bare < 0.04
    assert np.abs(reckoned(way) - PLANE).max() < 0.08 * PLANE.max()


def test_a_sky_that_is_even_all_over_comes_out_short():
    assert reckoned("isotropic").sum() < 0.98 * PLANE.sum()
    assert abs(reckoned("Hay-Davies").sum() / PLANE.sum() - 1) < abs(
        reckoned("isotropic").sum() / PLANE.sum() - 1
    )
