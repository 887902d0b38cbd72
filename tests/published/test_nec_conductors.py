"""NEC, conductors beyond thin copper.

Table 310.16, aluminium, and copper past 1/0: public transcriptions of the 2023 print (seen). Chapter 9
table 8, aluminium, ohm per 1000 ft at 75 degC: public transcription (seen). 310.15(C)(1): public
transcription (seen). 240.4(D): public text (seen). 310.15(B)(2), 33 K nearer than 23 mm to a roof: courses on
the code (seen), one with a worked example. Correction of table 8 by 0.00323 and 0.00330 per kelvin: recalled.
"""

import pytest

from panewright.wire.laid import Laid
from panewright.wire.nec import ampere, bundle_left, fuse_limit_a, left, roof_k, table_a
from panewright.wire.rules import carried_a
from panewright.wire.sizes import ALUMINIUM_GAUGES, GAUGES

AWG = ["12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"]
ALUMINIUM_60C = [15, 25, 35, 40, 55, 65, 75, 85, 100, 115, 130, 150]
ALUMINIUM_75C = [20, 30, 40, 50, 65, 75, 90, 100, 120, 135, 155, 180]
ALUMINIUM_90C = [25, 35, 45, 55, 75, 85, 100, 115, 135, 150, 175, 205]
COPPER_AWG = ["14", *AWG]
COPPER_60C = [15, 20, 30, 40, 55, 70, 85, 95, 110, 125, 145, 165, 195]
COPPER_75C = [20, 25, 35, 50, 65, 85, 100, 115, 130, 150, 175, 200, 230]
COPPER_90C = [25, 30, 40, 55, 75, 95, 115, 130, 145, 170, 195, 225, 260]
ALUMINIUM_OHM_KFT = [3.25, 2.04, 1.28, 0.808, 0.508, 0.403, 0.319, 0.253, 0.201, 0.159, 0.126, 0.100]

sized = {(size.metal, size.gauge): size for size in (*GAUGES, *ALUMINIUM_GAUGES)}


@pytest.mark.parametrize(
    ("metal", "insulation_c", "gauges", "column"),
    [
        ("aluminium", 60, AWG, ALUMINIUM_60C),
        ("aluminium", 75, AWG, ALUMINIUM_75C),
        ("aluminium", 90, AWG, ALUMINIUM_90C),
        ("copper", 60, COPPER_AWG, COPPER_60C),
        ("copper", 75, COPPER_AWG, COPPER_75C),
        ("copper", 90, COPPER_AWG, COPPER_90C),
    ],
)
def test_ampacity_is_as_printed_for_both_metals(metal, insulation_c, gauges, column):
    assert [ampere(gauge, metal, insulation_c) for gauge in gauges] == column


@pytest.mark.parametrize(("gauge", "ohm_kft"), [*zip(AWG, ALUMINIUM_OHM_KFT, strict=True)])
def test_aluminium_resists_as_printed_at_75_c(gauge, ohm_kft):
    assert sized["aluminium", gauge].ohm_per_m_at(75.0) * 304.8 == pytest.approx(ohm_kft, rel=1e-9)


@pytest.mark.parametrize(("metal", "per_k"), [("copper", 0.00323), ("aluminium", 0.00330)])
def test_heat_is_counted_as_the_table_s_note_counts_it(metal, per_k):
    size = sized[metal, "10"]
    for warm_c in (20.0, 50.0, 90.0):
        noted = 1 + per_k * (warm_c - 75.0)
        assert size.ohm_per_m_at(warm_c) / size.ohm_per_m_at(75.0) == pytest.approx(noted, abs=5e-4)


@pytest.mark.parametrize(
    ("conductors", "share"),
    [
        (0, 1.0),
        (1, 1.0),
        (3, 1.0),
        (4, 0.8),
        (6, 0.8),
        (7, 0.7),
        (9, 0.7),
        (10, 0.5),
        (20, 0.5),
        (21, 0.45),
        (30, 0.45),
        (31, 0.4),
        (40, 0.4),
        (41, 0.35),
        (99, 0.35),
    ],
)
def test_a_bundle_takes_what_is_printed(conductors, share):
    assert bundle_left(conductors) == share


def test_a_roof_in_the_sun_adds_33_k_nearer_than_23_mm():
    assert [roof_k(mm) for mm in (0.0, 22.9, 23.0, 300.0)] == [33.0, 33.0, 0.0, 0.0]
    assert left(Laid("NEC", "conduit", 38.0, above_roof_mm=12.0)) == 0.5  # 71 degC: band to 75
    assert left(Laid("NEC", "conduit", 38.0, above_roof_mm=25.0)) == 0.91


def test_8_awg_of_75_c_half_an_inch_over_a_roof_in_90_f_carries_16_5_a():
    laid = Laid("NEC", "conduit", (90 - 32) / 1.8, 75, beside=3, above_roof_mm=12.7)
    assert carried_a(sized["copper", "8"], laid) == pytest.approx(16.5)


def test_10_awg_in_a_conduit_of_six_on_a_hot_roof_carries_16_a():
    laid = Laid("NEC", "conduit", 38.0, beside=6, above_roof_mm=12.0)
    assert carried_a(sized["copper", "10"], laid) == pytest.approx(40 * 0.5 * 0.8)


@pytest.mark.parametrize(
    ("metal", "gauge", "fuse_a"),
    [
        ("copper", "14", 15),
        ("copper", "12", 20),
        ("copper", "10", 30),
        ("copper", "8", None),
        ("aluminium", "12", 15),
        ("aluminium", "10", 25),
        ("aluminium", "8", None),
    ],
)
def test_thin_wires_have_their_largest_fuse(metal, gauge, fuse_a):
    assert fuse_limit_a(sized[metal, gauge]) == fuse_a


def test_metric_sizes_are_no_business_of_these_tables():
    from panewright.wire.sizes import METRIC

    assert {table_a(size, Laid("NEC", "air", 30.0)) for size in METRIC} == {None}
