"""What a matching came to: panels with their cells, exact curves, comparisons, a bound, what is left."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from panewright.cell.key_points import KeyPoints
from panewright.circuit.place import CellAt
from panewright.lots.matching.asked import Asked, BestRemainder
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.plans.making import Made, Maker
from panewright.lots.matching.plans.scoring import Score
from panewright.lots.matching.proof.certificate import Certificate
from panewright.lots.standing.standing import Standing


@dataclass(frozen=True, slots=True)
class Seat:
    """A place in a panel and the cell that goes there."""

    place: CellAt
    mark: str


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel with its cells."""

    seats: tuple[Seat, ...]
    points: KeyPoints  #: Isc, Voc and greatest power, by the exact circuit
    own_w: float  #: its cells, each by itself
    bare_w: float  #: its cells together, where joints, buses and leads take nothing
    price: Decimal | None = None  #: where there are price steps
    curve: tuple[tuple[float, float], ...] = ()  #: volts and amperes from short to open circuit

    @property
    def power_w(self) -> float:
        """Greatest power. [W]"""
        return self.points.power_w

    @property
    def mismatch(self) -> float:
        """What cells lose because they are not alike, as a share of their own watts. [-]"""
        return 1 - self.bare_w / self.own_w

    @property
    def loss(self) -> float:
        """What the cells lose together and in joints and leads, as a share of their own watts. [-]"""
        return 1 - self.power_w / self.own_w


@dataclass(frozen=True, slots=True)
class Matched:
    """Panels, what is left, and how good it is."""

    panels: tuple[Panel, ...]
    left: tuple[str, ...]  #: marks
    score: Score  #: watts, panels, money in hundredths, or panels and watts left over
    sorted_score: Score  #: the same by plain sorting
    random_score: Score  #: mean of seeded random deals
    bound: Certificate
    lot: Standing
    asked: Asked
    maker: Maker
    made: Made

    @property
    def rules(self) -> Rules:
        """What decides where a piece may sit."""
        return self.maker.rules

    @property
    def more_panels(self) -> int:
        """For the best remainder: panels beyond those that plain sorting makes."""
        if not isinstance(self.asked.aim, BestRemainder):
            return 0
        return max(0, round(self.score[0] - self.sorted_score[0]))

    @property
    def closed(self) -> float:
        """Share of the way from plain sorting to the bound that is gone; 1 where there is none to go.

        Where sorting makes fewer panels for the best remainder, what it leaves does not compare: the way is
        then counted from nothing left, and `more_panels` says so.
        """
        place = -1 if isinstance(self.asked.aim, BestRemainder) and self.bound.kind != "panels" else 0
        plain, most = self.sorted_score[place], self.bound.value
        if place and self.sorted_score[0] < self.score[0]:
            plain = 0.0  # sorting makes fewer panels: what it leaves does not compare
        return (
            1.0
            if most - plain <= 1e-9 * max(1.0, abs(most))
            else (self.score[place] - plain) / (most - plain)
        )
