"""Panels that reach a rating, against a model of another kind; whether its tables accept our own deal.

The campaign `benchmarks/campaigns/matching_beside.py` gives it ten times our time; here it has seconds.
"""

from __future__ import annotations

from dataclasses import replace

import matching_model
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, MostReaching
from panewright.lots.matching.match import match

MODEL_S = 2.0


@pytest.mark.parametrize(
    ("count", "build", "joined", "seed"),
    [(40, (8, 1, 1), 0, 1), (36, (8, 2, 1), 0, 3), (48, (12, 1, 2), 3, 3)],
    ids=["in a row", "side by side", "soldered in threes"],
)
def test_at_least_as_many_panels_as_the_model_which_accepts_ours(count, build, joined, seed):
    lot = matching.standing(matching.cells(count, seed, matching.Drawn()))
    soldered = matching.soldered(lot, joined, seed) if joined else ()
    asked = Asked(matching.wiring(*build), MostReaching(1.0), soldered=soldered)
    watts = matching.sorted_w(lot, asked)
    asked = replace(asked, aim=MostReaching(round(float(watts.mean()), 1)))
    ours = match(lot, asked)
    found = matching_model.beside(lot, asked, ours.made.strings, MODEL_S)
    assert found.accepted == len(ours.panels)
    assert found.accepted <= found.begun <= len(ours.panels)
    assert matching_model.sorted_count(lot, asked) <= found.alone <= len(ours.panels) <= ours.bound.value


def test_the_model_meets_the_best_of_all_ways_where_it_is_small():
    lot = matching.standing(matching.cells(9, 3, matching.Drawn()))
    asked = Asked(matching.wiring(4, 2, 1), MostReaching(15.9))
    exact = match(lot, asked)
    assert exact.bound.kind == "exhausted"
    assert matching_model.most_reaching(lot, asked, 4.0) == exact.score[0]


def test_a_sample_of_the_campaign_is_sound():
    found = matching.campaign(1, 5)
    assert found.failures == ()
    assert sum(found.counts.values()) == 4
