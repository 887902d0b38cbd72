"""What is believed of a panel between two measurements: what may be wrong, in which place, how strong.

A finding by the panel's curve knows rows, not cells. Here every place that fits stands by itself, each with
five strengths that share the finding's band. A thing that stands alone in one supposition and in a pair in
another is one. A measurement moves the weights of all of them. Of two faults
the costlier is sought first: once it is mended, a new curve shows the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from panewright.bench.fault.evidence import Weighed
from panewright.bench.fault.finding import Finding, odds_of
from panewright.bench.fault.foretold import Foretold, Wrong
from panewright.bench.fault.kinds import Kind, alike_places, sought
from panewright.bench.fault.numbered import of_cells, where
from panewright.bench.fault.place.expected import Learning
from panewright.bench.fault.readings import Common
from panewright.bench.fault.wording import WORDS, sure
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.circuit.place import CellAt, DiodeAt, Place, within

SURE = 0.9  #: a place is found where nothing else has more than a tenth together
_NAMED = 3  # places that are told one by one
_AS_LIKELY = 0.95  # of the odds of the likeliest: told with it
_SELDOM = 1e-3  # odds below which a kind is not followed further
_PARTS = np.array([-1.4, -0.53, 0.0, 0.53, 1.4])  # middles of fifths of a normal distribution, recalled
Thing = tuple[Kind | None, Place | None]
_BAND = 1.96  # standard deviations to the bounds that hold 95 of 100


@dataclass(frozen=True, slots=True)
class Spot:
    """One thing in one place, of several strengths, with the weight of each."""

    kind: Kind | None  #: None for a panel that is healthy
    place: Place | None  #: None for what has no place
    strengths: tuple[float, ...]
    weights: tuple[float, ...]
    beside: Wrong = field(default_factory=Wrong)  #: what else is wrong, where that is likelier than not
    beside_odds: float = 0.0  #: how likely one does

    @property
    def odds(self) -> float:
        """How sure it is."""
        return sum(self.weights)

    @property
    def strength(self) -> float:
        """Its mean."""
        return float(np.average(self.strengths, weights=np.array(self.weights) + 1e-300))

    def words(self, network: Network) -> str:
        """What, and where on the drawings of that panel."""
        if self.kind is None:
            return "nothing"
        return f"{WORDS[self.kind.key]}{where(network, self.place)}"

    def wrong(self) -> Wrong:
        """As a supposition, at the mean strength."""
        if self.kind is None:
            return Wrong()
        return Wrong((self.kind,), (self.place,), (self.strength,))


@dataclass(frozen=True, slots=True)
class State:
    """All that may be, after so many measurements beside the curve."""

    foretold: Foretold
    spots: tuple[Spot, ...]
    measured: int = 0
    common: Common = field(default_factory=Common)  #: how well the panel itself is foretold
    learning: Learning = field(default_factory=dict)  #: of errors that readings share

    @property
    def places(self) -> tuple[Spot, ...]:
        """The likeliest first."""
        return tuple(sorted(self.spots, key=lambda each: -each.odds))

    @property
    def located(self) -> Spot | None:
        """What is found, with its place; None while that is open."""
        first = self.places[0]
        return first if first.odds >= SURE else None

    @property
    def words(self) -> tuple[str, ...]:
        """What is believed, in sentences."""
        network = self.foretold.network
        if self.located:
            return (f"Found: {self.located.words(network)} ({sure(self.located.odds)}).",)
        alike = self._alike
        if len(alike) > _NAMED:
            cells = of_cells(network, [each.place for each in alike if isinstance(each.place, CellAt)])
            odds = sum(each.odds for each in alike)
            return (
                f"Not found yet. {_capital(_word(alike[0]))} among {cells}, each as likely ({sure(odds)}).",
            )
        told = ", ".join(f"{each.words(network)} ({sure(each.odds)})" for each in self.places[:_NAMED])
        return (f"Not found yet. Likeliest: {told}.",)

    @property
    def _alike(self) -> tuple[Spot, ...]:
        """Cells of one thing that are as likely as the likeliest, as near as is told of them."""
        first = self.places[0]
        if not isinstance(first.place, CellAt):
            return ()
        return tuple(
            each
            for each in self.places
            if each.kind == first.kind
            and isinstance(each.place, CellAt)
            and each.odds > _AS_LIKELY * first.odds
        )


def _word(spot: Spot) -> str:
    return WORDS[spot.kind.key] if spot.kind else "nothing"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def begin(foretold: Foretold, finding: Finding) -> State:
    """What a finding leaves open."""
    parts = zip(finding.weighed, odds_of(finding.weighed), strict=True)
    things: dict[Thing, list[tuple[float, float]]] = {}
    others: dict[Thing, list[tuple[float, Wrong]]] = {}
    for each, odds in parts:
        if odds > _SELDOM:
            for thing, strengths, other in _things(foretold, each, float(odds)):
                things.setdefault(thing, []).extend(strengths)
                others.setdefault(thing, []).append((float(odds), other))
    spots = [
        replace(_spot(thing, strengths), **_beside(others[thing])) for thing, strengths in things.items()
    ]
    believed = weighted(spots, np.array([each.weights for each in spots]))
    return State(foretold, believed, common=finding.points.common)


def weighted(spots: Sequence[Spot], weights: Array) -> tuple[Spot, ...]:
    """The same with new weights, which are made to add up to 1."""
    shares = weights / weights.sum()
    return tuple(replace(each, weights=tuple(row.tolist())) for each, row in zip(spots, shares, strict=True))


def _beside(others: Sequence[tuple[float, Wrong]]) -> dict[str, Any]:
    """Of what may go with a thing the likeliest, unless it is likelier alone."""
    whole = sum(odds for odds, _ in others)
    share = sum(odds for odds, other in others if other.kinds) / whole
    if share <= 0.5:
        return {}
    likeliest = max((pair for pair in others if pair[1].kinds), key=lambda pair: pair[0])
    return {"beside": likeliest[1], "beside_odds": share}


def _things(
    foretold: Foretold, weighed: Weighed, odds: float
) -> Iterator[tuple[Thing, list[tuple[float, float]], Wrong]]:
    """What a supposition puts in which places, with strengths, their weights, and what goes with it."""
    wrong = weighed.best
    if not wrong.kinds:
        yield (None, None), [(0.0, odds)], Wrong()
        return
    at = _costlier(foretold, wrong)
    kind, place = sought(wrong.kinds[at]), wrong.places[at]
    told = weighed.strengths[sum(each.graded for each in wrong.kinds[:at])] if kind.graded else None
    places = alike_places(foretold.network, kind, place) or (None,)
    weight, parts = odds / len(places), _strengths(told)
    for there in places:
        other = _other(foretold.network, wrong, at, there)
        yield (kind, there), [(strength, weight / len(parts)) for strength in parts], other


def _other(network: Network, wrong: Wrong, at: int, there: Place | None) -> Wrong:
    """What else the supposition holds, where it lies to that place as it does to the one supposed."""
    if len(wrong.kinds) < 2:
        return Wrong()
    kind, place, strength = wrong.kinds[1 - at], wrong.places[1 - at], wrong.strengths[1 - at]
    supposed = wrong.places[at]
    if place is not None and supposed is not None and there is not None:
        together = _row(network, place) == _row(network, supposed)
        fits = (
            each
            for each in alike_places(network, kind, place)
            if each != there and (_row(network, each) == _row(network, there)) == together
        )
        place = next(fits, place)
    return Wrong((kind,), (place,), (strength,))


def _row(network: Network, place: Place) -> tuple[int, int]:
    """String and row of a place; of a whole string its first."""
    if isinstance(place, CellAt):
        return place.string, within(network, place)[0]
    return place.string, place.substring if isinstance(place, DiodeAt) else 0


def _spot(thing: Thing, strengths: Sequence[tuple[float, float]]) -> Spot:
    """As many strengths as there are parts, each for as much of the weight."""
    values, weights = (np.array(each) for each in zip(*sorted(strengths), strict=True))
    upto = (np.cumsum(weights) - weights / 2) / weights.sum()
    middles = (np.arange(_PARTS.size) + 0.5) / _PARTS.size
    told = np.interp(middles, upto, values)
    return Spot(*thing, tuple(told.tolist()), (float(weights.sum()) / _PARTS.size,) * _PARTS.size)


def _strengths(told: tuple[float, float, float] | None) -> tuple[float, ...]:
    if told is None:
        return (0.0,)
    low, high = np.log(told[1]), np.log(told[2])
    return tuple(np.exp((low + high) / 2 + _PARTS * (high - low) / (2 * _BAND)).tolist())


def _costlier(foretold: Foretold, wrong: Wrong) -> int:
    """Which of the things wrong takes most of the power."""
    if len(wrong.kinds) == 1:
        return 0
    alone = [
        Wrong((kind,), (place,), (strength,))
        for kind, place, strength in zip(wrong.kinds, wrong.places, wrong.strengths, strict=True)
    ]
    return int(np.argmax([foretold.cost_share(each) for each in alone]))
