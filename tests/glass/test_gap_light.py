"""Light by way of the gaps, against rays thrown by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.light.gap import Behind, Opening, landing, sent_back, trapped

BEHIND = Behind(up_mm=4.3, back_mm=0.45, down_mm=3.65, index=1.48)
RAYS = 200_000


def _rays(opening, behind):
    """Share that lands on a cell of all rays beyond the critical angle, each thrown by chance."""
    chance = np.random.default_rng(7)
    disc = np.sqrt(chance.random(RAYS)) * np.exp(2j * np.pi * chance.random(RAYS))  # Lambert: even on a disc
    steep = np.abs(disc) > 1 / behind.index
    tangent = disc[steep].real / np.sqrt(1 - np.abs(disc[steep]) ** 2)
    place = chance.random(tangent.size) * opening.width_mm
    leaves, lands = place + behind.back_mm * tangent, place + (behind.up_mm + behind.down_mm) * tangent
    rim = opening.sides == 1
    free = (leaves <= opening.width_mm) & (rim | (leaves >= 0))
    hits = (lands > opening.width_mm) | (~np.full(lands.shape, rim) & (lands < 0))
    return steep.mean(), float((free & hits).mean())


@pytest.mark.parametrize(("width_mm", "sides"), [(2, 2), (5, 2), (12, 2), (8, 1), (25, 1)])
def test_rays_thrown_by_chance_land_as_often(width_mm, sides):
    opening = Opening(1.0, width_mm, sides)
    beyond, hits = _rays(opening, BEHIND)
    assert beyond == pytest.approx(trapped(1.48), abs=5e-3)
    assert landing(opening, BEHIND) == pytest.approx(hits, abs=0.015)


@given(st.floats(0.5, 60), st.sampled_from([1, 2]), st.floats(0, 3), st.floats(1, 6))
def test_landing_is_a_share(width_mm, sides, back_mm, above_mm):
    behind = Behind(back_mm + above_mm, back_mm, above_mm, 1.41)
    assert 0 <= landing(Opening(1.0, width_mm, sides), behind) <= 1 / (3 - sides)


def test_a_deeper_back_sheet_sends_less_back():
    opening = Opening(1.0, 3.0, 2)
    deep = Behind(up_mm=5.85, back_mm=2.0, down_mm=3.65, index=1.48)
    assert landing(opening, deep) < 0.6 * landing(opening, BEHIND)


def test_no_white_sheet_and_no_denser_cover_send_nothing_back():
    opening = (Opening(1000.0, 3.0, 2),)
    black = Behind(4.3, 0.45, 3.65, 1.48, white=0.0)
    assert sent_back(opening, black, 1e5, 0.95) == 0
    assert trapped(1.0) == 0


def test_the_usual_gain_is_two_or_three_parts_in_ten_of_the_gaps_light():
    gain = sent_back((Opening(1000.0, 3.0, 2),), BEHIND, 1e5, 0.95)
    assert 0.2 < gain / 0.01 < 0.35


@pytest.mark.parametrize("figures", [(0.4, 0.45, 3.0, 1.48), (4.0, 0.4, 0.0, 1.48), (4.0, 0.4, 3.0, 0.9)])
def test_a_sheet_that_cannot_be_is_refused(figures):
    with pytest.raises(ValueError, match="behind cells"):
        Behind(*figures)
