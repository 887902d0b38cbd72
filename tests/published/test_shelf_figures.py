"""Figures of the packaged shelf against the sources that its rows name."""

import math

import pytest

from panewright.shelf.load import load_shelf

SHELF = load_shelf()
SHEETS = {row.name: row.part for row in SHELF.sheets}
CELLS = {row.name: row.part for row in SHELF.cells}


@pytest.mark.parametrize(
    ("glass", "minimum_in"),
    [("1/8 in", 0.115), ("3/16 in", 0.180), ("1/4 in", 0.219)],
)
def test_inch_glass_has_the_least_thickness_of_its_designation(glass, minimum_in):
    """ASTM E1300-16 table 4; seen in a rough scan, the inch column legible."""
    for name in (f"{glass} clear tempered", f"{glass} low-iron tempered"):
        assert SHEETS[name].thickness_mm == pytest.approx(minimum_in * 25.4, abs=0.013)


@pytest.mark.parametrize("sheet", [s for s in SHEETS.values() if s.material == "glass"], ids=lambda s: s.name)
def test_metric_glass_is_thinner_than_nominal_by_the_standards_tolerance(sheet):
    """EN 572-2 float, 0.2 mm to 6 mm and 0.3 mm to 12 mm; EN 572-5 patterned, 0.5 mm; from memory."""
    if "in " in sheet.name:
        assert sheet.thickness_mm < sheet.nominal_mm
        return
    solar = sheet.nominal_mm == 3.2  # the trade's own tolerance, the row says so
    tolerance_mm = (
        0.2 if solar else 0.5 if sheet.surface == "patterned" else 0.3 if sheet.nominal_mm > 6 else 0.2
    )
    if sheet.plies:  # each ply has the tolerance of its own nominal thickness
        both_mm = sheet.nominal_mm - sheet.plies.between_mm
        assert both_mm - sheet.thickness_mm == pytest.approx(2 * 0.2)
        assert sheet.plies.outer_mm == pytest.approx(sheet.plies.inner_mm)
        return
    assert sheet.nominal_mm - sheet.thickness_mm == pytest.approx(tolerance_mm)


@pytest.mark.parametrize(
    "sheet", [s for s in SHEETS.values() if s.material == "acrylic"], ids=lambda s: s.name
)
def test_cast_acrylic_is_thinner_by_its_standards_tolerance(sheet):
    """ISO 7823-1: 0.4 mm and a tenth of the thickness; from memory."""
    assert sheet.thickness_mm == pytest.approx(sheet.nominal_mm - 0.4 - 0.1 * sheet.nominal_mm)


@pytest.mark.parametrize(
    ("name", "isc_a", "voc_v", "imp_a", "vmp_v"),
    [
        ("156 mm poly half", 4.258799974, 0.6200000002, 4.001222088, 0.5064002675),
        ("125 mm mono", 5.423900009, 0.6300000012, 5.11910379, 0.5185083765),
        ("156 mm poly", 8.566272037, 0.622, 8.053643549, 0.5065568378),
        ("156 mm mono", 8.890800018, 0.6359999999, 8.403194324, 0.5230473524),
        ("156.75 mm PERC", 9.77200004, 0.6699999998, 9.302461733, 0.5648863523),
        ("156 mm poly third, leaky", 2.798639953, 0.6049999998, 2.533069952, 0.4755100576),
    ],
)
def test_cells_carry_the_points_of_their_single_diode(name, isc_a, voc_v, imp_a, vmp_v):
    """Derived: 40-digit solution of five parameters of a typical cell; the shelf rounds to five figures."""
    plate = CELLS[name].nameplate
    assert (plate.isc_a, plate.voc_v) == pytest.approx((isc_a, voc_v), rel=1e-4)
    assert (plate.imp_a, plate.vmp_v) == pytest.approx((imp_a, vmp_v), rel=1e-4)


@pytest.mark.parametrize("row", SHELF.cells, ids=lambda row: row.name)
def test_cells_drift_as_most_crystalline_modules_do(row):
    """Derived: 5 and 95 percentiles over 20946 crystalline modules of the public CEC list."""
    assert 0.00024 <= row.part.nameplate.isc_per_k <= 0.000945
    assert -0.004012 <= row.part.nameplate.voc_per_k <= -0.002833


@pytest.mark.parametrize(
    ("name", "points"),
    [
        ("Schottky 10 A 45 V", ((1, 0.33), (10, 0.50))),
        ("Schottky 15 A 45 V", ((2, 0.34), (15, 0.50))),
        ("Schottky 20 A 100 V", ((2, 0.48), (20, 0.72))),
        ("PN 6 A 400 V", ((1, 0.80), (6, 0.92))),
        ("PN 10 A 1000 V", ((1, 0.78), (10, 1.00))),
    ],
)
def test_bypass_diodes_pass_through_the_points_that_their_rows_name(name, points):
    """Points usual in data sheets; from memory."""
    diode = next(row.part for row in SHELF.bypasses if row.name == name)
    for current_a, voltage_v in points:
        drop_v = (
            diode.ideality_v * math.log(current_a / diode.saturation_a + 1) + diode.series_ohm * current_a
        )
        assert drop_v == pytest.approx(voltage_v, abs=5e-4)
