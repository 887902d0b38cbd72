"""How rails meet where the order leaves it open: the usual way, or the first other one that holds.

Where none holds, the one that comes nearest; the usual one where none comes nearer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from panewright.check import Check
from panewright.order.order import Assumption, CornerWay, Order
from panewright.panel.holding.cornered import handled
from panewright.panel.holding.held import Held
from panewright.structure.corners.handled import handled_checks
from panewright.structure.drilling.fixing import Joint
from panewright.structure.nearness import far_from_passing

NEAREST = "; no other way holds, and this one comes nearest"


def _of_corners(check: Check) -> bool:
    return check.rule.startswith(("corner ", "rail beside the corner weld", "room for the corner clip"))


def broken_at_corners(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Rules of the corners that do not hold, the worst first."""
    failing = (check for check in checks if not check.passed and _of_corners(check))
    return tuple(sorted(failing, key=lambda check: -check.utilisation))


def pane_fails(checks: Iterable[Check]) -> bool:
    """Whether the pane itself fails in weather."""
    weather = ("glass deflection", "glass strength in ")
    return any(not check.passed and check.rule.startswith(weather) for check in checks)


def holds_better(tried: tuple[Check, ...], usual: tuple[Check, ...]) -> bool:
    """Whether corners hold in what was tried, and no rule fails there that held the usual way."""
    failing = {check.rule for check in tried if not check.passed}
    before = {check.rule for check in usual if not check.passed}
    return not broken_at_corners(tried) and failing <= before


def comes_nearer(tried: tuple[Check, ...], usual: tuple[Check, ...]) -> bool:
    """Whether corners are nearer to holding in what was tried, and no other rule fails there alone."""
    failing = {check.rule for check in tried if not check.passed and not _of_corners(check)}
    before = {check.rule for check in usual if not check.passed}
    return corners_far(tried) < corners_far(usual) and failing <= before


def corners_far(checks: Iterable[Check]) -> tuple[int, float]:
    """How far corners are from holding: their rules without a limit, then the worst use of the others."""
    return far_from_passing(tuple(check for check in checks if _of_corners(check)))


def corner_checks(held: Held, joint: Joint | None, mass_kg: float) -> tuple[Check, ...]:
    """Every rule of the corners of a panel of that mass."""
    asked = handled_checks(handled(held, joint, mass_kg))
    return tuple(check for check in asked if _of_corners(check))


def other_ways(order: Order, worst: Check, besides: str = "") -> Iterator[Order]:
    """The same order with each other way to join corners, and why it is tried."""
    usual = CornerWay(order.parts.corner, order.parts.corner_fastener)
    for way in order.parts.other_corners:
        parts = replace(order.parts, corner=way.corner, corner_fastener=way.fastener, other_corners=())
        told = tuple(_told(each, way, usual, worst, besides) for each in order.assumptions)
        yield replace(order, parts=parts, assumptions=told)


def _told(each: Assumption, way: CornerWay, usual: CornerWay, worst: Check, besides: str) -> Assumption:
    """The assumption with what was taken in place of the usual."""
    taken = {"parts.corner": way.corner, "parts.corner_fastener": way.fastener}.get(each.key)
    if taken is None or taken == each.value:
        return each
    asks = f"{worst.utilisation:.3g} times its limit" if worst.covered else "no limit known"
    reason = f"{usual.corner} corners with {usual.fastener} do not hold: {worst.rule}, {asks}{besides}"
    return Assumption(each.key, taken, reason)
