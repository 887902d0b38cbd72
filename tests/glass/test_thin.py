"""Thin-plate theory tells a touch no less than the full reckoning, but for what it says it leaves out."""

from __future__ import annotations

import pytest

from panewright.glass.pane import Pane
from panewright.glass.plate.almanac.touches import OFF
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import bend_supported
from panewright.glass.plate.holding import Patch, Pressing, Supported
from panewright.glass.plate.thin import LEAVES_OUT, thin_peak_mpa
from panewright.glass.verdict.touch import surely_bears, surely_breaks, touch_checks
from panewright.shelf.load import load_shelf
from panewright.structure.panes.touch import touches

GLASS = Elastic(70e9, 0.23)


@pytest.mark.parametrize("aspect", [1.0, 1.7, 3.2])
@pytest.mark.parametrize("short_mm", [320.0, 700.0, 1000.0])
@pytest.mark.parametrize("thick_mm", [2.9, 3.8, 5.8, 7.7])
def test_it_is_never_far_below_the_full_reckoning(aspect, short_mm, thick_mm):
    held = Supported(Plate(short_mm * aspect, short_mm, thick_mm, GLASS))
    for place in ((0.0, 0.0), (0.0, short_mm / 2 - 150)):
        pressing = Pressing(180.0, (Patch(1000.0, *place, 100.0, 100.0),))
        whole = bend_supported(held, pressing).worst_mpa
        assert thin_peak_mpa(held, pressing) >= (1 - LEAVES_OUT) * whole


def test_a_small_load_is_told_alike():
    held = Supported(Plate(1500, 700, 5.8, GLASS))
    pressing = Pressing(5.0, (Patch(20.0, 0.0, 0.0, 100.0, 100.0),))
    assert thin_peak_mpa(held, pressing) == pytest.approx(bend_supported(held, pressing).worst_mpa, rel=2e-3)


def test_a_pane_that_surely_bears_its_touches_keeps_every_check():
    asked = tuple(touch for touch in touches("EN") if touch.name.startswith("one hand"))
    sheets = [row.part for row in load_shelf().sheets if row.part.material == "glass" and not row.part.plies]
    sure = 0
    for sheet in sheets[:9]:
        pane = Pane(1470.0, 660.0, sheet)
        if surely_bears(pane, "EN", asked, 200.0, "four sides"):
            sure += 1
            assert all(check.passed for check in touch_checks(pane, "EN", asked, 200.0))
    assert 0 < sure < len(sheets)


def test_nothing_is_sure_where_it_was_not_compared():
    pane = Pane(1470.0, 660.0, load_shelf().sheets[5].part)
    assert not surely_bears(pane, "ASCE", touches("ASCE"), 200.0, "four sides")
    assert not surely_bears(pane, "EN", touches("EN"), 200.0, "two long sides")


def test_a_pane_that_surely_breaks_fails_by_about_as_much_in_full():
    hand = tuple(touch for touch in touches("EN") if touch.name.startswith("one hand"))
    sheets = [row.part for row in load_shelf().sheets if row.part.material == "glass" and not row.part.plies]
    panes = [Pane(long_mm, 660.0, sheet) for sheet in sheets for long_mm in (700.0, 1470.0)]
    told = {pane: surely_breaks(pane, "EN", hand, 200.0, "four sides") for pane in panes}
    assert any(told.values())
    assert not all(told.values())
    for pane, quick in told.items():
        (full,) = touch_checks(pane, "EN", hand, 200.0)
        if quick:
            assert not full.passed
            assert quick[0].demand == pytest.approx(full.demand, rel=OFF)
            assert (quick[0].limit, quick[0].cure, quick[0].source) == (full.limit, full.cure, full.source)
            assert not surely_breaks(pane, "EN", hand, 200.0, "four sides", use=quick[0].utilisation * 0.96)


def test_it_is_not_sure_to_break_where_it_was_not_compared_or_more_than_one_touch_counts():
    thin = next(
        row.part for row in load_shelf().sheets if row.part.name == "3.2 mm low-iron patterned tempered"
    )
    pane, hand = Pane(1470.0, 660.0, thin), tuple(each for each in touches("EN") if "hand" in each.name)
    assert surely_breaks(pane, "EN", hand, 200.0, "four sides")
    assert not surely_breaks(pane, "EN", hand, 200.0, "two long sides")
    assert not surely_breaks(pane, "ASCE", hand, 200.0, "four sides")
    assert not surely_breaks(pane, "EN", touches("EN"), 200.0, "four sides")
