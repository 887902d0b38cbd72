"""The proof of a deal's bound: kept as JSON beside the deal, read back, and reckoned again from the cells.

Prices of the pieces, the stretches of current they were tried on, and what they prove. Nobody need believe
the solver that found them. Of few cells every way was tried: then there is no price, and all ways are
tried again.
"""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from panewright.desk.deals.written import Written, Wrong, loaded, part
from panewright.errors import Problem, SheetError
from panewright.lots.matching.asked import BestRemainder, MostWatts
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.match import match
from panewright.lots.matching.plans.scoring import Steps
from panewright.lots.matching.proof.certificate import Certificate, Proof, holds
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.proof.windows import Half, Halves

if TYPE_CHECKING:
    from panewright.desk.deals.deal import Deal
    from panewright.lots.matching.matched import Matched

WRITTEN_AS = 1  #: how the JSON is written
_KINDS = ("watts", "panels", "money", "remainder", "exhausted")
_DEEP = 400  # cases in cases
_NEAR = 1e-9
_CURE = "Name the file that `panewright lot match --proof` wrote, or match the lot again."


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check found: nothing amiss where there is no reason."""

    words: str
    wrong: tuple[str, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether the bound is proven."""
        return not self.wrong


def as_text(bound: Certificate) -> str:
    """The proof as it is kept; every number in full."""
    told = asdict(bound)
    told["proofs"] = [_listed(proof) for proof in bound.proofs]
    return json.dumps({"written_as": WRITTEN_AS, **told}, separators=(",", ":")) + "\n"


def _listed(proof: Proof) -> dict[str, Any]:
    rows = {name: getattr(proof, name).tolist() for name in ("low_a", "high_a", "prices")}
    return {**rows, "weights": [each.tolist() for each in proof.weights], "costs": list(proof.costs)}


def from_text(text: str, file: str = "the proof") -> Certificate:
    """The very same proof; `SheetError` where the text is none, with the key that is wrong."""
    try:
        return _certificate(part(loaded(text)))
    except Wrong as wrong:
        why = f"This is no proof of a bound: {wrong.reason}"
        raise SheetError([Problem(why, _CURE, file=file, key=wrong.key, value=wrong.value)]) from wrong


def _certificate(told: Written) -> Certificate:
    if (written := told.count("written_as")) != WRITTEN_AS:
        raise Wrong("this program reads 1.", "written_as", written)
    told.only(Certificate, "written_as")
    if (kind := told.words("kind")) not in _KINDS:
        raise Wrong(f"it must be one of: {', '.join(_KINDS)}.", "kind", kind)
    earns = told.numbers("earns")
    proofs = tuple(_proof(each) for each in told.parts("proofs"))
    return Certificate(
        told.number("value"),
        kind,
        told.numbers("ratings_w"),
        tuple(int(each) for each in earns),
        told.count("panels"),
        proofs,
        _halves(told.told.get("halves", 0), "halves", len(proofs)),
    )


def _proof(told: Written) -> Proof:
    told.only(Proof)
    low, high, prices = (np.array(told.numbers(name)) for name in ("low_a", "high_a", "prices"))
    weights = told.row("weights", lambda each, place: np.array(Written({"w": each}, place).numbers("w")))
    if not low.size or low.size != high.size or any(each.size != 2 * low.size for each in weights):
        raise Wrong("each stretch has a low and a high end, and a weight at both.", told.key("low_a"))
    return Proof(low, high, prices, weights, told.numbers("costs"))


def _halves(told: Any, key: str, proofs: int, deep: int = 0) -> Halves:
    """Cases in cases; each ends with the number of a proof."""
    if isinstance(told, int) and not isinstance(told, bool):
        if not 0 <= told < max(1, proofs):
            raise Wrong("there is no such proof.", key, told)
        return told
    if deep > _DEEP:
        raise Wrong("there are too many cases in cases.", key)
    half = part(told, key)
    half.only(Half)
    both = (_halves(half.told.get(name), half.key(name), proofs, deep + 1) for name in ("below", "above"))
    return Half(half.count("place"), half.number("at_a"), *both)


def checked(deal: Deal, matched: Matched, bound: Certificate) -> Checked:
    """Whether a proof proves the deal's bound, and the deal lies under it; all that is amiss is told."""
    if bound.kind == "exhausted":
        return _tried_again(deal, matched)
    wrong = [*_unlike(deal, matched, bound)]
    if not wrong and not _proven(matched, bound):
        wrong.append("The prices do not prove this bound.")
    return Checked(_words(matched, bound), tuple(wrong))


def _words(matched: Matched, bound: Certificate) -> str:
    if not bound.proofs:
        return "The bound is what all cells are enough for; no prices are needed."
    times = "once" if len(bound.proofs) == 1 else f"{len(bound.proofs)} times"
    return f"Reckoned again from the cells' curves: {matched.rules.pieces.count} pieces priced {times}."


def _proven(matched: Matched, bound: Certificate) -> bool:
    rules = matched.rules
    if any(proof.prices.size != rules.pieces.count for proof in bound.proofs):
        return False
    room = Room.of(rules.pieces, rules.seats, rules.most_leaky)
    try:
        return holds(bound, rules.pieces, matched.asked.network, room)
    except ValueError:  # stretches with a gap, or proofs of other ratings
        return False


def _unlike(deal: Deal, matched: Matched, bound: Certificate) -> list[str]:
    """What the proof is of, beside what the deal asks."""
    wrong, against, aim = list[str](), deal.against, matched.asked.aim
    if bound.kind != against.bound_kind or abs(bound.value - against.bound) > _NEAR * abs(against.bound):
        wrong.append(f"The deal tells a bound of {against.bound:g}, the proof is of {bound.value:g}.")
    steps = Steps.of(aim)
    if (bound.ratings_w, bound.earns) != (steps.ratings_w, steps.earns):
        wrong.append("The proof is of other ratings or prices than the deal.")
    most = matched.maker.panels * (len(matched.asked.network.strings) if isinstance(aim, MostWatts) else 1)
    if bound.panels < most or (bound.kind == "remainder" and bound.panels > most):
        wrong.append(f"The proof is of {bound.panels} panels or strings, the cells are enough for {most}.")
    if _score(matched, bound.kind) > bound.value * (1 + _NEAR) + _NEAR:
        wrong.append("The deal's panels give more than the bound.")
    return wrong


def _score(matched: Matched, kind: str) -> float:
    """What the deal comes to, its panels reckoned anew."""
    seats, own, aim = matched.made.seats, matched.lot.power_w, matched.asked.aim
    if isinstance(aim, BestRemainder) and kind == "remainder":
        return float(own.sum() - own[seats].sum())
    power = exact_w(matched.asked.network, matched.lot.cells, seats)
    return float(power.sum() if isinstance(aim, MostWatts) else Steps.of(aim).earned(power).sum())


def _tried_again(deal: Deal, matched: Matched) -> Checked:
    again = match(matched.lot, matched.asked, deal.wish.seed)
    wrong = []
    if again.bound.kind != "exhausted" or abs(again.bound.value - deal.against.bound) > _NEAR * abs(
        deal.against.bound
    ):
        wrong.append(f"The best of all ways gives {again.bound.value:g}, not {deal.against.bound:g}.")
    return Checked("Every way was tried again.", tuple(wrong))
