"""The points of a band against those of the law they are of, found by scipy's own search."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.special import ndtr

from panewright.lots.standing.band import TAIL, _quantile


@pytest.mark.parametrize("share", [TAIL, 0.5, 1 - TAIL])
@pytest.mark.parametrize("least", [1e-9, 1e-4, 0.02])
def test_a_point_of_the_band_is_that_of_its_law(share, least):
    draw = np.random.default_rng(3)
    along = np.linspace(-3.6, 3.6, 49)
    power = 4.4 + draw.normal(0, 0.1, (20, 1)) - 0.02 * np.exp(0.6 * along) * draw.random((20, 1))
    blur = least + 0.02 * draw.random((20, 1)) * np.ones(49)
    weight = np.exp(-0.5 * along**2) / np.exp(-0.5 * along**2).sum()
    for cell, point in enumerate(_quantile(power, blur, weight, share)):

        def over(at, cell=cell):
            return float(ndtr((at - power[cell]) / blur[cell]) @ weight - share)

        assert point == pytest.approx(brentq(over, 2.0, 7.0, xtol=1e-12), abs=1e-6)


def test_cells_whose_power_is_all_but_known_have_a_point_where_it_lies():
    power, blur = np.full((3, 49), 4.4), np.full((3, 49), 1e-9)
    assert _quantile(power, blur, np.full(49, 1 / 49), TAIL) == pytest.approx(4.4, abs=1e-7)
