"""Laws of the fingers, with all ribbons soldered and with some off."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.fingers import Fingers, finger_ohm, left_bare, ribbon_shares


@st.composite
def grids(draw):
    """A grid and some, but not all, of its ribbons off."""
    fingers = Fingers(
        draw(st.integers(1, 6)), draw(st.floats(20, 210)), draw(st.floats(10, 210)), draw(st.floats(0.5, 4))
    )
    apart = draw(st.sets(st.integers(1, fingers.busbars), max_size=fingers.busbars - 1))
    return fingers, tuple(sorted(apart))


@given(grids())
def test_loss_is_what_adding_up_small_pieces_of_finger_gives(grid):
    fingers, apart = grid
    width, n = fingers.width_mm / 1000, 60_000
    ribbons = [(k - 0.5) / fingers.busbars * width for k in range(1, fingers.busbars + 1) if k not in apart]
    x = (np.arange(n) + 0.5) * width / n
    to_ribbon = np.min(np.abs(x[:, None] - np.array(ribbons)), axis=1)
    flows = 0.0  # square of the current along the fingers, summed
    for side in (1, -1):
        for ribbon in ribbons:
            field = np.sort(to_ribbon[(np.abs(x - ribbon) == to_ribbon) & (side * (x - ribbon) > 0)])
            collected = np.arange(field.size, 0, -1) - 0.5  # pieces further out than the middle of this one
            flows += np.sum((collected * width / n) ** 2) * width / n
    per_metre = fingers.ohm_per_m * fingers.pitch_mm / 1000  # of one metre of width, all fingers side by side
    summed = per_metre / (fingers.length_mm / 1000) / width**2 * flows
    assert finger_ohm(fingers, apart) == pytest.approx(summed, rel=2e-3)


@given(grids())
def test_a_ribbon_off_never_helps(grid):
    fingers, apart = grid
    assert finger_ohm(fingers, apart) >= finger_ohm(fingers) * (1 - 1e-12)


@given(grids())
def test_the_ribbons_left_carry_the_whole_current(grid):
    fingers, apart = grid
    shares = ribbon_shares(fingers, apart)
    assert len(shares) == fingers.busbars - len(apart)
    assert sum(shares) == pytest.approx(1, rel=1e-12)


def test_the_outer_ribbon_of_three_is_missed_more_than_the_middle_one():
    fingers = Fingers(3, 156.0, 156.0)
    sound, outer, middle = (finger_ohm(fingers, apart) for apart in ((), (1,), (2,)))
    # two thirds of the width at four times the loss; half of it at nine times
    assert middle / sound == pytest.approx(2 / 3 * 4 + 1 / 3)
    assert outer / sound == pytest.approx(1 / 2 * 9 + 1 / 2)


@pytest.mark.parametrize("apart", [(0,), (4,), (1, 2, 3)])
def test_ribbons_that_are_not_there_are_refused(apart):
    with pytest.raises(ValueError, match="ribbons"):
        finger_ohm(Fingers(3, 156.0, 156.0), apart)


counts = st.integers(1, 16).flatmap(lambda busbars: st.tuples(st.just(busbars), st.integers(1, busbars)))


@given(counts)
def test_busbars_without_a_ribbon_are_as_many_as_ribbons_are_missing(count):
    busbars, ribbons = count
    bare = left_bare(busbars, ribbons)
    assert len(bare) == busbars - ribbons
    assert list(bare) == sorted(set(bare))
    assert all(1 <= number <= busbars for number in bare)


@given(st.integers(2, 16))
def test_a_ribbon_on_every_busbar_loses_least_in_the_fingers(busbars):
    fingers = Fingers(busbars, 156.0, 156.0)
    lost = [finger_ohm(fingers, left_bare(busbars, ribbons)) for ribbons in range(1, busbars + 1)]
    assert min(lost) == lost[-1]
    assert lost[0] > 2 * lost[-1]


@given(counts.filter(lambda count: count[0] <= 7))
def test_no_other_busbars_left_bare_lose_much_less(count):
    busbars, ribbons = count
    fingers = Fingers(busbars, 156.0, 156.0)
    every = (finger_ohm(fingers, bare) for bare in combinations(range(1, busbars + 1), busbars - ribbons))
    assert finger_ohm(fingers, left_bare(busbars, ribbons)) <= 1.3 * min(every)


@pytest.mark.parametrize("ribbons", [0, 4])
def test_more_ribbons_than_busbars_find_no_pad(ribbons):
    with pytest.raises(ValueError, match="3 busbars take"):
        left_bare(3, ribbons)


@pytest.mark.parametrize("wrong", [{"pitch_mm": 0.0}, {"ohm_per_m": -1.0}, {"busbars": 0}])
def test_fingers_that_cannot_be_are_refused(wrong):
    with pytest.raises(ValueError, match="fingers have a busbar"):
        Fingers(**{"busbars": 3, "width_mm": 156.0, "length_mm": 156.0, **wrong})
