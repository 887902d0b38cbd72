"""Prices from the programme over stretches: they hold, and no deal that can be made is refuted by them."""

from __future__ import annotations

import numpy as np
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, MostWatts
from panewright.lots.matching.match import bench
from panewright.lots.matching.plans.small import every_way
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.prove import Prover, most_panels
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.proof.shares import shared


def bench_of(count: int, panel: int, seed: int):
    lot = matching.standing(matching.cells(count, seed, matching.Drawn(imp=0.06)))
    maker = bench(lot, Asked(matching.wiring(panel, 1, 1), MostWatts()))
    room = Room.of(maker.rules.pieces, maker.rules.seats, 0)
    own = (maker.own_w, maker.imp_a)
    return maker, Prover.of((maker.rules.pieces, maker.network, room), own, maker.vectors)


@pytest.mark.parametrize("seed", range(6))
def test_no_pair_of_panels_that_can_be_made_is_refuted(seed):
    maker, prover = bench_of(11, 4, seed)
    ways = every_way(maker.rules, maker.network)
    worst = [
        min(ways.power_w[i], ways.power_w[k])
        for i, one in enumerate(ways.sets)
        for k in range(i)
        if not one & ways.sets[k]
    ]
    best = max(worst)
    assert most_panels(prover, (best * (1 - 1e-7),), (1,), 2).counts.earns == 2
    # above the best pair by 3 %: more than panels in parts gain on whole ones in so small a lot
    assert most_panels(prover, (best * 1.03,), (1,), 2).counts.earns < 2


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
