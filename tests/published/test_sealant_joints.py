"""ASTM C1401 (bite, 20 psi and the project sheet: seen; dead load 1 psi, minimums: memory), joint width over
movement class (seen in a sealant guide), shear geometry and thermal movement (derived)."""

import pytest

from panewright.seal.joint import (
    LEAST_BITE_MM,
    LEAST_GLUE_LINE_MM,
    MOST_RATIO,
    gap_mm,
    shear_glue_line_mm,
    strain,
    suction_bite_mm,
    weight_bite_mm,
)


@pytest.mark.parametrize(
    ("suction_pa", "short_mm", "design_pa", "bite_mm", "digit"),
    [
        (4440, 1500, 138e3, 24.13, 0.005),
        (7190, 1500, 207e3, 26.05, 0.005),
        (2400, 1000, 138e3, 8.696, 0.0005),
        (5400, 1000, 138e3, 19.565, 0.0005),
    ],
)
def test_bite_against_suction(suction_pa, short_mm, design_pa, bite_mm, digit):
    assert suction_bite_mm(suction_pa, short_mm, design_pa) == pytest.approx(bite_mm, abs=digit)


def test_bite_that_carries_a_pane_of_1600_by_1000_by_4():
    """Printed 4.311 mm; so with 9.80665 m/s2 and 7 kPa."""
    assert weight_bite_mm(16.0, 5200.0, 7000.0) == pytest.approx(4.311, abs=0.0005)


@pytest.mark.parametrize(("movement", "ratio"), [(0.125, 1.9403), (0.25, 1.3333), (0.5, 0.8944)])
def test_glue_line_over_slip(movement, ratio):
    assert shear_glue_line_mm(1.0, movement) == pytest.approx(ratio, abs=5e-5)


@pytest.mark.parametrize(
    ("expansion", "share", "movement", "glue_line_mm"),
    [
        (70e-6, 0.5, 0.25, 2.796),
        (70e-6, 1.0, 0.25, 5.592),
        (70e-6, 1.0, 0.125, 8.138),
        (9e-6, 1.0, 0.25, 1.728),
    ],
)
def test_glue_line_of_1500_mm_over_60_k_on_aluminium(expansion, share, movement, glue_line_mm):
    slip = share * 1500 * abs(strain(expansion - 23.4e-6, 0.0, 60.0))
    assert shear_glue_line_mm(slip, movement) == pytest.approx(glue_line_mm, abs=5e-4)


@pytest.mark.parametrize(("movement", "width_mm"), [(0.25, 9.388), (0.5, 5.194)])
def test_gap_of_acrylic_30_k_either_way(movement, width_mm):
    change = 1500 * strain(70e-6 - 23.4e-6, 20.0, 50.0)
    assert change == pytest.approx(2.097, abs=5e-4)
    assert gap_mm(change, movement, 1.0) == pytest.approx(width_mm, abs=5e-4)


@pytest.mark.parametrize(
    ("expansion", "growth_mm"),
    [(70e-6, 6.3), (23.4e-6, 2.106), (9e-6, 0.81), (68e-6, 6.12), (2.6e-6, 0.234), (46.6e-6, 4.194)],
)
def test_growth_of_1500_mm_over_60_k(expansion, growth_mm):
    assert 1500 * strain(expansion, 0.0, 60.0) == pytest.approx(growth_mm, abs=5e-4)


def test_acrylic_supplier_example_of_48_inches_over_100_fahrenheit():
    assert 48 * 25.4 * strain(7.2e-5, 0.0, 100 / 1.8) == pytest.approx(4.877, abs=5e-4)


def test_least_sizes_and_ratio():
    assert (LEAST_BITE_MM, LEAST_GLUE_LINE_MM, MOST_RATIO) == (6.0, 6.0, 3.0)
