"""ASTM B221 least strengths (seen), Aluminum Design Manual factors (memory), EN 1999-1-1 (memory)."""

import pytest

from panewright.frame.metals.aluminium import alloy, bending_limit_mpa, young_pa

B221 = {"6063-T5": (110, 152), "6063-T52": (110, 152), "6063-T6": (172, 207), "6061-T6": (241, 262)}


@pytest.mark.parametrize(("name", "pair"), B221.items())
def test_least_strengths(name, pair):
    assert (alloy(name).yield_mpa, alloy(name).rupture_mpa) == pair


@pytest.mark.parametrize(("name", "allowed"), [("6063-T6", 104.24), ("6063-T52", 66.67), ("6061-T6", 146.06)])
def test_yield_governs_the_allowable_bending_stress_of_extrusions(name, allowed):
    """Except 6061-T6, where rupture is the lesser: 262 / 1.95 is 134.36."""
    expected = min(allowed, B221[name][1] / 1.95)
    assert bending_limit_mpa(name, "ASCE", 3.2) == pytest.approx(expected, abs=0.005)
    assert B221[name][0] / 1.65 == pytest.approx(allowed, abs=0.005)


@pytest.mark.parametrize(
    ("name", "wall_mm", "proof"),
    [
        ("6063-T5", 3, 130),
        ("6063-T5", 4, 110),
        ("6063-T6", 4, 160),
        ("6061-T6", 4, 240),
        ("6060-T66", 3, 160),
    ],
)
def test_en_proof_strengths_over_1_10(name, wall_mm, proof):
    assert bending_limit_mpa(name, "EN", wall_mm) == pytest.approx(proof / 1.10)


def test_a_family_lends_no_strength_to_an_alloy_it_does_not_list():
    assert bending_limit_mpa("6063-T52", "EN", 3.0) is None
    assert bending_limit_mpa("6060-T66", "ASCE", 3.0) is None


def test_stiffness_weight_and_expansion():
    assert young_pa("ASCE") == 6.96e10
    assert (alloy("6063-T6").density_kg_m3, alloy("6061-T6").density_kg_m3) == (2690, 2700)
    assert (alloy("6063-T6").expansion_per_k, alloy("6061-T6").expansion_per_k) == (2.34e-5, 2.36e-5)
