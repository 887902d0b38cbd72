"""Falls and blows of packages, classes of fragility, one cushion curve, creep, stacking, lifting.

ISTA 1A and 1B: drop heights by mass, as printed by an inspection house (seen): below 10, 19, 28, 45, 68 kg
    760, 610, 460, 310, 200 mm, above it 150 mm. ISTA 2A: 970, 810, 660, 510, 310 mm, in a summary of both
    tests (seen).
ASTM D4169-09 10.3.1.1 and 10.3.2.2, mechanical handling, assurance levels I, II, III (read in a public copy):
    up to 226.8 kg 305, 229, 152 mm, above 229, 152, 76 mm; blows at 1.75, 1.22, 0.91 m/s.
Fragility: 15 to 25 G extremely fragile, 25 to 40 very delicate (seen, a case maker's brief); others recalled.
Cushion curve: closed-cell polyethylene of 2.2 lb/ft3, 24 in on 2 in, 40 G between 0.4 and 1.2 lbf/in2; 36 lb
    at 1.2 lbf/in2 want 30 in2 (a foam converter's worked example, seen). What lies within is not printed. The
    foam on the shelf is drawn through these two ends: they hold the arithmetic, not the foam.
Creep: 2.5 lbf/in2 for that foam, 1.5 for a soft one; a tenth is the limit (a foam supplier's guide, seen).
Stack: 10 kN/m2 on the lid (transport insurers' packaging handbook 1.2, seen).
Team lifting: two people two thirds of the sum, 20 kg each gives 26.6 kg (a railway's guidance, seen).
"""

from __future__ import annotations

import math

import pytest

from panewright.crate.box import LID_PA
from panewright.crate.cushion import shock_g
from panewright.crate.drop import blow_mm, falls
from panewright.crate.fragility import CLASSES_G
from panewright.order.schema import KEYS
from panewright.shelf.load import load_shelf
from panewright.structure.mass import ONE_PERSON_KG

INCH_M, PSI_PA = 0.0254, 6894.757
FOAMS = {row.name: row.part for row in load_shelf().foams}
FIRM = FOAMS["polyethylene foam, firm"]


@pytest.mark.parametrize(
    ("mass_kg", "first", "second"),
    [(9.9, 760, 970), (10.0, 610, 810), (19.0, 460, 660), (28.0, 310, 510), (45.0, 200, 310)],
)
def test_ista_heights_by_mass(mass_kg, first, second):
    assert falls(mass_kg, "ordinary", by_hand=True).down_mm == first
    assert falls(mass_kg, "rough", by_hand=True).down_mm == second


def test_ista_1b_above_68_kg():
    assert falls(68.0, "ordinary", by_hand=True).down_mm == 150


@pytest.mark.parametrize(
    ("level", "light", "heavy", "speed"),
    [("rough", 305, 229, 1.75), ("ordinary", 229, 152, 1.22), ("careful", 152, 76, 0.91)],
)
def test_d4169_mechanical_handling(level, light, heavy, speed):
    assert falls(226.8, level, by_hand=False).down_mm == light
    made = falls(226.9, level, by_hand=False)
    assert made.down_mm == heavy
    assert math.sqrt(2 * 9.80665 * made.aside_mm / 1000) == pytest.approx(speed)
    assert blow_mm(speed) == pytest.approx(made.aside_mm)


def test_low_ends_of_the_classes():
    assert (CLASSES_G["extremely fragile"], CLASSES_G["very delicate"]) == (15.0, 25.0)
    assert list(CLASSES_G.values()) == [15.0, 25.0, 40.0, 60.0, 85.0, 115.0]  # the last four recalled


@pytest.mark.parametrize("psi", [0.4, 1.2])
def test_both_ends_of_the_range_of_a_worked_example(psi):
    assert shock_g(FIRM, psi * PSI_PA, 24 * INCH_M * 1000, 2 * INCH_M * 1000) == pytest.approx(40.0, abs=0.5)


def test_between_them_the_foam_passes_on_less():
    inside = [shock_g(FIRM, psi * PSI_PA, 609.6, 50.8) for psi in (0.5, 0.8, 1.1)]
    assert max(inside) < 40.0


def test_the_area_of_the_worked_example():
    assert pytest.approx(30.0) == 36.0 / 1.2
    static = 36.0 * 0.45359237 * 9.80665 / (30.0 * INCH_M**2)
    assert static == pytest.approx(1.2 * PSI_PA, rel=1e-3)
    assert shock_g(FIRM, static, 609.6, 50.8) == pytest.approx(40.0, abs=0.5)


def test_lasting_loads_of_foam():
    assert FIRM.most_static_pa == pytest.approx(2.5 * PSI_PA, rel=5e-3)
    assert FOAMS["polyethylene foam, medium"].most_static_pa == pytest.approx(1.5 * PSI_PA, rel=5e-3)


def test_ten_kilonewtons_on_a_square_metre_of_lid():
    assert LID_PA == 10e3


def test_two_lift_two_thirds_of_both():
    assert pytest.approx(26.6, abs=0.1) == 20.0 * 2 * 2 / 3
    both = ONE_PERSON_KG * 2 * 2 / 3
    assert float(KEYS["crate.most_mass"].read(KEYS["crate.most_mass"].default)) <= both
