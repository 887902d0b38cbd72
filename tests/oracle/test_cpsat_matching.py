"""Panels that reach a rating, against a model of another kind that is given ten times the time."""

from __future__ import annotations

import time

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


def test_a_sample_of_the_campaign_holds():
    found = matching.campaign(1, 5)
    assert found.failures == ()
