"""Cells to buy so that enough good ones are left."""

from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.price.breakage import SURE, cells_to_buy


def chance_of_enough(bought, needed, breakage):
    """Chance that of so many bought at least so many are good: the binomial tail, term by term."""
    return sum(
        comb(bought, broken) * breakage**broken * (1 - breakage) ** (bought - broken)
        for broken in range(bought - needed + 1)
    )


@given(st.integers(1, 400), st.floats(0.001, 0.3))
def test_what_is_bought_is_enough_and_one_fewer_is_not(needed, breakage):
    bought = cells_to_buy(needed, breakage)
    assert chance_of_enough(bought, needed, breakage) >= SURE - 1e-9
    if bought > needed:
        assert chance_of_enough(bought - 1, needed, breakage) < SURE + 1e-9


@pytest.mark.parametrize("needed", [0, -3])
def test_nothing_needed_is_nothing_bought(needed):
    assert cells_to_buy(needed) == 0


def test_a_very_large_order_does_not_run_out_of_digits():
    assert 36_000 / 0.97 < cells_to_buy(36_000) < 36_000 / 0.97 + 200
