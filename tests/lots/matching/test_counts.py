"""Numbers of panels under cuts: a bound never falls to nothing because a sum is too large for the solver."""

from __future__ import annotations

import pytest

from panewright.lots.matching.proof.counts import Cut, most_earning


def test_cuts_bind_and_of_equal_money_fewer_watts_are_asked():
    cut = Cut((1.0, 2.0), 3.0)
    assert most_earning((5, 11), (cut,), 3).panels == (1, 1)
    assert most_earning((5, 10), (cut,), 3, ratings_w=(90.0, 200.0)).earns == 15
    assert most_earning((5, 11), (cut,), 3, below=16).earns == 15
    assert most_earning((5, 9), (cut,), 3, below=0).earns == 0


@pytest.mark.parametrize("cents", [10**9, 10**13, 10**17, 10**21])
def test_prices_of_any_size_give_a_bound_that_is_not_too_low(cents):
    found = most_earning((cents, 2 * cents), (Cut((1.0, 3.0), 4.0),), 4, ratings_w=(90.0, 100.0))
    assert 4 * cents <= found.earns <= 8 * cents
