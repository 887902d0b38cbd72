"""The inverse by halves is the inverse."""

from __future__ import annotations

import numpy as np
import pytest

from panewright.glass.plate.inverse import inverse_root
from panewright.glass.plate.stretch import flexible


@pytest.mark.parametrize("size", [1, 2, 63, 64, 65, 200])
def test_its_square_is_the_inverse(size):
    drawn = np.random.default_rng(size).random((size, size))
    matrix = drawn @ drawn.T + size * np.eye(size)
    root = inverse_root(matrix)
    assert np.allclose(root.T @ root @ matrix, np.eye(size), atol=1e-10)
    assert np.array_equal(root, np.tril(root))


def test_a_stiffness_that_does_not_resist_every_way_is_still_inverted():
    matrix = np.array([[1.0, 3.0], [3.0, 1.0]])
    assert flexible(matrix)(np.array([4.0, 4.0])) == pytest.approx([1.0, 1.0])
