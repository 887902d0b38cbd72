"""From level ground to the cells: what each step takes adds up, and each takes what it should."""

from dataclasses import replace

import numpy as np
import pytest

from panewright.sky.hours import Hours
from panewright.sky.made.clear_year import clear_year
from panewright.sky.place import Place, Plane
from panewright.sky.received import Seen, Standing, received

PLANE = Plane(35, 180)


@pytest.fixture(scope="module")
def year() -> Hours:
    return clear_year(Place(47.1, 8.6, 430.0), (-5.0,) * 3 + (12.0,) * 9, 0.7)


def by_name(found):
    return {step.name: step.adds_w_m2.sum() for step in found.steps}


def test_steps_add_up_to_what_the_cells_get_hour_by_hour(year):
    depth = np.where(np.arange(8760) < 900, 80.0, 0.0)
    found = received(replace(year, snow_mm=depth), Standing(PLANE, dirt=(0.1,) * 12))
    ends = found.level_w_m2 + sum(step.adds_w_m2 for step in found.steps)
    assert np.abs(ends - found.cells_w_m2).max() < 1e-9
    assert by_name(found)["snow"] < 0
    assert found.cover[:900].max() == 1


def test_facing_south_gains_and_all_else_takes(year):
    found = by_name(received(year, Standing(PLANE)))
    assert found["turned"] > 0
    assert found["around"] == pytest.approx(0, abs=1e-6)
    assert found["snow"] == pytest.approx(0, abs=1e-6)
    before = found["turned"] + year.level_w_m2.sum()
    assert found["face"] / before == pytest.approx(-0.03, abs=0.01)
    assert found["dirt"] / (before + found["face"]) == pytest.approx(-0.02, rel=1e-9)


def test_what_stands_around_takes_of_each_part_its_share(year):
    open_ = received(year, Standing(PLANE, dirt=(0.0,) * 12))
    shaded = received(year, Standing(PLANE, dirt=(0.0,) * 12, seen=Seen(sun=0.0, dome=0.5)))
    assert shaded.cells.beam_w_m2.max() == 0
    assert shaded.cells.halo_w_m2.max() == 0
    assert shaded.cells.dome_w_m2.sum() == pytest.approx(open_.cells.dome_w_m2.sum() / 2)
    assert shaded.cells.ground_w_m2.sum() == pytest.approx(open_.cells.ground_w_m2.sum())
