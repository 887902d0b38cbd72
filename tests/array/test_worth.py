"""Laws of what a kWh costs. All prices are invented."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panewright.array.worth import (
    Kind,
    Life,
    Outlay,
    Renewal,
    beside_bought,
    per_kwh,
    renewals_of,
    shown,
    years_worth,
)

rates, lives = st.floats(0.0, 0.15), st.integers(1, 40)


@given(rates, lives)
def test_what_one_a_year_is_worth_is_the_sum_of_its_years(rate, years):
    by_hand = sum(1 / (1 + rate) ** year for year in range(1, years + 1))
    assert years_worth(rate, years) == pytest.approx(by_hand, rel=1e-9)


@given(st.floats(1e-15, 1e-9), lives)
def test_next_to_no_interest_is_as_good_as_none(rate, years):
    assert years_worth(rate, years) == pytest.approx(years, rel=1e-6)


def test_batteries_raise_a_kwh_by_their_price_of_today():
    life = Life(20, 0.04)
    bare = per_kwh(Outlay(Decimal(3000), Decimal(50)), 1000.0, life)
    renewed = Outlay(Decimal(3000), Decimal(50), renewals_of(Decimal(500), 7.0, 20))
    assert [each.year for each in renewed.renewals] == [7, 14]
    extra = Outlay(Decimal(3000) + Decimal("379.959"), Decimal(50))
    worth = 500 / 1.04**7 + 500 / 1.04**14
    assert float(per_kwh(renewed, 1000.0, life) - bare) == pytest.approx(
        float(per_kwh(extra, 1000.0, life) - bare) * worth / 379.959, abs=2e-9
    )


def test_a_battery_that_lasts_the_whole_life_is_bought_once():
    assert renewals_of(Decimal(500), 20.0, 20) == ()
    assert [each.year for each in renewals_of(Decimal(500), 1.0, 4)] == [1, 2, 3]


@given(st.decimals("0.1", "3", places=2), st.floats(0.5, 2.5))
def test_at_the_break_even_price_both_kwh_cost_the_same(bought_w, kwh_per_w):
    bought, own_life = Kind(bought_w, Life(30, 0.05, 0.004)), Life(15, 0.05, 0.01)
    even = beside_bought(Kind(Decimal(1), own_life), bought, kwh_per_w).break_even_per_w
    at_it = beside_bought(Kind(even, own_life), bought, kwh_per_w)
    assert float(at_it.own_per_kwh) == pytest.approx(float(at_it.bought_per_kwh), abs=3e-9)
    assert even < bought_w  # a shorter life must cost less


def test_equal_panels_break_even_at_the_same_price():
    life = Life(25, 0.05)
    even = beside_bought(Kind(Decimal("0.60"), life), Kind(Decimal("0.45"), life), 1.3)
    assert even.break_even_per_w == Decimal("0.45")
    assert not even.own_pays


def test_money_is_shown_to_a_hundredth_of_a_cent():
    assert shown(Decimal("0.45"), "EUR", "W") == "0.4500\u2009EUR/W"


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (lambda: Life(0, 0.05), "a year or more"),
        (lambda: Life(5, -0.01), "from 0"),
        (lambda: Outlay(Decimal(-1), Decimal(0)), "0 or more"),
        (lambda: renewals_of(Decimal(1), 0.0, 5), "longer than 0"),
        (lambda: per_kwh(Outlay(Decimal(1), Decimal(0)), 0.0, Life(5, 0.0)), "above 0 kWh"),
        (
            lambda: per_kwh(Outlay(Decimal(1), Decimal(0), (Renewal(6, Decimal(1)),)), 1.0, Life(5, 0.0)),
            "years 1 to 5",
        ),
    ],
)
def test_nonsense_is_refused_with_its_reason(wrong, words):
    with pytest.raises(ValueError, match=words):
        wrong()
