"""The hand that does something in the shop."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime


@dataclass(frozen=True, slots=True)
class Who:
    """Who does something, when, and by which tap of a page."""

    by: str
    at: datetime
    tap: str = ""

    @classmethod
    def now(cls, by: str, tap: str = "") -> Who:
        """At this moment."""
        return cls(by, datetime.now(UTC), tap)
