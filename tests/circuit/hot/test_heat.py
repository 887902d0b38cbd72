"""Laws of the two bounds of a hot cell's temperature."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.circuit.hot.heat import Cooling, Spread, even_rise_k, hot_heat, spot_bears_w, spot_rise_k
from panewright.circuit.hot.spot import HotSpot
from panewright.circuit.place import CellAt

areas, radii, watts = st.floats(500, 30_000), st.floats(0.5, 8), st.floats(0.1, 100)


def fin_rise_k(spread, k_m2_w):
    """Rise at the middle for 1 W, by finite volumes in rings."""
    n, a, rim = 4000, spread.spot_radius_mm / 1000, spread.rim_mm / 1000
    # equal rings inside and outside the spot, so that its edge is an edge of a ring
    edges = np.concatenate((np.linspace(0, a, n // 4 + 1), np.geomspace(a, rim, n)[1:]))
    middle, area = (edges[1:] + edges[:-1]) / 2, np.pi * np.diff(edges**2)
    along = 2 * np.pi * edges[1:-1] * spread.sheet_w_k / np.diff(middle)
    loss, heat = area / k_m2_w, np.where(middle < a, area / (math.pi * a**2), 0.0)
    down, up = np.concatenate((along, [0.0])), np.concatenate(([0.0], along))
    diagonal = loss + down + up
    for k in range(1, middle.size):  # one sweep each way solves the tridiagonal set
        share = along[k - 1] / diagonal[k - 1]
        diagonal[k] -= share * along[k - 1]
        heat[k] += share * heat[k - 1]
    rise = heat[-1] / diagonal[-1]
    for k in range(middle.size - 2, -1, -1):
        rise = (heat[k] + along[k] * rise) / diagonal[k]
    return rise


@pytest.mark.parametrize(("spot_mm", "area_mm2"), [(1, 1000), (5, 1000), (1, 24336), (5, 24336), (20, 24336)])
def test_the_spot_is_as_hot_as_a_fin_cut_into_rings(spot_mm, area_mm2):
    spread = Spread(area_mm2, spot_mm)
    assert spot_rise_k(1.0, spread) == pytest.approx(fin_rise_k(spread, Cooling().k_m2_w), rel=2e-4)


@given(areas, radii, watts)
def test_heat_in_one_spot_is_never_cooler_than_the_same_heat_spread(area, radius, watt):
    assert spot_rise_k(watt, Spread(area, radius)) >= even_rise_k(watt, area) * (1 - 1e-9)


@given(areas, watts)
def test_a_spot_as_wide_as_the_cell_is_the_evenly_heated_cell(area, watt):
    spread = Spread(area, math.sqrt(area / math.pi))
    assert spot_rise_k(watt, spread) == pytest.approx(even_rise_k(watt, area), rel=1e-9)


@given(st.floats(10_000, 30_000), st.floats(0.2, 1.0))
def test_half_the_radius_adds_the_logarithm_of_two(area, radius):
    spread = Spread(area, radius)
    added = spot_rise_k(1.0, Spread(area, radius / 2)) - spot_rise_k(1.0, spread)
    assert added == pytest.approx(math.log(2) / (2 * math.pi * spread.sheet_w_k), rel=2e-3)


@given(areas, radii, st.floats(70, 400))
def test_what_a_spot_bears_brings_it_to_the_limit(area, radius, most_c):
    spread, cooling = Spread(area, radius), Cooling(air_c=30.0)
    spot = HotSpot(CellAt(0, 1), "short circuit", 0.0, 0.0, -1.0, spot_bears_w(most_c, spread, cooling))
    assert hot_heat(spot, spread, cooling).spot_c == pytest.approx(most_c, rel=1e-9)


def test_a_cell_that_gives_power_is_as_warm_as_the_sun_makes_it():
    spot = HotSpot(CellAt(0, 1), "short circuit", 0.0, 0.25, 0.5, 8.0)
    heat = hot_heat(spot, Spread(24336.0), Cooling(20.0, 0.03, 1000.0))
    assert (heat.even_c, heat.spot_c) == pytest.approx((20 + 0.03 * 750, 20 + 0.03 * 750))


@pytest.mark.parametrize(
    "make",
    [
        lambda: Spread(0.0),
        lambda: Spread(100.0, 0.0),
        lambda: Spread(float("nan")),
        lambda: Cooling(k_m2_w=0.0),
        lambda: Cooling(k_m2_w=float("inf")),
        lambda: Cooling(air_c=float("nan")),
    ],
)
def test_sizes_that_conduct_nothing_are_refused(make):
    with pytest.raises(ValueError, match="heat"):
        make()
