"""Where the watts go: from what the cells could give each by itself to what the panel gives.

Stages follow each other, each a network that differs in one thing from the one before. A term is the
difference between the greatest powers of two neighbouring networks, so nothing is left over: the terms add
up to the whole. The first figure is the sum of the greatest powers of the first network's cells, each
worked by itself; the first term is what is lost because they must work together. What one thing costs
depends a little on what was changed before it: the order of the stages is part of the account.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from panewright.cell.diodes import Diodes
from panewright.circuit.maxima import key_points
from panewright.circuit.mismatch.own_power import own_power_w
from panewright.circuit.network import Network

Stage = tuple[str, Network]  #: what is new, and the network that has it


@dataclass(frozen=True, slots=True)
class Term:
    """What one thing takes or adds."""

    words: str
    watts: float  #: positive for a gain


@dataclass(frozen=True, slots=True)
class Account:
    """The start, the terms in the order of their stages, and the end."""

    start_w: float
    terms: tuple[Term, ...]
    end_w: float

    @property
    def gains_w(self) -> float:
        """All gains together. [W]"""
        return sum(term.watts for term in self.terms if term.watts > 0)

    @property
    def losses_w(self) -> float:
        """All losses together, below zero. [W]"""
        return sum(term.watts for term in self.terms if term.watts < 0)

    def share(self, term: Term) -> float:
        """A term as a share of the start; 0 where the start is dark. [-]"""
        return term.watts / self.start_w if self.start_w > 0 else 0.0


def account(stages: Sequence[Stage]) -> Account:
    """What each stage takes or adds, from the sum of the first stage's cells each at its own best. [W]"""
    if not stages:
        raise ValueError("an account has a stage or more")
    powers = [own_sum_w(stages[0][1]), *(key_points(network).power_w for _, network in stages)]
    steps = zip(stages, pairwise(powers), strict=True)
    terms = tuple(Term(words, after - before) for (words, _), (before, after) in steps)
    return Account(powers[0], terms, powers[-1])


def own_sum_w(network: Network) -> float:
    """Sum of what every cell of a network gives at its own maximum power, whatever its place. [W]"""
    cells = [cell for string in network.strings for part in string.substrings for cell in part.cells]
    return float(own_power_w(Diodes.of(cells)).sum())
