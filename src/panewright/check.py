"""A rule held against what was built: a demand, a limit, and one sentence on what to change.

A rule that fails is a result, never an exception: the shop wants to see all of them at once.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Check:
    """One rule of a code, of physics or of the trade, held against one design.

    `demand` is what the design asks of the thing, `limit` what the thing may bear, both in `unit`.
    Rules of the kind 'at least' are turned round: the demand is what is needed, the limit what is there.
    A `limit` of None says that the rule book chosen does not cover the case: such a check never passes.
    """

    rule: str
    demand: float
    limit: float | None
    unit: str
    source: str
    cure: str = ""  #: one plain sentence: what to change when it fails
    room: str = ""  #: where the rule lives: glass, frame, seal, circuit ...

    def __post_init__(self) -> None:
        if not self.rule or not self.source:
            raise ValueError(f"a check names its rule and its source, got {self.rule!r}, {self.source!r}")

    @property
    def covered(self) -> bool:
        """Whether the rule book has a limit for this case at all."""
        return self.limit is not None

    @property
    def passed(self) -> bool:
        """Whether the demand stays within the limit; a figure that is not a number never passes."""
        return self.limit is not None and self.demand <= self.limit * (1 + 1e-12)

    @property
    def utilisation(self) -> float:
        """Share of the limit that is used, 1 at the limit; infinite where nothing is left or known."""
        if self.limit is not None and self.limit > 0 and (used := self.demand / self.limit) >= 0:
            return used  # the rule, told first: this is asked of every check
        if self.limit is None or math.isnan(self.demand) or math.isnan(self.limit):
            return math.inf
        if self.limit <= 0:
            return 0.0 if self.passed else math.inf
        return max(0.0, self.demand / self.limit)

    @property
    def verdict(self) -> str:
        """'holds', 'TOO MUCH' or 'NOT COVERED'."""
        if self.limit is None:
            return "NOT COVERED"
        return "holds" if self.passed else "TOO MUCH"

    def __str__(self) -> str:
        limit = "no limit known" if self.limit is None else f"{self.limit:.4g}"
        demand = "past what is known," if math.isnan(self.demand) else f"{self.demand:.4g} of"
        return f"{self.rule}: {demand} {limit} {self.unit}, {self.verdict} ({self.source})"
