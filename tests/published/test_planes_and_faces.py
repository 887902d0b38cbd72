"""Light on tilted planes and through a face, single moments: pvlib 0.16.1 (derived: they hold our use of it).

Albedo 0.2, 1380 W/m2 outside the air, Kasten and Young's air mass. Glass n 1.526, 4 /m, 2 mm; b0 0.05.
"""

import numpy as np
import pytest

from panewright.sky.course import Course
from panewright.sky.face import straight_share
from panewright.sky.hours import Light
from panewright.sky.place import Plane
from panewright.sky.tilted import on_plane

MOMENTS = [  # plane, zenith, azimuth, air mass, (level, direct, diffuse), (isotropic, Hay-Davies, Perez)
    (Plane(40, 180), 30, 180, 1.15399223, (850, 800, 157.2), (946.543518, 969.703026, 991.615706)),
    (Plane(30, 180), 60, 120, 1.99429285, (420, 600, 120), (507.299889, 526.396867, 540.883426)),
    (Plane(90, 180), 40, 200, 1.30422354, (650, 700, 113.8), (544.715941, 561.369253, 592.295741)),
    (Plane(20, 90), 70, 250, 2.90314665, (190, 300, 87.4), (91.7251332, 74.3747908, 67.3530481)),
]


@pytest.mark.parametrize(("plane", "zenith", "azimuth", "mass", "light", "sums"), MOMENTS)
def test_one_moment_on_a_plane_by_each_way(plane, zenith, azimuth, mass, light, sums):
    sun = Course(*(np.array([float(each)]) for each in (zenith, azimuth, 1380, mass)))
    fell = Light(*(np.array([float(each)]) for each in light))
    found = [on_plane(fell, sun, plane, way).whole_w_m2[0] for way in ("isotropic", "Hay-Davies", "Perez")]
    assert found == pytest.approx(sums, rel=1e-7)


def test_the_share_that_comes_through_a_face():
    angles = np.array([0.0, 30, 45, 60, 70, 80])
    plain = [1.0, 0.99788686, 0.98797788, 0.94600291, 0.85972019, 0.63411669]
    assert straight_share(angles) == pytest.approx(plain, rel=1e-7)
    one_figure = [1.0, 0.99226497, 0.97928932, 0.95, 0.90380978, 0.76206148]
    assert straight_share(angles, "ashrae") == pytest.approx(one_figure, rel=1e-7)
