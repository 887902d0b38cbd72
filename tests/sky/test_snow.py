"""Snow covers a panel, slides off by Marion's law, and dirt is what a person says month by month."""

from dataclasses import replace

import numpy as np
import pytest

from panewright.errors import SkyError
from panewright.sky.hours import Hours, typical_middles
from panewright.sky.monthly import USUAL_DIRT, left_share
from panewright.sky.place import Place, Plane
from panewright.sky.snow import snow_cover, with_snowy_ground

FALL = 100  # the hour in which it snows


def winter(air_c, snow=True):
    """Ten centimetres fall at one hour and lie for four days."""
    none, depth = np.zeros(8760), np.zeros(8760)
    depth[FALL : FALL + 96] = 100.0
    return Hours(
        Place(47.0, 8.0), 1.0, typical_middles(1.0), none, none, none, np.full(8760, air_c), none,
        source="invented", snow_mm=depth if snow else None,
    )  # fmt: skip


def test_it_slides_off_by_a_fifth_of_its_length_an_hour_times_the_slope_once_it_is_not_too_cold():
    cover = snow_cover(winter(2.0), Plane(30, 180), np.full(8760, 300.0))
    assert cover[FALL - 1] == 0
    assert cover[FALL] == 1
    assert cover[FALL + 4] == pytest.approx(1 - 4 * 0.197 * 0.5, abs=1e-9)
    assert cover[FALL + 11] == 0


def test_in_the_cold_it_stays_till_it_is_gone_from_the_ground():
    cover = snow_cover(winter(-8.0), Plane(30, 180), np.full(8760, 300.0))
    assert cover[FALL : FALL + 96].min() == 1
    assert cover[FALL + 96 :].max() == 0


def test_strong_light_loosens_it_in_the_frost():
    assert snow_cover(winter(-8.0), Plane(30, 180), np.full(8760, 700.0))[FALL + 20] == 0


def test_a_level_panel_does_not_shed_it_and_a_year_without_snow_has_none():
    assert snow_cover(winter(2.0), Plane(0, 180), np.full(8760, 300.0))[FALL + 90] == 1
    assert snow_cover(winter(2.0, snow=False), Plane(30, 180), np.zeros(8760)).max() == 0


def test_snow_on_the_ground_throws_light_back_where_no_file_tells_the_albedo():
    year = winter(-8.0)
    albedo = with_snowy_ground(year, 0.2).albedo
    assert albedo[FALL] == 0.7
    assert albedo[FALL - 1] == 0.2
    assert with_snowy_ground(replace(year, albedo=np.full(8760, 0.3)), 0.2).albedo[FALL] == 0.3
    assert with_snowy_ground(winter(2.0, snow=False), 0.2).albedo is None


def test_dirt_is_told_by_month():
    months = np.array([0, 5, 11])
    assert left_share(USUAL_DIRT, months) == pytest.approx([0.98] * 3)
    with pytest.raises(SkyError) as wrong:
        left_share((3.0, *[0.02] * 11), months)
    assert wrong.value.problems[0].key == "lost, January"
    with pytest.raises(SkyError, match="There are 2 shares"):
        left_share((0.1, 0.2), months)
