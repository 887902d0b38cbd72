"""Which plan comes first, and that every point lost has its reason."""

from __future__ import annotations

import pytest

from panewright.layup.candidates import candidates
from panewright.layup.rank import POINTS_A_CELL, Counted, Preferences, rank


@pytest.mark.parametrize(
    ("cells", "wanted"),
    [(72, (6, 12, 3)), (36, (4, 9, 2)), (60, (6, 10, 3)), (12, (2, 6, 1)), (54, (6, 9, 3)), (37, (1, 37, 1))],
)
def test_the_trade_s_usual_lay_up_comes_first(whole, cells, wanted):
    best = rank(candidates(whole, cells), whole)[0].plan
    assert (best.columns, best.rows, best.substrings) == wanted


def test_points_fall_and_only_ever_count_against(whole):
    ranked = rank(candidates(whole, 60), whole)
    scores = [each.score for each in ranked]
    assert scores == sorted(scores, reverse=True)
    assert all(points <= 0 and reason for each in ranked for _, points, reason in each.parts)


def test_a_panel_past_a_limit_comes_after_every_one_within(whole):
    limits = Preferences(most_long_mm=1700.0, most_short_mm=1100.0)
    ranked = rank(candidates(whole, 72), whole, limits)
    within = [each.within_limits for each in ranked]
    assert within == sorted(within, reverse=True)
    assert not any(each.within_limits and each.facts.long_mm > 1700 for each in ranked)
    assert any("mm long, 1700 at most" in each.words for each in ranked)


def test_a_stock_sheet_that_fits_closely_wins_over_one_that_wastes_half(whole):
    close = rank(candidates(whole, 36), whole, Preferences(stock_glass_mm=((1040.0, 1010.0),)))[0]
    assert (close.plan.columns, close.plan.rows) == (6, 6)


def test_leads_at_one_end_are_worth_a_less_handy_pane_unless_any_end_will_do(whole):
    plans = candidates(whole, 15)
    assert rank(plans, whole, Preferences(leads_one_end=False))[0].facts.leads_one_end is False
    mixed = rank(candidates(whole, 30), whole)[0]
    assert mixed.facts.leads_one_end


def test_the_mass_of_the_glass_is_a_limit(whole):
    ranked = rank(candidates(whole, 72), whole, Preferences(glass_kg_m2=8.0, most_mass_kg=5.0))
    assert all("kg of glass, 5 at most" in each.words for each in ranked)


def test_a_cell_more_costs_its_points(whole):
    best = rank(candidates(whole, 36), whole)[0]
    least, more = Counted(36, best, 0), Counted(36, best, 3)
    assert least.merit == best.score
    assert more.merit == pytest.approx(best.score - 3 * POINTS_A_CELL)
    assert "4 x 9 loses" in more.words
    assert "15 for 3 more" in more.words


def test_reasons_of_an_order_in_inches_are_told_in_inches(whole):
    limits = Preferences(most_long_mm=900.0, stock_glass_mm=((1930.4, 711.2),), units="us")
    told = [words for each in rank(candidates(whole, 36), whole, limits) for _, _, words in each.parts]
    sized = [words for words in told if "mm" in words]
    assert any("76 x 28" in words for words in sized)
    assert all("\u2009in" in words for words in sized)
    assert any("at most" in words and "35 7/16" in words for words in sized)
