"""What a campaign tried and what it found."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Deviation:
    """The worst difference of one figure from its oracle, and what is allowed."""

    figure: str
    worst: float
    allowed: float
    where: str  #: the case in which it was worst

    @property
    def holds(self) -> bool:
        """Whether the worst stays within what is allowed; what is not a number does not."""
        return self.worst <= self.allowed


@dataclass(frozen=True, slots=True)
class Found:
    """One campaign's outcome."""

    what: str
    against: str
    tried: int
    counts: dict[str, int] = field(default_factory=dict)  #: how many cases went which way
    deviations: tuple[Deviation, ...] = ()
    failures: tuple[str, ...] = ()  #: each with the least case that shows it
    notes: tuple[str, ...] = ()  #: what the counts alone do not say

    @property
    def holds(self) -> bool:
        """Whether nothing failed and every deviation is allowed."""
        return not self.failures and all(deviation.holds for deviation in self.deviations)


class Worst:
    """The greatest difference seen so far of each figure."""

    def __init__(self, allowed: dict[str, float]) -> None:
        self.allowed = allowed
        self._seen: dict[str, tuple[float, str]] = {}

    def see(self, figure: str, deviation: float, where: str) -> None:
        """One more case; a difference that is not a number counts as infinite."""
        size = abs(deviation) if deviation == deviation else float("inf")
        if figure not in self._seen or size > self._seen[figure][0]:
            self._seen[figure] = size, where

    def deviations(self) -> tuple[Deviation, ...]:
        """The worst of each figure."""
        return tuple(
            Deviation(figure, size, self.allowed[figure], where)
            for figure, (size, where) in self._seen.items()
        )
