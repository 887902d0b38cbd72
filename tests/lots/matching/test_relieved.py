"""Cells below nothing in a string: counted so, or a diode carries the current past. No way exceeds that."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest
from campaigns import matching

from panewright.cell.diodes import Diodes
from panewright.circuit.network import Bridge
from panewright.lots.matching.asked import Asked, MostReaching, MostWatts
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.match import bench, match
from panewright.lots.matching.plans import pooled, small
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.prove import Prover
from panewright.lots.matching.proof.relieved import Spared, spared_of
from panewright.lots.matching.proof.sets import Room


def unlisted(lot, asked, *, sets: int = 0):
    """What is found without trying every way, and of so many sets only."""
    kept = small.MOST, pooled.SETS
    small.MOST, pooled.SETS = 0, sets
    try:
        return match(lot, asked)
    finally:
        small.MOST, pooled.SETS = kept


BUILDS = [(6, 1, 2), (6, 1, 3), (6, 1, 1), (8, 2, 2)]


def dim_lot(count: int, seed: int, shares: tuple[float, ...] = (1.0, 0.9, 0.75, 0.62), dark: int = 0):
    """Cells of which some give less light, or leak; but for the dark ones more than half of the brightest."""
    dice = np.random.default_rng(seed)
    cells = matching.cells(count, seed, matching.Drawn(imp=0.05, leaky=0.2))
    light = cells.light_a * dice.choice(shares, count, p=(0.5, 0.3, 0.15, 0.05))
    light[:dark] *= 0.1
    return matching.standing(replace(cells, light_a=light))


def prover_of(lot, asked) -> Prover:
    maker = bench(lot, asked)
    room = Room.of(maker.rules.pieces, maker.rules.seats, maker.rules.most_leaky)
    own = (maker.own_w, maker.imp_a)
    return Prover.of((maker.rules.pieces, maker.network, room), own, maker.vectors)


@pytest.mark.parametrize("build", BUILDS)
@pytest.mark.parametrize("length", [0, 2])
def test_no_panel_of_a_lot_with_dim_cells_exceeds_what_is_said_of_its_cells(build, length):
    """Panels dealt by chance, prices by chance: they never give more than is said."""
    dice, strings = np.random.default_rng(7), build[1]
    lot = dim_lot(35, 5, dark=3)
    if length and build[0] // (strings * build[2]) % length:
        length = 3
    joined = matching.soldered(lot, length, 5) if length else ()
    asked = Asked(matching.wiring(*build), MostWatts(), soldered=joined)
    prover = prover_of(lot, asked)
    shop, size = prover.shop, length or 1
    assert bool(shop.relieved) == (build[2] > 1 and build[0] // (strings * build[2]) >= size)
    whole = [k for k, members in enumerate(prover.pieces.members) if len(members) == size]
    rows = np.array([dice.permutation(whole)[: build[0] // size] for _ in range(300)])
    seats = np.array([[c for k in row for c in prover.pieces.members[k]] for row in rows.tolist()])
    watts = exact_w(asked.network, lot.cells, seats)
    for _ in range(4):
        prices = dice.uniform(0, 4.5, prover.pieces.count) * dice.integers(0, 2, prover.pieces.count)
        worth, _ = shop.sets(np.ones(2 * shop.ceilings.low_a.size), prices)
        most = strings * max(0.0, float(worth.max()))
        assert (watts - prices[rows].sum(axis=1) <= most + 1e-9).all()


def test_what_is_said_of_one_set_is_no_less_than_its_watts_and_often_near():
    """Only those cells are there: what the table says lies above the best way, mostly by less than 2 %."""
    near = 0
    for seed in range(40):
        lot = dim_lot(6, seed, (1.0, 0.85, 0.75, 0.62))
        asked = Asked(matching.wiring(6, 1, 2), MostWatts())
        shop = prover_of(lot, asked).shop
        ways = small.every_way(bench(lot, asked).rules, asked.network)
        best, said = float(ways.power_w.max()), float(shop.most_w.max())
        assert shop.relieved
        assert said >= best * (1 - 1e-9)
        near += said <= 1.02 * best
    assert near >= 30


@pytest.mark.parametrize("build", [(4, 1, 2), (4, 1, 1)])
@pytest.mark.parametrize("seed", range(2))
def test_bounds_of_dim_lots_lie_above_the_best_of_all_ways(build, seed):
    lot = dim_lot(10, seed)
    watts = matching.sorted_w(lot, Asked(matching.wiring(*build), MostWatts()))
    for aim in (MostWatts(), MostReaching(float(watts.mean())), matching.steps(float(watts.mean()))):
        asked = Asked(matching.wiring(*build), aim)
        exact = match(lot, asked)
        assert exact.bound.kind == "exhausted"
        chosen, bounded = unlisted(lot, asked, sets=pooled.SETS), unlisted(lot, asked)
        assert chosen.bound.kind != "exhausted" or chosen.score[0] == pytest.approx(exact.score[0], rel=1e-9)
        assert bounded.bound.value >= exact.score[0] * (1 - 1e-9)
        assert matching.proven(bounded)


def test_a_dim_cell_in_a_strong_string_is_not_free():
    """Two kinds, a tenth apart: their strings are not mixed, and the bound says so."""
    drawn = [matching.cells(30, seed, matching.Drawn(imp=0.03)) for seed in (1, 2)]
    drawn[0] = replace(drawn[0], light_a=0.9 * drawn[0].light_a)
    both = Diodes(*(np.concatenate([getattr(one, f.name) for one in drawn]) for f in fields(Diodes)))
    matched = match(matching.standing(both), Asked(matching.wiring(12, 1, 2), MostWatts()))
    assert matching.fault(matched) == ""
    assert matched.bound.value - matched.score[0] < 2e-5 * matched.score[0]


def dark_lot(count: int, bright: int, seed: int, leaky: float = 0.1):
    """Of the cells so many are bright, the others have no light at all."""
    lot = matching.standing(matching.cells(count, seed, matching.Drawn(imp=0.05, leaky=leaky)))
    light = np.where(np.arange(count) < bright, lot.cells.light_a, 0.0)
    return matching.standing(replace(lot.cells, light_a=light))


def test_where_strings_reach_over_a_piece_counts_no_less_than_nothing():
    lot = dim_lot(16, 3)
    joined = matching.soldered(lot, 8, 3)
    prover = prover_of(lot, Asked(matching.wiring(8, 1, 2), MostWatts(), soldered=joined))
    assert not prover.shop.relieved
    assert prover.shop.ceilings.piece_w.min() >= 0


@pytest.mark.parametrize("seed", range(2))
@pytest.mark.parametrize("build", [(6, 1, 2), (6, 1, 3), (8, 2, 2)])
def test_a_diode_past_dark_cells_takes_its_drop(build, seed):
    """Panels of bright and dark cells dealt by chance never give more than is said."""
    dice, lot = np.random.default_rng(seed), dark_lot(24, 8, seed)
    asked = Asked(matching.wiring(*build), MostWatts())
    prover = prover_of(lot, asked)
    assert prover.shop.ceilings.sunk.any()
    seats = np.array([dice.permutation(24)[: build[0]] for _ in range(400)])
    seats[:200] = np.sort(seats[:200], axis=1)
    watts = exact_w(asked.network, lot.cells, seats)
    for _ in range(4):
        prices = dice.uniform(0, 4.5, 24) * dice.integers(0, 2, 24)
        worth, _ = prover.shop.sets(np.ones(2 * prover.shop.ceilings.low_a.size), prices)
        most = build[1] * max(0.0, float(worth.max()))
        assert (watts - prices[seats].sum(axis=1) <= most + 1e-9).all()


@pytest.mark.parametrize("seed", range(2))
def test_panels_half_in_the_dark_are_bounded_closely(seed):
    """Four bright cells in panels of two times four: they sit side by side, the diode's drop is lost."""
    lot = dark_lot(24, 4, seed, 0.0)
    matched = match(lot, Asked(matching.wiring(8, 1, 2), MostWatts()))
    assert matching.fault(matched) == ""
    assert matched.score[0] <= matched.bound.value <= 1.006 * matched.score[0]


@pytest.mark.parametrize("build", [(4, 1, 2), (6, 1, 3)])
@pytest.mark.parametrize("bright", [4, 7])
def test_bounds_of_lots_with_dark_cells_lie_above_the_best_of_all_ways(build, bright):
    lot = dark_lot(10, bright, bright)
    for aim in (MostWatts(), MostReaching(6.0)):
        asked = Asked(matching.wiring(*build), aim)
        exact = match(lot, asked)
        assert exact.bound.kind == "exhausted"
        bounded = unlisted(lot, asked)
        assert bounded.bound.value >= exact.score[0] * (1 - 1e-9)
        assert matching.proven(bounded)


def test_only_what_lies_beside_a_substring_carries_past_it():
    network = matching.wiring(6, 1, 3)
    string = network.strings[0]
    parts = (string.substrings[0], replace(string.substrings[1], bypass=None), string.substrings[2])
    bare = replace(network, strings=(replace(string, substrings=parts),))
    one = Spared((2, 2), (2,))
    assert spared_of(network) == (Spared((2,), (2, 2), deep=True), one, one._replace(deep=True))
    assert spared_of(bare) == (one,)
    assert spared_of(matching.wiring(6, 1, 1)) == ()
    none = tuple(replace(part, bypass=None) for part in parts)
    assert spared_of(replace(network, strings=(replace(string, substrings=none),))) == ()
    bridged = (replace(none[0], bypass=Bridge(5.0)), *none[1:])
    assert spared_of(replace(network, strings=(replace(string, substrings=bridged),))) == (one,)


def test_a_table_that_is_parted_still_knows_what_a_diode_carries_past():
    lot, asked = dim_lot(20, 1), Asked(matching.wiring(6, 1, 2), MostWatts())
    prover = prover_of(lot, asked)
    table = prover.shop.ceilings
    finer = table.parted((prover.pieces, prover.network), np.array([3, 8]), 4)
    assert finer.spared == table.spared != ()
    shop = Shop(finer, prover.room, 1)
    assert shop.most_w.max() <= prover.shop.most_w.max() * (1 + 1e-12)
    assert isinstance(finer, Ceilings)
