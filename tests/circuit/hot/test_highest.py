"""The highest of several humps, steps and ends."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.circuit.hot.highest import highest

centres = st.floats(0.05, 0.95)


@given(centres, centres, st.floats(0.1, 0.9))
def test_the_higher_of_two_humps_is_found(high, low, share):
    def two(x):
        return np.exp(-(((x - high) / 0.08) ** 2)) + share * np.exp(-(((x - low) / 0.08) ** 2))

    row = np.linspace(0, 1, 20_001)
    assert two(np.array(highest(two, 0.0, 1.0))) >= two(row).max() * (1 - 1e-7)


@given(st.floats(-3, 3), st.floats(0.01, 5))
def test_the_ends_of_the_range_count(low, width):
    assert highest(lambda x: x, low, low + width) == low + width
    assert highest(lambda x: -x, low, low + width) == low


@given(st.floats(0.1, 0.9))
def test_the_top_of_a_step_is_found_at_its_edge(edge):
    assert highest(lambda x: np.where(x <= edge, x, 0.0), 0.0, 1.0) == pytest.approx(edge, abs=1e-7)


def test_values_that_are_none_are_passed_over():
    assert highest(lambda x: np.where(x > 0.5, np.nan, x), 0.0, 1.0) == pytest.approx(0.5, abs=1e-7)
