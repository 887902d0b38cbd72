"""Lots matched: ten thousand free cells; panels that reach a rating beside CP-SAT with ten times the time."""

from __future__ import annotations

import time
from dataclasses import replace

import matching_model
from campaigns import matching
from row import Row

from panewright.circuit.network import Network
from panewright.lots.matching.asked import Asked, Limits, MostReaching, MostWatts
from panewright.lots.matching.match import match
from panewright.lots.standing.standing import Standing

MANY, MOST_S = 10_000, 20.0
MODELS = ((100, 12, 3), (200, 20, 4))  # cells, cells of a panel, seed
GOOD, MIXED = matching.Drawn(imp=0.005, vmp=0.003), matching.Drawn(imp=0.045, leaky=0.05)
LOTS: tuple[tuple[str, matching.Drawn, Network, Limits], ...] = (
    ("good cells, one string", GOOD, matching.wiring(36, 1, 2), Limits()),
    ("mixed cells (4.5 %), one string", MIXED, matching.wiring(36, 1, 2), Limits()),
    ("mixed cells (4.5 %), two strings", MIXED, matching.wiring(36, 2, 1), Limits()),
    ("mixed cells (4.5 %), one leaky a substring", MIXED, matching.wiring(36, 1, 2), Limits(6.0, 1)),
)


def rows() -> list[Row]:
    """Large lots, good and mixed, with strings side by side and a limit; mixed lots of some hundreds."""
    few = matching.standing(matching.cells(80, 1, matching.Drawn()))
    match(few, Asked(LOTS[0][2], MostWatts()))  # compiles
    return [*(many(*each) for each in LOTS), *(_model(*each) for each in MODELS)]


def many(what: str, drawn: matching.Drawn, network: Network, limits: Limits) -> Row:
    """Ten thousand cells for most watts: seconds of the processor, of which it uses one."""
    lot = matching.standing(matching.cells(MANY, 1, drawn))
    begin = time.process_time()
    found = match(lot, Asked(network, MostWatts(), limits))
    took = time.process_time() - begin
    more = found.score[0] - found.sorted_score[0]
    told = f"{MANY} {what}: {more:+.2f} W on sorting, {found.closed:.2f} of its gap"
    return Row(told, took, most_s=MOST_S)


def _model(count: int, cells: int, seed: int) -> Row:
    lot: Standing = matching.standing(matching.cells(count, seed, matching.Drawn()))
    asked = Asked(matching.wiring(cells, 1, 2), MostReaching(1.0))
    rating = round(float(matching.sorted_w(lot, asked).mean()), 1)
    asked = replace(asked, aim=MostReaching(rating))
    ours = match(lot, asked)
    begin = time.process_time()
    match(lot, asked)
    took = time.process_time() - begin
    theirs = matching_model.most_reaching(lot, asked, 10 * took)
    sort = int(ours.sorted_score[0])
    found = f"{len(ours.panels)}, at most {ours.bound.value:g}"
    what = f"{count} cells, panels of {cells} reaching {rating:g} W: {found}"
    return Row(what, took, f"CP-SAT with ten times that: {theirs}; sorting: {sort}", 10 * took)
