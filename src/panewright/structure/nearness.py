"""How far a candidate is from passing, so that the nearest can be shown where none passes."""

from __future__ import annotations

import math

from panewright.check import Check


def far_from_passing(checks: tuple[Check, ...]) -> tuple[int, float]:
    """Number of checks without a limit, and the utilisation of the worst of the others.

    >>> far_from_passing((Check("a", 2, 1, "-", "x"), Check("b", 1, None, "-", "x")))
    (1, 2.0)
    """
    known = [check.utilisation for check in checks if math.isfinite(check.utilisation)]
    return len(checks) - len(known), max(known, default=0.0)
