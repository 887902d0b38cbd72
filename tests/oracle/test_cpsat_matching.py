"""Panels that reach a rating, against a model of another kind that is given ten times the time."""

from __future__ import annotations

import time
from dataclasses import replace

import matching_model
import pytest
from campaigns import matching

from panewright.lots.matching.asked import Asked, MostReaching
from panewright.lots.matching.match import match


@pytest.mark.parametrize(("count", "cells", "seed"), [(40, 8, 1), (54, 9, 2)])
def test_at_least_as_many_panels_as_the_model_finds(count, cells, seed):
    lot = matching.standing(matching.cells(count, seed, matching.Drawn()))
    mean = float(lot.power_w.mean()) * cells
    asked = Asked(matching.wiring(cells, 1, 1), MostReaching(0.985 * mean))
    begin = time.perf_counter()
    ours = match(lot, asked)
    took = time.perf_counter() - begin
    theirs = matching_model.most_reaching(lot, asked, min(10 * took, 30.0))
    assert len(ours.panels) >= theirs
    assert ours.bound.value >= theirs
    assert len(ours.panels) >= matching_model.sorted_count(lot, asked)


@pytest.mark.parametrize(("count", "build", "joined"), [(36, (8, 2, 1), 0), (48, (12, 1, 2), 3)])
def test_so_too_of_strings_side_by_side_and_of_soldered_ones(count, build, joined):
    lot = matching.standing(matching.cells(count, 3, matching.Drawn()))
    soldered = matching.soldered(lot, joined, 3) if joined else ()
    asked = Asked(matching.wiring(*build), MostReaching(1.0), soldered=soldered)
    watts = matching.sorted_w(lot, asked)
    asked = replace(asked, aim=MostReaching(round(float(watts.mean()), 1)))
    ours, theirs = match(lot, asked), matching_model.most_reaching(lot, asked, 4.0)
    assert len(ours.panels) >= theirs
    assert ours.bound.value >= theirs
    assert len(ours.panels) >= matching_model.sorted_count(lot, asked)


def test_the_model_meets_the_best_of_all_ways_where_it_is_small():
    lot = matching.standing(matching.cells(9, 3, matching.Drawn()))
    asked = Asked(matching.wiring(4, 2, 1), MostReaching(15.9))
    exact = match(lot, asked)
    assert exact.bound.kind == "exhausted"
    assert matching_model.most_reaching(lot, asked, 4.0) == exact.score[0]


def test_a_sample_of_the_campaign_holds(monkeypatch):
    monkeypatch.setattr(matching, "MODEL_S", 5.0)  # a campaign gives the model ten times ours
    found = matching.campaign(1, 5)
    assert found.failures == ()
