"""One order becomes one design: rooms judge, this room ranks and picks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from panewright.check import Check
from panewright.circuit.trace import trace
from panewright.glass.strength.survival import survive
from panewright.order.order import Order
from panewright.panel.composed import Designed, composed
from panewright.panel.corner_ways import (
    NEAREST,
    broken_at_corners,
    comes_nearer,
    corner_checks,
    corners_far,
    holds_better,
    other_ways,
    pane_fails,
)
from panewright.panel.design import Design
from panewright.panel.electric.wiring import Unlike
from panewright.panel.holding.cornered import held_by
from panewright.panel.holding.touched import worst_touches
from panewright.panel.layers import is_as_usual
from panewright.panel.revision import revision
from panewright.panel.settling import Asked, Taken
from panewright.panel.sized import asked_of, settled
from panewright.panel.weighed.weighing import weighed
from panewright.panel.weighed.weighing_closing import weighed_closing
from panewright.panel.weighed.weighing_corners import weighed_corners
from panewright.shelf.shelf import Shelf

_POINTS = 101  # of each curve


def design_panel(order: Order, shelf: Shelf, unlike: tuple[Unlike, ...] = ()) -> Design:
    """The whole design of one order, from parts of one shelf; of a panel that is built, its own cells."""
    brief, taken, networks = _designed(asked_of(order, shelf), unlike)
    drawn = tuple(
        replace(each, curve=trace(network, _POINTS))
        for each, network in zip(brief.electrical.curves, networks, strict=True)
    )
    tests = survive(brief.structural.pane, order.site.family, order.parts.held)
    return replace(
        brief,
        revision=revision(order, shelf),
        electrical=replace(brief.electrical, curves=drawn),
        structural=replace(brief.structural, pane_tests=tests),
        weighed=(
            *weighed(order, taken.study, taken.held, taken.tabs, taken.buses),
            weighed_corners(brief, taken.held, shelf),
            *weighed_closing(order, brief.closing),
        ),
    )


def design_briefly(order: Order, shelf: Shelf) -> Design:
    """The same choices and the same verdict, without what only pages show: for many designs at once.

    Left empty are the revision, the lines of the curves, type tests of the pane, and what was weighed; of the
    curves only that at STC is there. Checks of hands and knees are left out where a pane is sure to hold them
    by far, or where another check fails by more than they can; where a quick figure shows that a hand is what
    it fails by most, that is told.
    """
    return _touched(_designed(replace(asked_of(order, shelf), brief=True), ())[0])


def _touched(brief: Design) -> Design:
    """With hands and knees on its pane, where they may be what it fails by most."""
    parts, proof = brief.order.parts, brief.structural.pane_proof
    if parts.sheet is None:  # they had their say in its choice
        return brief
    worst = max(check.utilisation for check in brief.checks)
    asked = worst_touches(brief.structural.pane, brief.order.site.family, parts, max(1.0, worst))
    if not asked:
        return brief
    after = brief.checks.index(proof.checks[-1]) + 1
    return replace(
        brief,
        checks=(*brief.checks[:after], *asked, *brief.checks[after:]),
        structural=replace(brief.structural, pane_proof=replace(proof, checks=(*proof.checks, *asked))),
    )


def _designed(asked: Asked, unlike: tuple[Unlike, ...]) -> Designed:
    """With corners that hold, or come nearest, where the order leaves open how rails meet."""
    first = settled(asked)
    usual = _behind(asked, unlike, first)
    broken = broken_at_corners(usual[0].checks)
    if not broken or not first[1].held.frame.passed or pane_fails(usual[0].checks):
        return usual  # a pane or a rail that fails by itself is to be mended first
    others: list[OtherCorners] = []
    for other in _other_corners(asked, first, usual[0], broken[0]):
        others.append(other)
        if not broken_at_corners(other.checks):
            tried = _behind(other.asked, unlike, other.on)
            if holds_better(tried[0].checks, usual[0].checks):
                return tried
    return _nearest(others, unlike, usual)


def _nearest(others: list[OtherCorners], unlike: tuple[Unlike, ...], usual: Designed) -> Designed:
    """Where no way holds, the one whose corners come nearest; the usual one where none comes nearer."""
    for other in sorted(others, key=lambda each: corners_far(each.checks)):
        if corners_far(other.checks) >= corners_far(usual[0].checks):
            break
        told = replace(other.asked, order=other.as_nearest)
        tried = _behind(told, unlike, (replace(other.on[0], order=other.as_nearest), other.on[1]))
        if comes_nearer(tried[0].checks, usual[0].checks):
            return tried
    return usual


@dataclass(frozen=True, slots=True)
class OtherCorners:
    """Another way to join corners, with what is settled for it."""

    asked: Asked
    as_nearest: Order  #: the same order, where no way holds and this one comes nearest
    on: tuple[Asked, Taken]
    checks: tuple[Check, ...]  #: of the corners


def _other_corners(
    asked: Asked, first: tuple[Asked, Taken], usual: Design, worst: Check
) -> Iterator[OtherCorners]:
    """Other ways to join corners, each with what is settled: lapped rails bend otherwise, another fastener
    changes nothing of it."""
    known, mass_kg = {usual.order.parts.corner: first}, usual.structural.mass.total_kg
    both = (other_ways(asked.order, worst), other_ways(asked.order, worst, NEAREST))
    for order, nearest in zip(*both, strict=True):
        way, parts = replace(asked, order=order), order.parts
        if parts.corner not in known:
            known[parts.corner] = settled(way)
        on, taken = known[parts.corner]
        joint = held_by(parts.corner_fastener, taken.held, mass_kg, asked.shelf)
        checks = corner_checks(taken.held, joint, mass_kg)
        yield OtherCorners(way, nearest, (replace(on, order=order), taken), checks)


def _behind(asked: Asked, unlike: tuple[Unlike, ...], on: tuple[Asked, Taken]) -> Designed:
    """Where another back is taken than heat and light were reckoned with, once more behind the one taken."""
    first = composed(asked, unlike, on)
    order, back = asked.order, first[0].closing.back
    if is_as_usual(order, back):
        return first
    behind = replace(asked, order=replace(order, parts=replace(order.parts, back=back)))
    design, taken, networks = composed(behind, unlike, settled(behind))
    return replace(design, order=order), taken, networks
