"""Fewer tabs than busbars, told as what the cell's fingers make of it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.ribbon.cell import Contacts, TabbedCell, on_every_busbar
from panewright.ribbon.choice import judge_tab
from panewright.ribbon.count import judge_count, judge_counts
from panewright.ribbon.resistance import TabRun, tab_loss
from panewright.ribbon.strip import Strip

TWO, ONE = Contacts((0.5, 0.5), 0.003), Contacts((1.0,), 0.01)
CELL = TabbedCell(TabRun(3, 156.0, 3.0), 1.5, 24336.0, wafer_mm=0.2, imp_a=8.05, pmp_w=4.08, fewer=(TWO, ONE))
TAB = Strip("1.6 x 0.2", 1.6, 0.2)


def test_all_busbars_are_what_the_ribbon_was_judged_by():
    row = judge_tab(TAB, CELL)
    first = row.counts[0]
    assert (first.tabs, first.finger_w) == (3, 0.0)
    assert first.resistance_w == pytest.approx(row.resistance_w)
    assert (first.shadow_w, first.metres) == pytest.approx((row.shadow_w, row.metres))


def test_two_of_three_by_hand():
    two = judge_count(TAB, CELL, TWO)
    assert two.finger_w == pytest.approx(0.003 * 8.05**2)
    assert two.resistance_w == pytest.approx(1.5 * tab_loss(TAB, CELL.run, 8.05).total_w)
    assert two.metres == pytest.approx(judge_tab(TAB, CELL).metres * 2 / 3)
    assert judge_tab(TAB, CELL).fewer == two


def test_every_way_is_told_the_most_tabs_first():
    assert [each.tabs for each in judge_counts(TAB, CELL)] == [3, 2, 1]


@given(st.integers(1, 16))
def test_on_every_busbar_the_tabs_share_evenly(busbars):
    every = on_every_busbar(busbars)
    assert len(set(every.shares)) == 1
    assert sum(every.shares) == pytest.approx(1.0)


def test_a_cell_of_which_no_fewer_are_known_has_no_fewer():
    single = TabbedCell(TabRun(1, 39.0, 3.0), 1.5, 39.0 * 26.0, 0.2, 0.3, 0.15)
    assert judge_tab(TAB, single).fewer is None


@pytest.mark.parametrize("wrong", [((), 0.0), ((0.5, 0.4), 0.0), ((1.0,), -0.001)])
def test_contacts_that_cannot_be_are_refused(wrong):
    with pytest.raises(ValueError, match="share the whole current"):
        Contacts(*wrong)
