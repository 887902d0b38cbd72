"""M. Rubin, Optical properties of soda lime silica glasses, Solar Energy Materials 12, 1985, p. 275.

Extinction coefficients k of clear and low-iron window glass (seen, as tabulated by refractiveindex.info).
Ranges of the transmittance of covers: trade figures; low-iron tempered seen over 0.90, an antireflective
coat adds about 0.02; clear float, acrylic and old windows from memory.
"""

import numpy as np
import pytest

from panewright.glass.light.colours import AR_COAT, panes_through, tinted
from panewright.glass.light.spectrum import AM15_GLOBAL
from panewright.glass.light.tint import CLEAR_FLOAT, LOW_IRON, LOW_IRON_1985

CLEAR = {410: 2.182e-7, 550: 2.200e-7, 610: 5.217e-7, 730: 1.585e-6, 870: 3.394e-6, 990: 4.514e-6}
IRON_POOR = {350: 2.458e-7, 450: 4.252e-8, 550: 4.632e-8, 700: 2.769e-7, 850: 7.099e-7, 1000: 1.020e-6}
IRON_POOR |= {1200: 1.210e-6, 1500: 9.585e-7}


def _k(nm, strength):
    wave = np.array([float(nm)])
    return CLEAR_FLOAT.extinction_per_m(wave, strength)[0] * nm * 1e-9 / (4 * np.pi)


@pytest.mark.parametrize(("nm", "k"), CLEAR.items())
def test_rows_left_out_of_the_table_lie_on_its_lines(nm, k):
    assert _k(nm, 1.0) == pytest.approx(k, rel=0.06)


@pytest.mark.parametrize(("nm", "k"), IRON_POOR.items())
def test_low_iron_glass_has_the_curve_of_clear_glass_scaled(nm, k):
    assert _k(nm, LOW_IRON_1985) == pytest.approx(k, rel=0.2)


@pytest.mark.parametrize(
    ("thickness_mm", "strength", "outer", "low", "high"),
    [
        (3.2, LOW_IRON, None, 0.90, 0.92),
        (3.2, LOW_IRON, AR_COAT, 0.925, 0.945),
        (3.0, 1.0, None, 0.83, 0.86),
        (6.0, 1.0, None, 0.77, 0.80),
    ],
)
def test_glass_lets_through_what_the_trade_says(thickness_mm, strength, outer, low, high):
    share = AM15_GLOBAL.power_share(tinted("glass", thickness_mm, strength, outer).through())
    assert low <= share <= high


def test_acrylic_lets_visible_light_through_as_the_trade_says():
    sheet = tinted("acrylic", 3.0, 1.0)
    assert 0.9095 <= AM15_GLOBAL.power_share(sheet.through(), 400, 700) <= 0.92
    assert AM15_GLOBAL.power_share(sheet.through()) < 0.85  # of the sun's light far less


def test_an_old_double_window_lets_through_what_the_trade_says():
    pane = tinted("glass", 3.0, 1.0)
    assert 0.70 <= AM15_GLOBAL.power_share(panes_through((pane, pane))) <= 0.78
