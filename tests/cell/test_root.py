"""A bracketed root."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.cell.root import root


@given(st.floats(-30, 30), st.floats(0.0, 1.0))
def test_the_root_is_found_from_any_start(place, share):
    low, high = np.array(-31.0), np.array(31.0)
    found = root(lambda x: (np.sinh(x - place), np.cosh(x - place)), low, high, low + share * (high - low))
    assert float(found) == pytest.approx(place, abs=1e-13)


def test_a_slope_that_lies_still_leads_to_the_root_by_halving():
    found = root(lambda x: (x**3 - 2.0, np.full_like(x, np.nan)), np.array(0.0), np.array(2.0), np.array(1.9))
    assert float(found) == pytest.approx(2 ** (1 / 3), rel=1e-15)


def test_a_step_function_is_fenced_in_to_the_last_digit():
    found = root(
        lambda x: (np.where(x < 0.3, -1.0, 1.0), np.zeros_like(x)),
        np.array(0.0),
        np.array(1.0),
        np.array(0.5),
    )
    assert float(found) == pytest.approx(0.3, rel=1e-15)


def test_many_roots_are_found_at_once():
    places = np.linspace(-5, 5, 101)
    found = root(lambda x: (x**3 - places, 3 * x**2), np.full(101, -6.0), np.full(101, 6.0), np.zeros(101))
    assert found == pytest.approx(np.cbrt(places), abs=1e-9)
