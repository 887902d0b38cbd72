"""EN 1999-1-1 table 3.2b, extruded profiles: strength beside welds and its share of the bar's (read in a
copy of the table); Aluminum Design Manual, 17 and 8 ksi of welded 6063, 24 and 15 ksi of welded 6061
(recalled)."""

import pytest

from panewright.frame.joining.weld import kept_share, softened
from panewright.frame.metals.aluminium import alloy


@pytest.mark.parametrize(
    ("name", "wall_mm", "yield_mpa", "rupture_mpa", "share", "rupture_share"),
    [
        ("6060-T66", 3, 65, 110, 0.41, 0.51),
        ("6060-T66", 5, 65, 110, 0.43, 0.56),
        ("6061-T6", 3, 115, 175, 0.48, 0.67),
        ("6063-T5", 3, 60, 100, 0.46, 0.57),
        ("6063-T5", 5, 60, 100, 0.55, 0.63),
        ("6063-T6", 3, 65, 110, 0.41, 0.56),
    ],
)
def test_strength_beside_a_weld(name, wall_mm, yield_mpa, rupture_mpa, share, rupture_share):
    metal = softened(name, "EN")
    assert (metal.yield_mpa, metal.rupture_mpa) == (yield_mpa, rupture_mpa)
    assert kept_share(name, wall_mm) == pytest.approx(share, abs=0.0051)
    assert rupture_mpa / alloy(name).en_strengths_mpa(wall_mm)[1] == pytest.approx(rupture_share, abs=0.0051)


@pytest.mark.parametrize(
    ("name", "rupture_ksi", "yield_ksi"),
    [("6063-T5", 17, 8), ("6063-T52", 17, 8), ("6063-T6", 17, 8), ("6061-T6", 24, 15)],
)
def test_welded_strengths_of_the_aluminum_design_manual(name, rupture_ksi, yield_ksi):
    metal = softened(name, "ASCE")
    assert metal.rupture_mpa == pytest.approx(rupture_ksi * 6.894757, abs=0.6)
    assert metal.yield_mpa == pytest.approx(yield_ksi * 6.894757, abs=0.6)
