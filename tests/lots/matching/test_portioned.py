"""Few soldered strings of several lengths: every way to share them out over panels is looked at."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, Limits, MostWatts
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.match import bench, match
from panewright.lots.matching.plans.portioned import portioned


def asked_of(lot, lengths: tuple[int, ...], panel: int, seed: int, *, limits: Limits | None = None) -> Asked:
    order, joined = np.random.default_rng(seed).permutation(len(lot.marks)).tolist(), []
    for length in lengths:
        joined.append(tuple(lot.marks[k] for k in order[:length]))
        order = order[length:]
    wiring = matching.wiring(panel, 1, 1)
    return Asked(wiring, MostWatts(), limits or Limits(), soldered=tuple(joined))


def best_of_all_ways(lot, asked: Asked, panels: int) -> float:
    """Soldered strings in any panel, loose cells in falling order of Imp between; the exact circuit. [W]"""
    place = {mark: k for k, mark in enumerate(lot.marks)}
    length = len(asked.network.strings[0].substrings[0].cells)
    joined = [[place[mark] for mark in each] for each in asked.soldered]
    rest = set(range(len(lot.marks))) - {k for each in joined for k in each}
    loose = sorted(rest, key=lambda k: -lot.imp_a[k])
    deals = []
    for way in product(range(panels), repeat=len(joined)):
        first, deal = 0, []
        for p in range(panels):
            held = [k for each, at in zip(joined, way, strict=True) if at == p for k in each]
            deal.append([*held, *loose[first : first + max(0, length - len(held))]])
            first += max(0, length - len(held))
        if all(len(each) == length for each in deal):
            deals.append(deal)
    watts = exact_w(asked.network, lot.cells, np.array(deals).reshape(-1, length))
    return float(watts.reshape(-1, panels).sum(axis=1).max())


@pytest.mark.parametrize("seed", range(3))
def test_a_deal_of_fives_and_sevens_is_no_worse_than_every_way_to_share_them_out(seed):
    lot = matching.standing(matching.cells(72, seed, matching.Drawn(imp=0.04)))
    asked = asked_of(lot, (5, 7) * 4, 24, seed)
    matched = match(lot, asked)
    assert matching.fault(matched) == ""
    assert matched.score[0] >= best_of_all_ways(lot, asked, 3) * (1 - 1e-9)
    assert matched.closed >= 0.8
    assert matching.proven(matched)


def test_a_string_may_be_left_over_where_cells_are_enough_without_it():
    lot = matching.standing(matching.cells(30, 3, matching.Drawn(imp=0.06)))
    maker = bench(lot, asked_of(lot, (3, 4, 3), 12, 3))
    deals = portioned(maker.rules, maker.vectors, maker.by_imp(np.arange(23)), maker.own_w, 2)
    assert deals
    for deal in deals:
        chosen = deal[deal >= 0]
        assert np.unique(chosen).size == chosen.size
        assert maker.made(deal).power_w.size == 2


@pytest.mark.parametrize("lengths", [(), (2,) * 15])
def test_without_soldered_strings_or_with_many_none_is_shared_out(lengths):
    lot = matching.standing(matching.cells(36, 1, matching.Drawn()))
    maker = bench(lot, asked_of(lot, lengths, 12, 1))
    every = maker.by_imp(np.arange(maker.rules.pieces.count))
    assert portioned(maker.rules, maker.vectors, every, maker.own_w, 3) == []
