"""The thin plate: its edges carry its load."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.glass.plate.linear import (
    corner_force,
    corner_force_n,
    edge_reaction,
    edge_reaction_n_per_m,
    linear_plate,
    side_reaction,
    side_reaction_n,
)


@given(st.floats(1.0, 6.0), st.floats(0.0, 0.45))
def test_edges_and_corners_bear_exactly_the_load(ratio, poisson):
    edges = 2 * (side_reaction(ratio, "long", poisson) + side_reaction(ratio, "short", poisson))
    assert edges - 4 * corner_force(ratio, poisson) == pytest.approx(ratio, rel=1e-6)


@pytest.mark.parametrize("side", ["long", "short"])
@pytest.mark.parametrize("ratio", [1.0, 1.6, 3.0])
def test_a_sides_push_is_the_sum_of_its_reaction(ratio, side):
    at, weight = np.polynomial.legendre.leggauss(60)
    half = (ratio if side == "long" else 1.0) / 2
    total = float(weight @ edge_reaction(ratio, side, at)) * half
    assert total == pytest.approx(side_reaction(ratio, side), rel=1e-4)


def test_a_square_pushes_most_in_the_middle_of_its_sides_and_not_at_its_corners():
    push = edge_reaction(1.0, "long", np.array([0.0, 0.5, 0.9, 1.0]))
    assert np.all(np.diff(push) < 0)
    assert push[-1] == pytest.approx(0, abs=2e-4)
    assert edge_reaction(1.0, "short", 0.0) == pytest.approx(push[0])


def test_corner_force_of_a_square_is_the_books():
    # Timoshenko and Woinowsky-Krieger, table 8: R = 0.065 q a^2 for nu = 0.3 (recalled)
    assert corner_force(1.0, 0.3) == pytest.approx(0.065, abs=5e-4)


def test_a_very_long_plate_is_a_beam_across():
    assert float(edge_reaction(6.0, "long", 0.0)) == pytest.approx(0.5, rel=2e-3)
    assert linear_plate(8.0, 0.3).alpha == pytest.approx(5 / 384, rel=2e-3)
    assert linear_plate(8.0, 0.3).beta == pytest.approx(1 / 8, rel=2e-3)


def test_sizes_are_put_back():
    assert edge_reaction_n_per_m(1600, 1000, 2400, "long", 0.0) == pytest.approx(
        float(edge_reaction(1.6, "long", 0.0)) * 2400
    )
    whole = 2 * (side_reaction_n(1600, 1000, 2400, "long") + side_reaction_n(1600, 1000, 2400, "short"))
    assert whole - 4 * corner_force_n(1600, 1000, 2400) == pytest.approx(2400 * 1.6, rel=1e-6)


def test_a_short_side_longer_than_the_long_one_is_refused():
    with pytest.raises(ValueError, match="at least 1"):
        linear_plate(0.9, 0.3)
