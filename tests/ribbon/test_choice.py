"""The ribbon chosen is the one that costs least, and no guide of the trade is broken in silence."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.ribbon.bus import BusRun
from panewright.ribbon.choice import (
    BusedPanel,
    TabbedCell,
    Worth,
    judge_bus,
    judge_buses,
    judge_tab,
    judge_tabs,
)
from panewright.ribbon.resistance import TabRun
from panewright.ribbon.shadow import outer_width_mm, overhang_mm, shaded_mm2, shaded_share
from panewright.ribbon.strip import Strip

CELL = TabbedCell(TabRun(2, 156.0, 3.0), 1.6, 24336.0, wafer_mm=0.2, imp_a=8.05, pmp_w=4.08)
TABS = tuple(Strip(f"{w} x {t}", w, t) for w in (1.0, 1.5, 1.6, 2.0, 2.5) for t in (0.1, 0.15, 0.2, 0.3))
PANEL = BusedPanel(
    (BusRun((0, 78), (160, 238)), BusRun((0, 78), (39,), on_mm=60)), current_a=8.05, pmp_w=147.0
)
BUSES = tuple(Strip(f"{w} x {t}", w, t) for w in (3.0, 4.0, 5.0, 6.0, 8.0) for t in (0.2, 0.3))


def test_best_tab_keeps_the_guides_and_loses_least():
    rows = judge_tabs(TABS, CELL)
    kept = [row for row in rows if row.passed]
    assert rows[0].total_w == min(row.total_w for row in kept)
    assert [row.passed for row in rows] == sorted((row.passed for row in rows), reverse=True)


def failing(row) -> list[str]:
    return [check.rule for check in row.checks if not check.passed]


def test_a_thick_tab_on_a_thin_wafer_fails_its_guide():
    row = judge_tab(Strip("1.6 x 0.25", 1.6, 0.25), CELL)
    assert row.passed
    thin = judge_tab(Strip("1.6 x 0.25", 1.6, 0.25), replace(CELL, wafer_mm=0.18))
    assert failing(thin) == ["tab not too thick for the wafer"]


def test_a_hard_tab_cracks_a_thin_wafer_at_its_end_where_a_soft_one_does_not():
    thin, hard = replace(CELL, wafer_mm=0.14), Strip("2 x 0.2", 2.0, 0.2, yield_mpa=220.0)
    assert failing(judge_tab(hard, thin)) == ["wafer at the end of a tab"]
    assert judge_tab(replace(hard, yield_mpa=80.0), thin).passed


def test_a_tab_much_wider_than_the_busbar_fails_its_guide():
    row = judge_tab(Strip("2.5 x 0.15", 2.5, 0.15), CELL)
    assert [check.rule for check in row.checks if not check.passed] == ["tab not wider than the busbar"]


def test_a_tab_within_its_busbar_shades_nothing():
    assert judge_tab(Strip("1.5 x 0.2", 1.5, 0.2), CELL).shadow_w == 0.0


def test_shadow_is_the_overhang_over_the_cell_in_power():
    # 2 mm and two edges of 0.02 mm over 1.6 mm, on 156 mm, twice
    assert judge_tab(Strip("2 x 0.2", 2.0, 0.2), CELL).shadow_w == pytest.approx(4.08 * 0.44 * 312 / 24336)


@given(st.floats(0.5, 3.0), st.floats(0.0, 1.0))
def test_light_that_comes_back_is_not_lost(width, recovered):
    shaded = shaded_mm2(Strip("", width, 0.2), 2, 1.6, 156.0)
    assert shaded_share(shaded, 24336.0, recovered) <= shaded_share(shaded, 24336.0)
    assert overhang_mm(Strip("", width, 0.2), 1.6) <= outer_width_mm(Strip("", width, 0.2))


def test_more_light_than_there_is_cannot_come_back():
    with pytest.raises(ValueError, match="none and all"):
        shaded_share(100.0, 24336.0, 1.2)


def test_dear_ribbon_loses_its_place_where_watts_are_cheap():
    thick, thin = Strip("1.6 x 0.2", 1.6, 0.2), Strip("1.6 x 0.1", 1.6, 0.1)
    assert judge_tabs((thin, thick), CELL)[0].strip is thick
    assert judge_tabs((thin, thick), CELL, worth=Worth((0.1, 2.0), per_watt=0.5))[0].strip is thin
    assert judge_tabs((thin, thick), CELL, worth=Worth((0.1, 2.0), per_watt=500.0))[0].strip is thick


def test_money_is_the_ribbon_of_a_cell_and_its_lost_watts():
    (row,) = judge_tabs((TABS[5],), CELL, worth=Worth((0.14,), per_watt=1.5))
    assert row.price == pytest.approx(2 * (156 + 3 + 156) / 1000 * 0.14)
    assert row.money == pytest.approx(row.price + 1.5 * row.total_w)


def test_without_prices_there_is_no_money():
    row = judge_tab(TABS[0], CELL)
    assert (row.price, row.money, row.merit) == (None, None, row.total_w)
    assert judge_buses(BUSES, PANEL)[0].money is None


def test_prices_below_zero_are_refused():
    with pytest.raises(ValueError, match="zero or more"):
        Worth((0.1, -0.1), per_watt=1.0)


def test_heat_raises_what_a_tab_loses():
    cold, hot = (judge_tab(TABS[0], CELL, t).resistance_w for t in (20.0, 75.0))
    assert hot / cold == pytest.approx(1.21615)


def test_bus_chosen_is_the_lightest_that_loses_little_enough():
    rows = judge_buses(BUSES, PANEL)
    kept = [row for row in rows if row.passed]
    assert kept
    assert rows[0].mass_kg == min(row.mass_kg for row in kept)


def test_where_no_bus_is_good_enough_the_one_that_loses_least_comes_first():
    rows = judge_buses(BUSES, replace(PANEL, most_share=1e-6))
    assert rows[0].loss_w == min(row.loss_w for row in rows)
    assert not rows[0].passed


def test_bus_row_agrees_with_itself():
    row = judge_bus(BUSES[0], PANEL, 50.0)
    assert row.loss_w == pytest.approx(row.drop_v * PANEL.current_a)
    assert row.share == pytest.approx(row.loss_w / PANEL.pmp_w)
    assert row.density_a_mm2 == pytest.approx(8.05 / 0.6)
    assert row.metres == pytest.approx(0.238 + 0.138)


def test_dear_watts_call_for_a_stout_bus_and_dear_room_for_a_narrow_one():
    thin, stout = Strip("4 x 0.3", 4.0, 0.3), Strip("8 x 0.3", 8.0, 0.3)
    prices = (0.3, 0.6)
    assert judge_buses((thin, stout), PANEL, worth=Worth(prices, 0.01))[0].strip is thin
    assert judge_buses((thin, stout), PANEL, worth=Worth(prices, 5.0))[0].strip is stout
    assert judge_buses((thin, stout), PANEL, worth=Worth(prices, 5.0, per_m2=1e4))[0].strip is thin


def test_a_bus_that_loses_too_much_is_never_first_however_cheap():
    worth = Worth(tuple(strip.width_mm for strip in BUSES), per_watt=0.0)
    rows = judge_buses(BUSES, replace(PANEL, most_share=0.0016), worth=worth)
    assert rows[0].passed
    assert not rows[-1].passed
    assert rows[0].price > min(row.price for row in rows)


def test_a_loss_in_the_far_leads_tail_is_told_with_what_shortens_it():
    """Two cells, their leads at both ends: 250 mm along the back, 156 mm of bus on the pane."""
    strip, runs = Strip("3 x 0.2", 3.0, 0.2), (BusRun((0, 78), (39,), on_mm=68), BusRun((0, 78), (39,), 318))
    tiny = BusedPanel(runs, current_a=8.05, pmp_w=8.0, far_mm=250.0)
    (far,), (near,) = judge_bus(strip, tiny).checks, judge_bus(strip, replace(tiny, far_mm=0.0)).checks
    assert not far.passed
    assert (far.demand, far.limit) == (near.demand, near.limit)
    assert "even number of columns" in far.cure
    assert "even number of columns" not in near.cure
    assert "wider or thicker bus ribbon" in far.cure
