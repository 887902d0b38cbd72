"""Ribbons which collect their current evenly, by the closed formula and by ladders of resistors.

Loss I2 R / 3: derived by integration. Bare copper, 1.724e-8 ohm m.
Half cell 78 x 156 mm with ribbon 2 x 0.15 mm, 4.0 A, Pmp 2.0262 W, gap 3 mm: derived from the same formula.
String of 156 mm cells, three busbars, ribbon 1.5 x 0.3 mm, gap 2 mm: EPJ Photovoltaics 2016, pv150013,
table 1, seen.
Solder: public alloy tables, seen; the gain of a coat derived. Copper coefficient 0.00393 per kelvin: memory.
"""

import pytest

from panewright.ribbon.resistance import (
    TabRun,
    cell_equivalent_ohm,
    collected_mm,
    heat_factor,
    ohm_per_m,
    tab_loss,
)
from panewright.ribbon.strip import Strip

BARE = Strip("2 x 0.15", 2.0, 0.15, coat_mm=0.0)


def test_evenly_collected_current_counts_one_third():
    assert collected_mm(156.0) == pytest.approx(52.0)


@pytest.mark.parametrize(
    ("length_mm", "busbars", "side_w", "gap_w", "total_w", "equivalent_ohm"),
    [
        (78, 2, 0.011953067, 0.0013792, 0.025285333, 0.0015803333),
        (78, 3, 0.0079687111, 0.00091946667, 0.016856889, 0.0010535556),
        (156, 2, 0.023906133, 0.0013792, 0.049191467, 0.0030744667),
        (156, 3, 0.015937422, 0.00091946667, 0.032794311, 0.0020496444),
    ],
)
def test_half_cell_and_whole_cell_lose_as_derived(length_mm, busbars, side_w, gap_w, total_w, equivalent_ohm):
    run = TabRun(busbars, length_mm, gap_mm=3.0)
    lost = tab_loss(BARE, run, 4.0)
    assert lost.front_w == pytest.approx(side_w, rel=1e-7)
    assert lost.back_w == pytest.approx(side_w, rel=1e-7)
    assert lost.gap_w == pytest.approx(gap_w, rel=1e-7)
    assert lost.total_w == pytest.approx(total_w, rel=1e-7)
    assert cell_equivalent_ohm(BARE, run) == pytest.approx(equivalent_ohm, rel=1e-7)


@pytest.mark.parametrize(
    ("imp_a", "pmp_w", "share"), [(8.05, 4.08, 0.0215001), (8.2, 4.2, 0.0216714), (7.9, 4.0, 0.0211205)]
)
def test_published_string_loses_what_was_printed_within_a_tenth(imp_a, pmp_w, share):
    bare = Strip("1.5 x 0.3", 1.5, 0.3, coat_mm=0.0)
    ours = tab_loss(bare, TabRun(busbars=3, length_mm=156, gap_mm=2), imp_a).total_w / pmp_w
    assert ours == pytest.approx(share, rel=1e-5)
    assert ours == pytest.approx(0.023, rel=0.1)


def test_a_coat_of_solder_lowers_the_resistance_by_three_percent():
    coated = Strip("2 x 0.15", 2.0, 0.15, coat_mm=0.02, coat_ohm_m=1.5e-7)
    assert ohm_per_m(coated) / ohm_per_m(BARE) == pytest.approx(0.967529, abs=5e-7)
    assert ohm_per_m(BARE) / ohm_per_m(coated) - 1 == pytest.approx(0.0335605, abs=5e-8)


@pytest.mark.parametrize(("temperature_c", "factor"), [(20, 1.0), (60, 1.1572), (75, 1.21615)])
def test_copper_resists_more_when_hot(temperature_c, factor):
    assert heat_factor(temperature_c) == pytest.approx(factor, abs=1e-9)
    assert ohm_per_m(BARE, temperature_c) / ohm_per_m(BARE) == pytest.approx(factor, abs=1e-9)
