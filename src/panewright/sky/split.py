"""Light on level ground parted into what comes straight and what the sky gives.

D. Erbs, S. Klein, J. Duffie, Solar Energy 28, 1982, p. 293, as pvlib has it: with the sun within 3 degrees of
the horizon all of it is the sky's.
"""

from __future__ import annotations

import warnings

import numpy as np

from panewright.sky.course import Course
from panewright.sky.hours import Floats, Light

_MOST_ZENITH_DEG = 87.0
_LEAST_UPRIGHT = 0.065  # below it the clearness is that of a sun so low


def split(level_w_m2: Floats, course: Course) -> Light:
    """The three kinds of light, which close; arrays of several years may stand above each other."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of one library about another
        from pvlib.irradiance import clearness_index
    clear = clearness_index(
        level_w_m2, course.zenith_deg, course.outside_w_m2, _LEAST_UPRIGHT, max_clearness_index=1
    )
    diffuse = sky_share(np.asarray(clear)) * level_w_m2
    low = course.zenith_deg > _MOST_ZENITH_DEG
    direct = np.where(low, 0.0, (level_w_m2 - diffuse) / np.maximum(course.upright, 1e-3))
    return Light(level_w_m2, direct, np.where(low, level_w_m2, diffuse))


def sky_share(clearness: Floats) -> Floats:
    """Of the light on level ground, the share of the sky's, by how clear the hour is.

    >>> sky_share(np.array([0.1, 0.5, 0.9])).round(4)
    array([0.991 , 0.6591, 0.165 ])
    """
    k = clearness
    middle = 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    return np.asarray(np.where(k <= 0.22, 1 - 0.09 * k, np.where(k <= 0.8, middle, 0.165)))
