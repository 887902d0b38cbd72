"""Runs, and errors in the easiest case that can be reckoned by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.curve.spread import correlations, covariance, runs, student


def test_runs_of_a_known_row():
    found = runs(np.array([1.0, 2.0, -1.0, -1.0, -2.0, 3.0, 0.0, 4.0]))
    assert found.count == 3
    assert found.expected == pytest.approx(1 + 2 * 4 * 3 / 7)
    assert found.deviation < 0


@given(st.integers(0, 10_000))
def test_runs_of_chance_lie_where_chance_puts_them(seed):
    found = runs(np.random.default_rng(seed).standard_normal(400))
    assert abs(found.deviation) < 5


def test_the_error_of_a_mean_is_scatter_over_root_n():
    sigma = covariance(np.ones((25, 1)), np.ones(25), np.full(25, 4.0))
    assert sigma[0, 0] == pytest.approx(4.0 / 25)


def test_what_the_points_do_not_see_has_no_finite_error():
    slopes = np.array([[1.0, 0.0], [1.0, 0.0], [1.0, 0.0]])
    found = covariance(slopes, np.ones(3), np.ones(3))
    assert found[0, 0] == pytest.approx(1 / 3)
    assert found[1, 1] == np.inf
    assert correlations(found) == ((1.0, 0.0), (0.0, 1.0))


def test_few_points_widen_the_error_as_student_says():
    assert student(1) == pytest.approx(1.837, abs=2e-3)  # table of t, one sigma, one degree of freedom
    assert student(1000) == pytest.approx(1.0, abs=1e-3)
