"""Two metals joined hot, and what sawn silicon and soft ribbon are like.

S. Timoshenko, Analysis of bi-metal thermostats, J. Optical Society of America 11, 1925, p. 233, from memory:
with m the ratio of the thicknesses, n of the moduli, h the whole thickness and de the free strain,
curvature = 6 de (1 + m)^2 / (h (3 (1 + m)^2 + (1 + m n)(m^2 + 1/(m n)))), for strips of one width.

Bow of cells tabbed on one face, 2 to 4 mm for 0.2 mm wafers of 156 mm: memory, order of magnitude only.
Yield of ribbon: 69 to 103 MPa is the class of low yield, under 100 or under 110 MPa is sold: seen in public
specifications of ribbon. Bow and stresses by solid elements: derived, see there.
"""

import pytest

from panewright.ribbon.stress import COPPER_PA, SILICON_PA, Wafer, cooled_strain, end_mpa, one_face
from panewright.ribbon.strip import Strip


@pytest.mark.parametrize(("copper_mm", "silicon_mm"), [(0.2, 0.2), (0.1, 0.2), (0.3, 0.15)])
def test_elastic_strips_of_one_width_bend_as_timoshenko_says(copper_mm, silicon_mm):
    m, n, h = copper_mm / silicon_mm, COPPER_PA / SILICON_PA, (copper_mm + silicon_mm) * 1e-3
    curvature = (
        6 * cooled_strain() * (1 + m) ** 2 / (h * (3 * (1 + m) ** 2 + (1 + m * n) * (m**2 + 1 / (m * n))))
    )
    hard = Strip("", 5.0, copper_mm, coat_mm=0.0, yield_mpa=1e6)
    pull = one_face(hard, Wafer(5.0, 20.0, silicon_mm, 1))
    assert pull.bow_mm == pytest.approx(curvature * 0.020**2 / 8 * 1e3, rel=1e-9)


def test_free_strain_between_copper_and_silicon():
    assert cooled_strain(183.0, 25.0) == pytest.approx(14.4e-6 * 158)


def test_a_cell_tabbed_on_one_face_bows_by_millimetres():
    assert 2.0 < one_face(Strip("1.6 x 0.2", 1.6, 0.2), Wafer(156.0, 156.0, 0.2, 3)).bow_mm < 4.5


@pytest.mark.parametrize("yield_mpa", [69.0, 103.0])
def test_ribbon_of_the_low_yield_class_yields_as_it_cools(yield_mpa):
    assert one_face(Strip("", 1.6, 0.2, yield_mpa=yield_mpa), Wafer(156.0, 156.0, 0.2, 3)).yields


@pytest.mark.parametrize(
    ("thick_mm", "bow_mm", "along_mpa", "end_mpa_"), [(0.2, 3.807, 13.7, 115.0), (0.3, 6.810, 25.2, 142.0)]
)
def test_solid_elements_that_yield_agree(thick_mm, bow_mm, along_mpa, end_mpa_):
    # derived with CalculiX 2.20: half of one tab on 52 x 156 x 0.2 mm of silicon, 130 GPa and 0.28; solder
    # 0.02 mm, 30 GPa, yield 35 MPa; copper 120 GPa, yield 80 MPa; from 183 to 20 degC; end 5 mm from the edge
    tab, wafer = Strip("", 1.6, thick_mm), Wafer(156.0, 156.0, 0.2, 3)
    pull = one_face(tab, wafer)
    assert pull.bow_mm == pytest.approx(bow_mm, rel=0.04)
    assert pull.stretched_mpa == pytest.approx(along_mpa, rel=0.05)
    assert end_mpa(tab, wafer, pull.force_n) == pytest.approx(end_mpa_, rel=0.04)


def test_solid_elements_agree_across_a_tab():
    pull = one_face(Strip("1.6 x 0.3", 1.6, 0.3), Wafer(156.0, 156.0, 0.2, 3))
    assert pull.across_mpa == pytest.approx(92.6, rel=0.08)
