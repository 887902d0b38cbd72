"""Panels and bank for a wanted reliability: nothing cheaper serves as well, and more never serves less."""

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise, product

import numpy as np
import pytest

from panewright.array.sized import Asked, Prices, Shop, front, priced, through_years
from panewright.array.stored import Supply
from panewright.array.worth import Life
from panewright.battery.bank import Bank
from panewright.battery.load import Battery

HOURS = 24 * 60  # sixty days stand for a year: the rules are the same
LIFE = Life(20, 0.04)
PRICES = Prices(Decimal(90), Decimal(180), Decimal(150), Decimal(5))
SHOP = Shop(Bank(Battery("lfp", 12.8), 1.0), (2, 3, 4, 6, 8), (20.0, 400.0), PRICES, LIFE)


def year(seed):
    """An invented year of one string of 100 W: days clear or dull by chance, dull ones in a row."""
    chance, hour = np.random.default_rng(seed), np.arange(HOURS)
    clear = np.empty(HOURS // 24)
    clear[0] = 0.6
    for day in range(1, clear.size):
        clear[day] = np.clip(0.55 + 0.6 * (clear[day - 1] - 0.55) + chance.normal(0, 0.2), 0.05, 1.0)
    sun = np.maximum(np.sin((hour % 24 - 7) / 10 * np.pi), 0.0) * ((hour % 24 >= 7) & (hour % 24 <= 17))
    return Supply(100.0 * sun * clear[hour // 24], np.array([10.0, 15.0]), np.zeros((HOURS, 2)), 20.0)


YEARS = tuple(year(seed) for seed in range(4))
ASKED = Asked(np.full(HOURS, 30.0), (0.9, 0.97, 0.995))


@pytest.fixture(scope="module")
def found():
    heard = []
    return front(SHOP, YEARS, ASKED, heard.append), heard


def test_each_choice_is_surer_and_dearer_than_the_one_before(found):
    choices, heard = found
    assert len(choices) >= 3
    for one, other in pairwise(choices):
        assert other.per_kwh > one.per_kwh
        assert other.served.share > one.served.share
    assert heard == pytest.approx([0.2, 0.4, 0.6, 0.8, 1.0])


def test_no_pair_of_sizes_serves_a_share_cheaper_than_the_front(found):
    """Every pair on a grid, gone through by itself."""
    for strings, ah in product(SHOP.strings, np.geomspace(20.0, 400.0, 9)):
        bank = Bank(SHOP.bank.battery, float(ah))
        other = priced(bank, strings, through_years(bank, YEARS, strings, ASKED), PRICES, LIFE)
        for share in ASKED.shares:
            if other.served.share >= share:
                best = min(c.per_kwh for c in found[0] if c.served.share >= share)
                assert best <= other.per_kwh * Decimal("1.03"), (strings, ah, share)


@pytest.mark.parametrize("hour", [Decimal("0.2"), Decimal(2)])
def test_with_a_generator_a_larger_bank_that_saves_its_hours_is_found(hour):
    helped = Asked(np.full(HOURS, 30.0), (0.9, 0.99), generator_w=300.0)
    shop = replace(SHOP, strings=(2, 4), prices=replace(PRICES, generator_hour=hour))
    choices = front(shop, YEARS[:2], helped)
    for strings, ah in product(shop.strings, np.geomspace(20.0, 400.0, 17)):
        bank = Bank(SHOP.bank.battery, float(ah))
        other = priced(bank, strings, through_years(bank, YEARS[:2], strings, helped), shop.prices, LIFE)
        best = min((c.per_kwh for c in choices if c.served.share >= helped.shares[-1]), default=Decimal(0))
        if other.served.share >= helped.shares[-1]:
            assert best <= other.per_kwh * Decimal("1.03"), (strings, ah)


@pytest.mark.parametrize("kind", ["agm", "gel", "flooded", "lfp"])
def test_a_generator_starts_before_the_loads_of_any_bank_are_cut_off(kind):
    bank = Bank(Battery(kind, 12.0 if kind != "lfp" else 12.8), 60.0)
    helped = Asked(np.full(HOURS, 30.0), (0.99,), generator_w=300.0)
    assert through_years(bank, YEARS[:1], 2, helped).generator_hours > 0


def test_a_generator_that_stops_before_it_starts_is_refused():
    with pytest.raises(ValueError, match="starts below"):
        Asked(np.ones(24), (0.9,), generator_w=300.0, start=0.9)


def test_more_strings_or_a_larger_bank_serve_no_less():
    shares = np.array(
        [
            [through_years(Bank(SHOP.bank.battery, ah), YEARS, n, ASKED).share for ah in (30.0, 80.0, 200.0)]
            for n in (2, 4, 8)
        ]
    )
    assert (np.diff(shares, axis=0) >= -1e-9).all()
    assert (np.diff(shares, axis=1) >= -1e-9).all()


def test_the_worst_year_is_told_beside_the_mean():
    bank = Bank(SHOP.bank.battery, 60.0)
    all_years, alone = (
        through_years(bank, YEARS, 3, ASKED),
        [through_years(bank, (each,), 3, ASKED).share for each in YEARS],
    )
    assert all_years.worst_share < all_years.share
    assert all_years.worst_share == pytest.approx(min(alone), abs=0.02), "each begins a little less full"


def test_a_bank_spent_sooner_costs_more():
    bank = Bank(Battery("agm", 12.0), 100.0)
    served = through_years(bank, YEARS, 4, ASKED)
    worked, rested = (priced(bank, 4, replace(served, passed_ah=ah), PRICES, LIFE) for ah in (20_000.0, 1.0))
    assert worked.bank_years < rested.bank_years
    assert worked.per_kwh > rested.per_kwh


def test_where_nothing_serves_enough_the_front_is_empty():
    hard = Asked(np.full(HOURS, 5000.0), (0.99,))
    assert front(SHOP, YEARS[:1], hard) == ()


def test_a_generator_serves_what_the_sun_does_not():
    helped = Asked(np.full(HOURS, 30.0), (0.99,), generator_w=300.0)
    bank = Bank(SHOP.bank.battery, 60.0)
    with_it, without = (through_years(bank, YEARS, 2, each) for each in (helped, ASKED))
    assert with_it.share > without.share
    assert with_it.generator_hours > 0 == without.generator_hours


@pytest.mark.parametrize(
    ("load", "shares"), [(np.zeros(24), (0.9,)), (np.ones(24), ()), (np.ones(24), (1.2,))]
)
def test_what_cannot_be_asked_is_refused(load, shares):
    with pytest.raises(ValueError, match="load"):
        Asked(load, shares)
