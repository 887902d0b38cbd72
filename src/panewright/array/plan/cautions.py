"""Where work on an array can hurt, in sentences."""

from __future__ import annotations

from panewright.array.plan.judged import Judged
from panewright.order.site.site import Site


def cautions(site: Site, limits: Judged) -> tuple[str, ...]:
    """Where work on it can hurt."""
    found = [
        "Panels give voltage whenever light falls on them: cover them, and never part connectors under load. "
        "Direct current draws an arc that does not go out by itself.",
        "On a roof: secured against falling, not alone, not in wind or wet.",
        "These figures are an aid to judgement. Hand-built panels are not listed or certified: local codes "
        "decide where they may be used, and what they leave to licensed people is left to them.",
    ]
    if site.bank is not None:
        found.insert(
            1,
            "The battery can drive thousands of amperes into a short: take off rings, fuse it at its "
            "terminal, and close that fuse last of all.",
        )
    if site.pump is not None:
        found.insert(
            1,
            "A pump that stands in the light carries the strings' current and warms; one that runs dry "
            "spoils its seals. Water and direct current: by the local code.",
        )
    if limits.thresholds:
        found.insert(0, f"{limits.cold_v or 0:.0f} V in the cold: dangerous to touch, also at rest.")
    return tuple(found)
