"""Every way to fill a panel with few pieces: none missed, none twice, no time lost where strings are long."""

from __future__ import annotations

from itertools import combinations
from math import comb
from types import SimpleNamespace

import numpy as np
import pytest
from campaigns.matching import Drawn, cells, soldered, standing, wiring

from panewright.lots.matching.asked import Asked, Limits, MostWatts
from panewright.lots.matching.match import bench
from panewright.lots.matching.plans import small
from panewright.lots.matching.plans.small import _fills


def rules_of(sizes, leaks, most_leaky, room):
    figures = {"size": np.array(sizes), "leaks": np.array(leaks), "most_leaky": most_leaky}
    return SimpleNamespace(seats=SimpleNamespace(substrings=(room,)), **figures)


@pytest.mark.parametrize("seed", range(12))
def test_sets_that_fill_a_substring_are_those_among_all_sets(seed):
    dice = np.random.default_rng(seed)
    count, room = int(dice.integers(1, 11)), int(dice.integers(1, 15))
    sizes, leaks = dice.integers(1, 6, count).tolist(), dice.integers(0, 2, count).tolist()
    most = int(dice.integers(0, 3))
    free = sorted(dice.choice(count, int(dice.integers(1, count + 1)), replace=False).tolist())
    every = (chosen for k in range(1, count + 1) for chosen in combinations(free, k))
    fits = [
        chosen
        for chosen in every
        if sum(sizes[p] for p in chosen) == room and sum(leaks[p] for p in chosen) <= most
    ]
    assert list(_fills(rules_of(sizes, leaks, most, room), free, 0)) == sorted(fits)


def test_sixteen_strings_of_nine_with_six_loose_cells_are_counted_by_their_pairs():
    """22 pieces have four million sets, of which 120 fill half a panel: two strings."""
    lot = standing(cells(150, 3, Drawn(imp=0.04)))
    rules = bench(lot, Asked(wiring(36, 1, 2), MostWatts(), Limits(), soldered(lot, 9, 3))).rules
    assert rules.pieces.count == 22
    ways = list(small.ways_among(rules, (), range(22)))
    assert len(ways) == len(set(ways)) == comb(16, 2) * comb(14, 2) // 2
    assert small.few(rules)
