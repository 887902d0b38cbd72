"""What a measurement may come out as, and what each would mean."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.bench.fault.numbered import of_cells
from panewright.bench.fault.place.belief import Spot, State
from panewright.bench.fault.place.expected import Expected
from panewright.bench.fault.wording import WORDS
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt

_APART = 2.5  # standard deviations between readings that are two outcomes
_FEW = 0.02  # odds under which an outcome is not told


@dataclass(frozen=True, slots=True)
class Outcome:
    """A band of readings."""

    low: float  #: as a ratio of the two readings asked for, or in V where one is
    high: float
    words: str  #: what it would mean
    odds: float  #: how likely it is to come out so
    beside: float | None = None  #: of two readings what the second would be [A, V]


def outcomes(state: State, expected: Expected) -> tuple[Outcome, ...]:
    """Bands of readings that lie apart, from low to high."""
    middle, error = _of_each(state, expected.mean), _of_each(state, expected.sigma)
    second = None if expected.beside is None else _of_each(state, expected.beside)
    likely = [int(k) for k in np.argsort(middle) if state.spots[k].odds > 1e-4]
    bands: list[list[int]] = []
    for k in likely:
        if bands and middle[k] - middle[bands[-1][-1]] < _APART * error[k]:
            bands[-1].append(k)
        else:
            bands.append([k])
    told = [_outcome(state, band, (middle, error), second) for band in bands]
    return tuple(each for each in told if each.odds > _FEW)


def _of_each(state: State, figures: Array) -> Array:
    """Mean of every spot over its strengths."""
    weights = np.array([spot.weights for spot in state.spots])
    return np.asarray((figures * weights).sum(axis=1) / np.maximum(weights.sum(axis=1), 1e-300))


def _outcome(
    state: State, band: Sequence[int], reading: tuple[Array, Array], second: Array | None
) -> Outcome:
    middle, error = reading
    low, high = middle[band[0]] - 2 * error[band[0]], middle[band[-1]] + 2 * error[band[-1]]
    mine = [state.spots[k] for k in band]
    odds = [spot.odds for spot in mine]
    beside = None if second is None else float(np.average(second[band], weights=odds))
    return Outcome(float(low), float(high), _meaning(state.foretold.network, mine), sum(odds), beside)


def _meaning(network: Network, spots: Sequence[Spot]) -> str:
    """Kinds by their odds, with the cells they would be among."""
    kinds: dict[str, list[Spot]] = {}
    for spot in spots:
        kinds.setdefault(spot.kind.key if spot.kind else "", []).append(spot)
    ranked = sorted(kinds.values(), key=lambda each: -sum(spot.odds for spot in each))
    return "; or ".join(_among(network, each) for each in ranked[:2])


def _among(network: Network, spots: Sequence[Spot]) -> str:
    kind, most = spots[0].kind, max(spot.odds for spot in spots)
    if kind is None:
        return "nothing is wrong"
    cells = tuple(s.place for s in spots if isinstance(s.place, CellAt) and s.odds > 0.1 * most)
    if not cells:
        return spots[0].words(network) if len(spots) == 1 else WORDS[kind.key]
    return f"{WORDS[kind.key]} among {of_cells(network, cells)}"
