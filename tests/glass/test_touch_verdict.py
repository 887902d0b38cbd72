"""A pane under a hand or a knee."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panewright.glass.load import PatchLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Patch, Pressing, Supported
from panewright.glass.verdict.held import plate_of
from panewright.glass.verdict.touch import judge_patch, places_mm, worst_touch

SHEET = Sheet("toughened 4", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
KNEE = PatchLoad("one knee", 1000.0, 100.0, 300.0, False)
FACTORED = replace(KNEE, name="one knee, factored", force_n=1500.0, factored=True)


def pane(thickness: float, sizes=(1600.0, 1000.0), **changes) -> Pane:
    return Pane(*sizes, replace(SHEET, nominal_mm=thickness + 0.2, thickness_mm=thickness, **changes))


def test_asce_does_not_cover_a_knee_and_the_shops_reckoning_stands_beside():
    covered, broken = judge_patch(pane(3.8), "ASCE", (KNEE,), 90.0)
    assert covered.limit is None
    assert broken.limit == 8.0
    assert broken.passed


def test_en_holds_the_factored_force_against_the_strength_of_its_duration():
    (check,) = judge_patch(pane(5.8), "EN", (KNEE, FACTORED), 90.0)
    assert check.rule == "glass strength under one knee, factored"
    assert check.limit == pytest.approx(84.28, abs=0.01)
    assert check.passed
    assert not judge_patch(pane(2.8), "EN", (FACTORED,), 90.0)[0].passed


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_no_book_covers_acrylic_under_a_knee(family):
    checks = judge_patch(pane(5.8, material="acrylic", treatment="none"), family, (KNEE, FACTORED))
    assert checks
    assert not any(check.covered for check in checks)


@settings(deadline=None, max_examples=10)
@given(st.sampled_from([2.8, 3.8, 4.8, 5.8]), st.sampled_from([2.8, 3.8, 4.8, 5.8]))
def test_thicker_glass_breaks_no_more_often(one, other):
    thin, thick = (judge_patch(pane(t), "ASCE", (KNEE,))[1].demand for t in sorted((one, other)))
    assert thick <= thin * (1 + 1e-9)


@pytest.mark.parametrize("thickness", [2.8, 3.8, 5.8])
@pytest.mark.parametrize("sizes", [(1600.0, 1000.0), (1300.0, 560.0), (1000.0, 1000.0)])
def test_no_other_place_pulls_harder_than_those_looked_at(thickness, sizes):
    held = Supported(plate_of(pane(thickness, sizes), "ASCE", 300.0))
    worst = worst_touch(held, pane(thickness, sizes), KNEE, 80.0).worst_mpa
    half = sizes[0] / 2, sizes[1] / 2
    for x, y in (
        (half[0] - 150, 0),
        (half[0] - 150, half[1] - 150),
        (half[0] / 2, half[1] / 2),
        (0, half[1] / 2),
    ):
        elsewhere = bend_supported(held, Pressing(80.0, (Patch(1000.0, x, y),)))
        assert elsewhere.worst_mpa <= 1.03 * worst


def test_places_stay_on_a_small_pane():
    small = pane(3.8, (250.0, 120.0))
    assert places_mm(small, 100.0) == ((0.0, 0.0), (0.0, 0.0))
    assert judge_patch(small, "ASCE", (KNEE,))[1].demand >= 0


def test_a_pane_narrower_than_a_hand_bears_the_whole_force_on_its_width():
    narrow = judge_patch(pane(3.8, (400.0, 75.0)), "EN", (FACTORED,), 90.0)[0]
    as_wide = judge_patch(pane(3.8, (400.0, 100.0)), "EN", (FACTORED,), 90.0)[0]
    assert 0 < narrow.demand < as_wide.demand
    beyond = judge_patch(pane(3.8, (3900.0, 75.0)), "EN", (FACTORED,), 90.0)[0]
    assert (beyond.limit, beyond.passed) == (None, False)  # a strip: outside what plate theory was tried for
