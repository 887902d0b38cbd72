"""A bound that can be checked by anyone: prices of the pieces, and weights of a watt, without the solver.

    most watts        sum of prices + of every string the most that a full set has of watts less prices;
                      by cases of where strings work, the worst of them
    panels, money     whole numbers under cuts: panels x least cost <= sum of prices
    best remainder    worth of all cells + sum of prices - panels x least cost, a cost counting worth too

Any prices of zero or more prove something; `holds` reckons it again from the cells' own curves.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.lots.matching.pieces import Pieces
from panewright.lots.matching.proof.ceilings import Ceilings
from panewright.lots.matching.proof.counts import Cut, most_earning
from panewright.lots.matching.proof.pricing import Shop
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.proof.windows import Halves, Windows, leaves

_NEAR = 1e-9


@dataclass(frozen=True, slots=True)
class Proof:
    """Prices of the pieces, the stretches of current they were tried on, weights of a watt by rating."""

    low_a: Array
    high_a: Array
    prices: Array
    weights: tuple[Array, ...]
    costs: tuple[
        float, ...
    ]  #: for each rating what no panel undercuts; for most watts of each string: what no set exceeds

    @property
    def cut(self) -> Cut:
        """What the prices say to numbers of panels."""
        return Cut(self.costs, float(self.prices.sum()))


@dataclass(frozen=True, slots=True)
class Certificate:
    """A value that no deal exceeds, and what proves it."""

    value: float
    kind: str  #: watts, panels, money, remainder or exhausted; tried: of all ways, of which not all were open
    ratings_w: tuple[float, ...]
    earns: tuple[int, ...]  #: of a panel of each rating: 1, or money in hundredths
    panels: int  #: no more panels than this
    proofs: tuple[Proof, ...]
    halves: Halves = 0  #: of most watts: cases, each with the number of its proof


def holds(certificate: Certificate, pieces: Pieces, network: Network, room: Room) -> bool:
    """Reckon a certificate again, apart from what found it; whether its value is proven."""
    if certificate.kind in ("exhausted", "tried"):
        return False  # nothing to check but to try every way again
    if not certificate.proofs and certificate.kind in ("watts", "remainder"):
        return certificate.value >= _plain(certificate, pieces) * (1 - _NEAR)
    if certificate.kind == "watts":
        proven = _cases_hold(certificate, pieces, network, room)
    else:
        proven = [_proof_holds(each, certificate, (pieces, network, room)) for each in certificate.proofs]
    return all(proven) and reckoned(certificate, pieces) <= certificate.value * (1 + _NEAR) + _NEAR


def _plain(certificate: Certificate, pieces: Pieces) -> float:
    """What is plain without prices: all cells by themselves; no watts of no panels. [W]"""
    none = certificate.kind == "watts" and not certificate.panels
    return 0.0 if none else float(pieces.own_w.sum())


def _proof_holds(proof: Proof, certificate: Certificate, bench: tuple[Pieces, Network, Room]) -> bool:
    pieces, network, room = bench
    shop = Shop(_ceilings(proof, pieces, network), room, len(network.strings))
    if proof.prices.min() < 0 or any(weight.min() < 0 for weight in proof.weights):
        return False
    worths = pieces.own_w if certificate.kind == "remainder" else np.zeros(pieces.count)
    found = [
        shop.cost(rating, weight, proof.prices + worths)
        for rating, weight in zip(certificate.ratings_w, proof.weights, strict=True)
    ]
    return all(cost >= said - _NEAR * abs(said) for cost, said in zip(found, proof.costs, strict=True))


def _cases_hold(certificate: Certificate, pieces: Pieces, network: Network, room: Room) -> list[bool]:
    """Every case that there can be has a proof which holds in its windows."""
    held, shops = [], dict[bytes, Shop]()
    for number, windows in leaves(certificate.halves, Windows.wide(certificate.panels)):
        proof = certificate.proofs[number]
        key = proof.low_a.tobytes()
        if key not in shops:
            shops[key] = Shop(_ceilings(proof, pieces, network), room, len(network.strings))
        worth, _ = shops[key].sets(np.ones(2 * proof.low_a.size), proof.prices)
        said, found = np.array(proof.costs), windows.worths(shops[key].ceilings, worth)
        sound = bool(proof.prices.min() >= 0) and said.size == found.size
        held.append(sound and bool((found <= said + _NEAR * (1 + np.abs(found))).all()))
    return held


def _ceilings(proof: Proof, pieces: Pieces, network: Network) -> Ceilings:
    """The table of a proof's stretches, which must leave no current out."""
    order = np.argsort(proof.low_a)
    low, high = proof.low_a[order], proof.high_a[order]
    if low[0] != 0 or not np.array_equal(low[1:], high[:-1]) or high[-1] < 1.01 * pieces.cells.light_a.max():
        raise ValueError("a proof's stretches follow each other from no current to more than any cell gives")
    return Ceilings.of(pieces, network, proof.low_a, proof.high_a)


def reckoned(certificate: Certificate, pieces: Pieces) -> float:
    """The value that the proofs give, their parts taken as they stand."""
    return _RECKONED[certificate.kind](certificate, pieces)


def _watts(certificate: Certificate, _pieces: Pieces) -> float:
    return max(float(p.prices.sum()) + sum(p.costs) for p in certificate.proofs)


def _panels(certificate: Certificate, _pieces: Pieces) -> float:
    cuts = [proof.cut for proof in certificate.proofs]
    return float(most_earning(certificate.earns, cuts, certificate.panels).earns)


def _remainder(certificate: Certificate, pieces: Pieces) -> float:
    every = float(pieces.own_w.sum())
    return min(every + float(p.prices.sum()) - certificate.panels * p.costs[0] for p in certificate.proofs)


_RECKONED: dict[str, Callable[[Certificate, Pieces], float]] = {
    "watts": _watts,
    "panels": _panels,
    "money": _panels,
    "remainder": _remainder,
}
