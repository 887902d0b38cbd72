"""One line of the table: how long ours takes, how long another way takes, and what was asked."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """A time and what it is held against: a limit in seconds, a ratio to the peer, or nothing yet."""

    what: str
    ours_s: float
    peer: str = ""  #: what the other time is of
    peer_s: float | None = None
    most_s: float | None = None  #: asked: no longer than this
    least_ratio: float | None = None  #: asked: at least so many times as fast as the peer
    note: str = ""

    @property
    def ratio(self) -> float | None:
        """How many times as fast as the peer."""
        return None if self.peer_s is None else self.peer_s / self.ours_s

    @property
    def verdict(self) -> str:
        """'holds', 'TOO SLOW', or nothing where nothing was asked."""
        asked = []
        if self.most_s is not None:
            asked.append(self.ours_s <= self.most_s)
        if self.least_ratio is not None and self.ratio is not None:
            asked.append(self.ratio >= self.least_ratio)
        return "" if not asked else "holds" if all(asked) else "TOO SLOW"


@dataclass(frozen=True, slots=True)
class NotRun:
    """A line that could not be measured, because a program is missing."""

    what: str
    program: str
