"""EN 16612:2019: duration formula and partial factors recalled; strengths of EN 572-1, 1863-1, 12150-1 seen;
deflection limit seen in a summary of the standard. Design strengths are arithmetic on these (derived)."""

from __future__ import annotations

import pytest

from panewright.glass.strength.en16612 import deflection_limit_mm, k_mod, strength_mpa

HOURS = (0.00138889, 0.00833333, 0.166667, 0.5, 168.0, 504.0, 720.0, 2190.0, 438300.0)
K_MOD = (1.0002, 0.8943, 0.7416, 0.6924, 0.4813, 0.4494, 0.4395, 0.41, 0.2944)
STRENGTH = {
    "annealed": (28.125, 20.8125, 12.639, 8.156),
    "heat-strengthened": (48.958, 41.646, 33.472, 28.99),
    "tempered": (90.625, 83.3125, 75.139, 70.656),
}
AT_K_MOD = (1.0, 0.74, 0.4494, 0.29)


@pytest.mark.parametrize(("hours", "factor"), list(zip(HOURS, K_MOD, strict=True)))
def test_duration_factor(hours, factor):
    assert k_mod(hours * 3600) == pytest.approx(min(factor, 1.0), abs=6e-5)


@pytest.mark.parametrize("treatment", STRENGTH)
@pytest.mark.parametrize("row", range(4))
def test_design_strength(treatment, row):
    seconds = 3600 * (0.663 / AT_K_MOD[row]) ** 16
    assert strength_mpa(treatment, seconds) == pytest.approx(
        STRENGTH[treatment][row], abs=1.1e-3
    )  # the last digit is cut off


def test_patterned_glass_has_its_own_strengths():
    assert strength_mpa("annealed", 5, "patterned") == pytest.approx(33 / 1.6, rel=1e-3)
    assert strength_mpa("tempered", 5, "patterned") == pytest.approx(33 / 1.6 + 45 / 1.2, rel=1e-3)


def test_an_untreated_unknown_is_not_listed():
    assert strength_mpa("none", 5) is None


def test_a_pane_gives_way_by_a_65th_and_50_mm_at_most():
    assert deflection_limit_mm(650) == 10
    assert deflection_limit_mm(5000) == 50
