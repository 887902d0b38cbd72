"""Lots of the campaign: what is asked of them can be asked, of panels of any size."""

from __future__ import annotations

import numpy as np
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, Limits, MostWatts


@pytest.mark.parametrize("watts", [0.4, 4.0, 14.0, 160.0])
def test_price_steps_of_the_campaign_lie_above_nothing_and_rise(watts):
    found = [step.from_w for step in matching.steps(watts).steps]
    assert found[0] > 0
    assert found[0] < watts < found[-1]
    assert (np.diff(found) > 0).all()


def test_a_lot_of_which_sorting_makes_no_panel_is_asked_for_what_its_cells_give():
    lot = matching.standing(matching.cells(12, 1, matching.Drawn(leaky=1.0)))
    asked = Asked(matching.wiring(6, 1, 1), MostWatts(), Limits(10.0, 0))
    assert not matching.sorted_w(lot, asked).size
    assert matching.aims(lot, asked)[1].rating_w == pytest.approx(6 * lot.power_w.mean(), abs=0.05)
