"""Laws of hands and knees, and their forces: ASCE 7-16 table 4.3-1, EN 1991-1-1 table 6.10 (memory)."""

import pytest

from panewright.glass.load import PatchLoad
from panewright.structure.panes.touch import touches


def test_a_knee_is_300_lbf_under_asce_and_never_factored():
    hand, knee = touches("ASCE")
    assert knee.force_n == pytest.approx(1334, abs=0.5)
    assert not hand.factored
    assert not knee.factored


def test_a_knee_is_1_kn_under_en_and_half_as_much_again_factored():
    by_name = {touch.name: touch for touch in touches("EN")}
    assert by_name["one knee"].force_n == 1000.0
    assert by_name["one knee, factored"].force_n == pytest.approx(1500.0)
    assert [touch.factored for touch in touches("EN")] == [False, False, True, True]


@pytest.mark.parametrize("family", ["ASCE", "EN"])
def test_a_knee_is_never_lighter_than_a_hand(family):
    hand, knee = touches(family)[:2]
    assert knee.force_n > hand.force_n
    assert knee.duration_s > hand.duration_s


@pytest.mark.parametrize(("force_n", "side_mm", "duration_s"), [(-1, 100, 3), (1, 0, 3), (1, 100, 0)])
def test_a_patch_without_size_or_time_is_refused(force_n, side_mm, duration_s):
    with pytest.raises(ValueError, match="a patch has a size"):
        PatchLoad("thumb", force_n, side_mm, duration_s, factored=False)
