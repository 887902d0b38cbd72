"""Air that rises by itself, beside other people's forms of it.

ISO 6946, table of closed air spaces, emissivity 0.9, mean 10 degC (recalled): 0.11, 0.13, 0.15 m2K/W for 5,
7 and 10 mm whichever way heat flows, 0.16 for 25 mm upward. W. H. McAdams, short forms for air in W and K
(recalled): 1.31 dT^(1/3) upright, 1.52 dT^(1/3) level and hot side up, turbulent; these are rounded, and
lower by a tenth to a fifth than the formulas of Churchill and Chu and of Lloyd and Moran. F. P. Incropera
and others, tables of air at 250, 300, 350 and 400 K (recalled).
"""

import pytest

from panewright.climate.balance.film import conductivity_w_mk, still_w_m2k, viscosity_m2_s
from panewright.climate.balance.layer import AirSpace, nusselt


@pytest.mark.parametrize(("gap_mm", "m2k_w"), [(5.0, 0.11), (7.0, 0.13), (10.0, 0.15)])
@pytest.mark.parametrize("tilt_deg", [0.0, 30.0, 75.0])
def test_thin_air_spaces(gap_mm, m2k_w, tilt_deg):
    space = AirSpace(gap_mm, 0.9, 0.9)
    up, down = space.flux_w_m2(285.65, 280.65, tilt_deg), -space.flux_w_m2(280.65, 285.65, tilt_deg)
    assert 5 / up == pytest.approx(m2k_w, abs=0.005)
    assert 5 / down == pytest.approx(m2k_w, abs=0.005)


def test_a_wide_air_space_heated_from_below():
    assert 5 / AirSpace(25.0, 0.9, 0.9).flux_w_m2(285.65, 280.65, 0.0) == pytest.approx(0.16, abs=0.01)


def test_rolls_begin_at_1708_and_steep_spaces_have_fewer():
    assert nusselt(1700.0, 0.0) == 1.0 < nusselt(1800.0, 0.0)
    assert nusselt(5830.0, 0.0) == pytest.approx(1 + 1.44 * (1 - 1708 / 5830), abs=1e-12)
    assert nusselt(1e5, 60.0) < nusselt(1e5, 30.0) < nusselt(1e5, 0.0)


@pytest.mark.parametrize("over_k", [5.0, 10.0, 20.0, 40.0])
def test_short_forms_for_air(over_k):
    assert 1.0 <= still_w_m2k(over_k, 293.15, 90.0) / (1.31 * over_k ** (1 / 3)) <= 1.2
    assert 1.0 <= still_w_m2k(over_k, 293.15, 0.0) / (1.52 * over_k ** (1 / 3)) <= 1.2


@pytest.mark.parametrize(
    ("air_k", "viscosity", "conducts"),
    [
        (250.0, 11.44e-6, 0.0223),
        (300.0, 15.89e-6, 0.0263),
        (350.0, 20.92e-6, 0.0300),
        (400.0, 26.41e-6, 0.0338),
    ],
)
def test_air(air_k, viscosity, conducts):
    assert viscosity_m2_s(air_k) == pytest.approx(viscosity, rel=0.02)
    assert conductivity_w_mk(air_k) == pytest.approx(conducts, rel=0.02)
