"""Prices from the programme over stretches: they hold, and no deal that can be made is refuted by them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, Limits, MostWatts
from panewright.lots.matching.match import bench
from panewright.lots.matching.plans.small import every_way
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.prove import Prover, most_panels
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.proof.shares import shared


def bench_of(count: int, panel: int, seed: int):
    lot = matching.standing(matching.cells(count, seed, matching.Drawn(imp=0.06)))
    return prover_of(lot, Asked(matching.wiring(panel, 1, 1), MostWatts()))


def prover_of(lot, asked: Asked):
    maker = bench(lot, asked)
    room = Room.of(maker.rules.pieces, maker.rules.seats, maker.rules.most_leaky)
    own = (maker.own_w, maker.imp_a)
    return maker, Prover.of((maker.rules.pieces, maker.network, room), own, maker.vectors)


def pairs_of(maker) -> list[tuple[float, float]]:
    """Watts of every two panels without a common cell."""
    ways = every_way(maker.rules, maker.network)
    return [
        (ways.power_w[i], ways.power_w[k])
        for i, one in enumerate(ways.sets)
        for k in range(i)
        if not one & ways.sets[k]
    ]


@pytest.mark.parametrize("seed", range(6))
def test_no_pair_of_panels_that_can_be_made_is_refuted(seed):
    maker, prover = bench_of(11, 4, seed)
    best = max(min(pair) for pair in pairs_of(maker))
    assert most_panels(prover, (best * (1 - 1e-7),), (1,), 2).counts.earns == 2
    # above the best pair by 3 %: more than panels in parts gain on whole ones in so small a lot
    assert most_panels(prover, (best * 1.03,), (1,), 2).counts.earns < 2


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize(("length", "most_leaky"), [(2, 4), (0, 1), (2, 1)])
def test_soldered_leaky_and_dim_pieces_too_refute_no_pair_and_not_too_little(length, most_leaky, seed):
    """Ratings and steps of money of any two panels stand; a tenth above the best pair they are refuted."""
    dice = np.random.default_rng(seed)
    cells = matching.cells(11, seed, matching.Drawn(imp=0.06, leaky=0.3))
    lot = matching.standing(
        replace(cells, light_a=cells.light_a * dice.choice((1.0, 0.75), 11, p=(0.8, 0.2)))
    )
    order = dice.permutation(11)
    joined = tuple(tuple(lot.marks[k] for k in order[2 * n : 2 * n + 2]) for n in range(3)) if length else ()
    asked = Asked(matching.wiring(4, 1, 2), MostWatts(), Limits(6.0, most_leaky), soldered=joined)
    maker, prover = prover_of(lot, asked)
    pairs = pairs_of(maker)
    best = max(min(pair) for pair in pairs)
    assert most_panels(prover, (best * (1 - 1e-7),), (1,), 2).counts.earns == 2
    assert most_panels(prover, (best * 1.1,), (1,), 2).counts.earns < 2
    steps = (0.8 * best, 0.97 * max(max(pair) for pair in pairs))
    earned = max(sum(3 * (w >= steps[0]) + 2 * (w >= steps[1]) for w in pair) for pair in pairs)
    asked_w = (steps[0] * (1 - 1e-9), steps[1] * (1 - 1e-9))
    assert earned <= most_panels(prover, asked_w, (3, 5), 2).counts.earns <= 10


@pytest.mark.parametrize("seed", range(3))
def test_the_share_that_prices_allow_is_that_of_a_certificate_reckoned_anew(seed):
    maker, prover = bench_of(40, 9, seed)
    watts = np.sort(maker.made(maker.sorted_deal()).power_w)[::-1]
    ratings = (float(watts[1] * 0.99), float(watts[0] * 0.995))
    found = shared(prover.shop, ratings, (2.0, 2.0), prover.own_w, 0.0)
    assert found is not None
    assert (found.prices >= 0).all()
    assert found.bound >= found.value - 1e-6
    low, high = prover.shop.ceilings.low_a, prover.shop.ceilings.high_a
    shop = Shop(Ceilings.of(prover.pieces, prover.network, low, high), prover.room, 1)
    rows = np.linspace(0, 0.3, 7)
    for weight in rows:  # any weights prove something, and none more than is said
        ones = np.full(2 * low.size, weight)
        cost = sum(2 * shop.cost(rating, ones, found.prices) for rating in ratings)
        assert cost <= found.prices.sum() / found.bound * (1 + 1e-9)
