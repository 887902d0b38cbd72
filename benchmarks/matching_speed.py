"""Lots matched: ten thousand free cells; panels that reach a rating beside CP-SAT with ten times the time."""

from __future__ import annotations

import time
from dataclasses import replace

import matching_model
from campaigns import matching
from clock import best_s
from row import Row

from panewright.lots.matching.asked import Asked, MostReaching, MostWatts
from panewright.lots.matching.match import match
from panewright.lots.standing.standing import Standing

MANY, MOST_S = 10_000, 20.0
MODELS = ((100, 12, 3), (200, 20, 4))  # cells, cells of a panel, seed


def rows() -> list[Row]:
    """A large lot of good cells, and mixed lots of some hundreds."""
    return [_many(), *(_model(*each) for each in MODELS)]


def _many() -> Row:
    lot = matching.standing(matching.cells(MANY, 1, matching.Drawn(imp=0.005, vmp=0.003)))
    asked = Asked(matching.wiring(36, 1, 2), MostWatts())
    few = matching.standing(matching.cells(80, 1, matching.Drawn()))
    match(few, asked)  # compiles
    begin = time.perf_counter()
    found = match(lot, asked)
    took = time.perf_counter() - begin
    more = found.score[0] - found.sorted_score[0]
    return Row(f"{MANY} free cells matched: {more:+.2f} W on sorting", took, most_s=MOST_S)


def _model(count: int, cells: int, seed: int) -> Row:
    lot: Standing = matching.standing(matching.cells(count, seed, matching.Drawn()))
    asked = Asked(matching.wiring(cells, 1, 2), MostReaching(1.0))
    rating = round(float(matching.sorted_w(lot, asked).mean()), 1)
    asked = replace(asked, aim=MostReaching(rating))
    ours = match(lot, asked)
    took = best_s(lambda: match(lot, asked), 1)
    theirs = matching_model.most_reaching(lot, asked, 10 * took)
    sort = int(ours.sorted_score[0])
    found = f"{len(ours.panels)}, at most {ours.bound.value:g}"
    what = f"{count} cells, panels of {cells} reaching {rating:g} W: {found}"
    return Row(what, took, f"CP-SAT with ten times that: {theirs}; sorting: {sort}", 10 * took)
