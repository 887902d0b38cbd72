"""Creepage and clearance of insulation.

IEC 60664-1 table F.4, as printed in a terminal-block catalogue: seen; linear interpolation is allowed.
IEC 61730-1:2016 table 3: 6.4, 10, 14.2 and 20 mm at 1000 V, 10.4, 15, 20.8 and 30 mm at 1500 V recalled; the
rest derived by interpolating F.4 and doubling. Clearances (F.1, F.2; 14 mm reinforced at 1000 V): memory.
"""

import pytest

from panewright.enclosure.creepage import basic_mm, clearance_mm, needed_mm

VOLTS = [35, 100, 150, 300, 600, 1000, 1500]


def _cases(pollution, group, figures):
    return [(volts, pollution, group, figure) for volts, figure in zip(VOLTS, figures, strict=True)]


@pytest.mark.parametrize(
    ("volts", "pollution", "group", "printed_mm"),
    [
        *_cases(1, "III", [0.148, 0.25, 0.309, 0.696, 1.685, 3.2, 5.2]),
        *_cases(2, "I", [0.541, 0.71, 0.786, 1.5, 3.038, 5.0, 7.514]),
        *_cases(2, "III", [0.744, 1.4, 1.571, 3.0, 6.0, 10.0, 15.0]),
    ],
)
def test_basic_creepage_is_as_derived_from_the_table(volts, pollution, group, printed_mm):
    assert basic_mm(volts, pollution, group) == pytest.approx(printed_mm, abs=5.1e-4)


@pytest.mark.parametrize(
    ("volts", "pollution", "group", "printed_mm"),
    [
        *_cases(1, "I", [0.3, 0.5, 0.62, 1.39, 3.37, 6.4, 10.4]),
        *_cases(2, "I", [1.08, 1.42, 1.57, 3.0, 6.08, 10.0, 15.03]),
        *_cases(2, "II", [1.26, 2.0, 2.17, 4.17, 8.58, 14.2, 20.86]),
        *_cases(2, "III", [1.49, 2.8, 3.14, 6.0, 12.0, 20.0, 30.0]),
    ],
)
def test_reinforced_creepage_is_as_printed(volts, pollution, group, printed_mm):
    assert needed_mm(volts, pollution, group) == pytest.approx(printed_mm, abs=5.1e-3)


@pytest.mark.parametrize(
    ("volts", "group", "printed_mm"), [(32, "I", 1.3), (630, "I", 8.0), (630, "III", 10.0)]
)
def test_dirty_surfaces_read_their_own_columns(volts, group, printed_mm):
    assert basic_mm(volts, 3, group) == printed_mm


@pytest.mark.parametrize(
    ("volts", "printed_mm"), [(50, 0.5), (100, 1.5), (150, 3.0), (300, 5.5), (600, 8.0), (1000, 14.0)]
)
def test_reinforced_clearance_is_the_next_step_of_impulse(volts, printed_mm):
    assert clearance_mm(volts) == printed_mm
