"""A state found at once is the one that the walked path comes to."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest

from panewright.glass.plate import at_once, field
from panewright.glass.plate.at_once import state_at
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import STEEPEST, bend_supported, shape_of
from panewright.glass.plate.held_path import HeldPath
from panewright.glass.plate.holding import Patch, Pressing, Supported
from panewright.glass.plate.path import scale
from panewright.units import MM

GLASS = Elastic(70e9, 0.23)
MIDDLE, BESIDE, ASKEW = (0.0, 0.0), (0.0, 1.0), (0.4, 0.3)


def asked(plate, force_n, place, pressure_pa=100.0, sides="four sides"):
    """A path not yet walked, the load it is asked for, and how far it is worth walking."""
    across = (plate.short_mm / 2 - 150) * place[1]
    pressing = Pressing(pressure_pa, (Patch(force_n, place[0] * plate.long_mm / 2, across),))
    whole_n, shape = shape_of(Supported(plate, sides), pressing)
    unit_n = plate.load_unit_pa * (plate.short_mm * MM) ** 2 * scale(0.23) ** 3
    return HeldPath(shape), whole_n / unit_n, STEEPEST * plate.short_mm / plate.thickness_mm / scale(0.23)


@pytest.mark.parametrize(
    ("aspect", "short_mm", "thick_mm", "force_n", "place"),
    [
        (1.0, 1300, 2.8, 1500, BESIDE),
        (1.3, 550, 3.0, 750, MIDDLE),
        (1.3, 550, 3.0, 750, ASKEW),
        (1.9, 700, 3.0, 750, MIDDLE),
        (1.9, 700, 3.0, 750, BESIDE),
        (2.9, 900, 3.8, 1500, MIDDLE),
        (2.9, 900, 3.8, 1500, BESIDE),
        (4.5, 380, 3, 750, MIDDLE),
        (4.5, 380, 3, 750, ASKEW),
    ],
)
def test_it_is_the_state_that_the_walked_path_comes_to(aspect, short_mm, thick_mm, force_n, place):
    path, load, farthest = asked(Plate(aspect * short_mm, short_mm, thick_mm, GLASS), force_n, place)
    found = state_at(path, load, farthest)
    walked, reached = path.at_load(load, farthest)
    assert reached
    assert found is not None
    assert found.load == pytest.approx(walked.load, rel=1e-12)
    assert np.abs(found.w - walked.w).max() <= 1e-7 * np.abs(walked.w).max()
    assert np.abs(found.f - walked.f).max() <= 1e-7 * np.abs(walked.f).max()


def test_a_start_too_far_off_is_not_taken():
    assert state_at(*asked(Plate(4.3 * 900, 900, 2.8, GLASS), 2000.0, MIDDLE)) is None


def test_a_small_load_a_free_side_and_an_even_pressure_are_walked():
    pane = Plate(1300, 700, 3.0, GLASS)
    assert state_at(*asked(pane, 5.0, MIDDLE, 1.0)) is None
    assert state_at(*asked(pane, 750.0, MIDDLE, sides="two long sides")) is None
    assert state_at(*asked(pane, 0.0, MIDDLE, 900.0)) is None


def test_what_bends_too_far_is_not_told():
    pane = Plate(700, 500, 2.0, GLASS)
    path, load, farthest = asked(pane, 30e3, MIDDLE)
    assert state_at(path, load, farthest) is None
    assert not bend_supported(Supported(pane), Pressing(0.0, (Patch(30e3),))).known


def test_a_strip_longer_than_the_theory_is_asked_for_takes_no_more_room_than_a_pane():
    """Its functions once grew with its length: 80 to 1 took gigabytes, to say that it is not known."""
    strip = Plate(80 * 300, 300, 4.0, GLASS)
    tracemalloc.start()
    try:
        assert not bend_supported(Supported(strip), Pressing(100.0, (Patch(750.0),))).known
        assert tracemalloc.get_traced_memory()[1] < 100e6
    finally:
        tracemalloc.stop()


def test_where_it_does_not_settle_the_path_is_walked(monkeypatch):
    held, knee = Supported(Plate(1300, 700, 3.0, GLASS)), Pressing(100.0, (Patch(750.0),))
    found = bend_supported(held, knee).worst_mpa
    bend_supported.cache_clear()
    monkeypatch.setattr(at_once, "_SLOWEST", 1e-9)
    assert bend_supported(held, knee).worst_mpa == pytest.approx(found, rel=1e-7)
    assert field.held_path(shape_of(held, knee)[1]).stretches
    bend_supported.cache_clear()
