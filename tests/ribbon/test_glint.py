"""Light that a ribbon gives back, against rays thrown by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.ribbon.glint import flat_recovered, round_recovered


@given(st.floats(1.0, 1.7), st.floats(0, 1))
def test_both_are_shares_and_the_round_wire_gives_back_more(index, reflected):
    flat, wire = flat_recovered(index, reflected, scattered=0.3), round_recovered(index, reflected)
    assert 0 <= flat <= wire <= reflected


@pytest.mark.parametrize("index", [1.0, 1.41, 1.48, 1.526])
def test_rays_on_a_round_wire_come_back_as_often(index):
    """Even over the wire's width; turned by twice the angle of incidence; up, beyond critical, or down."""
    across = (np.arange(200_000) + 0.5) / 200_000
    turned = 2 * np.arcsin(across)
    back = (np.sin(turned) * index > 1) | (turned > np.pi / 2)
    assert round_recovered(index, reflected=1.0) == pytest.approx(back.mean(), abs=1e-4)


def test_a_mirror_gives_nothing_back_and_neither_does_air():
    assert flat_recovered(1.48, scattered=0.0) == 0
    assert flat_recovered(1.0) == 0
