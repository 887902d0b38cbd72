"""IEC 60364-5-52:2009, two loaded conductors; IEC 60228, aluminium.

Tables B.52.2, B.52.3, B.52.10, B.52.12, B.52.13, B.52.14 and B.52.17: public transcriptions (seen; several
agree on B.52.2, B.52.3, B.52.12 and B.52.14). Table B.52.11, aluminium and PVC in air: recalled. IEC 60228
class 2 aluminium, greatest ohm per km at 20 degC, and copper of 50 mm2 and more: several
transcriptions agree (seen).
"""

import pytest

from panewright.wire.iec import ampere, circuits_left, heat_left, left, round_it_c, table_a
from panewright.wire.laid import Laid
from panewright.wire.sizes import ALUMINIUM_METRIC, GAUGES, METRIC

MM2 = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95]
PRINTED = {
    ("copper", 70, "conduit"): [17.5, 24, 32, 41, 57, 76, 101, 125, 151, 192, 232],
    ("copper", 70, "conduit, one cable"): [16.5, 23, 30, 38, 52, 69, 90, 111, 133, 168, 201],
    ("copper", 70, "clipped"): [19.5, 27, 36, 46, 63, 85, 112, 138, 168, 213, 258],
    ("copper", 70, "air"): [22, 30, 40, 51, 70, 94, 119, 148, 180, 232, 282],
    ("copper", 90, "conduit"): [23, 31, 42, 54, 75, 100, 133, 164, 198, 253, 306],
    ("copper", 90, "conduit, one cable"): [22, 30, 40, 51, 69, 91, 119, 146, 175, 221, 265],
    ("copper", 90, "clipped"): [24, 33, 45, 58, 80, 107, 138, 171, 209, 269, 328],
    ("copper", 90, "air"): [26, 36, 49, 63, 86, 115, 149, 185, 225, 289, 352],
    ("aluminium", 90, "conduit"): [None, 25, 33, 43, 59, 79, 105, 130, 157, 200, 242],
    ("aluminium", 90, "conduit, one cable"): [None, 23, 31, 40, 54, 72, 94, 115, 138, 175, 210],
    ("aluminium", 90, "clipped"): [None, 26, 35, 45, 62, 84, 101, 126, 154, 198, 241],
    ("aluminium", 90, "air"): [None, 28, 38, 49, 67, 91, 108, 135, 164, 211, 257],
    ("aluminium", 70, "conduit"): [None, 18.5, 25, 32, 44, 60, 79, 97, 118, 150, 181],
    ("aluminium", 70, "conduit, one cable"): [None, 17.5, 24, 30, 41, 54, 71, 86, 104, 131, 157],
    ("aluminium", 70, "air"): [None, 23, 31, 39, 54, 73, 89, 111, 135, 173, 210],  # recalled
    ("aluminium", 70, "clipped"): [None, 21, 28, 36, 49, 66, 83, 103, 125, 160, 195],
}


@pytest.mark.parametrize(("way", "column"), PRINTED.items(), ids=str)
def test_ampacity_is_as_printed_by_method(way, column):
    metal, insulation_c, place = way
    assert [ampere(area, metal, insulation_c, place) for area in MM2] == column


@pytest.mark.parametrize(
    ("air_c", "pvc", "xlpe"),
    [
        (10, 1.22, 1.15),
        (15, 1.17, 1.12),
        (20, 1.12, 1.08),
        (25, 1.06, 1.04),
        (30, 1.0, 1.0),
        (35, 0.94, 0.96),
        (40, 0.87, 0.91),
        (45, 0.79, 0.87),
        (50, 0.71, 0.82),
        (55, 0.61, 0.76),
        (60, 0.5, 0.71),
        (65, 0.0, 0.65),
        (70, 0.0, 0.58),
        (75, 0.0, 0.5),
        (80, 0.0, 0.41),
        (81, 0.0, 0.0),
    ],
)
def test_air_takes_what_is_printed(air_c, pvc, xlpe):
    assert (heat_left(air_c, 70), heat_left(air_c, 90)) == (pvc, xlpe)


@pytest.mark.parametrize(
    ("circuits", "share"),
    [
        (1, 1.0),
        (2, 0.8),
        (3, 0.7),
        (4, 0.65),
        (5, 0.6),
        (6, 0.57),
        (7, 0.54),
        (8, 0.52),
        (9, 0.5),
        (12, 0.45),
        (16, 0.41),
        (20, 0.38),
        (21, 0.0),
    ],
)
def test_circuits_together_take_what_is_printed(circuits, share):
    assert circuits_left(circuits) == share


@pytest.mark.parametrize(
    ("area", "ohm_km"),
    [(10, 3.08), (16, 1.91), (25, 1.20), (35, 0.868), (50, 0.641), (70, 0.443), (95, 0.320)],
)
def test_aluminium_resists_as_printed(area, ohm_km):
    size = next(size for size in ALUMINIUM_METRIC if size.area_mm2 == area)
    assert 1000 * size.ohm_per_m == pytest.approx(ohm_km, rel=1e-9)


@pytest.mark.parametrize(("area", "ohm_km"), [(50, 0.393), (70, 0.277), (95, 0.210)])
def test_thick_tinned_copper_resists_as_printed(area, ohm_km):
    size = next(size for size in METRIC if size.area_mm2 == area)
    assert 1000 * size.ohm_per_m == pytest.approx(ohm_km, rel=1e-9)


def test_behind_panels_the_air_counts_as_70_c():
    laid = Laid("IEC", "air", 35.0, under_panels=True, beside=2)
    assert round_it_c(laid) == 70.0
    assert left(laid) == pytest.approx(0.58 * 0.8)


def test_gauges_are_no_business_of_these_tables():
    assert {table_a(size, Laid("IEC", "air", 30.0)) for size in GAUGES} == {None}
