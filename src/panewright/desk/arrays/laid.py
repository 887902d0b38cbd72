"""What a page says of panels as they lie: a day, a reason, and whether they come out of other arrays."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta

from panewright.desk.shop.arrays import Lain
from panewright.errors import Problem, RecordError

_MOST = 400


def day_of(typed: str) -> date:
    """A day as a browser sends it; `RecordError` where it is none, or still to come."""
    try:
        day = date.fromisoformat(typed.strip())
    except ValueError:
        cure = "Write it as 2026-05-04."
        raise RecordError([Problem("This is no day.", cure, key="day", value=typed[:40])]) from None
    if day > datetime.now(UTC).date() + timedelta(days=1):  # it is tomorrow already somewhere
        reason = "This day is still to come."
        raise RecordError([Problem(reason, "Tell it once it is done.", key="day", value=typed[:40])])
    return day


def lain_of(typed: Mapping[str, str]) -> Lain:
    """The form on an array's page."""
    seen = typed.get("seen", "")
    return Lain(
        day_of(typed.get("day", "")),
        " ".join(typed.get("reason", "").split())[:_MOST],
        typed.get("moving") == "yes",
        int(seen) if seen.isdecimal() and len(seen) < 9 else 0,
    )
