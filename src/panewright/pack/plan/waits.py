"""Which tasks waited for a place, and how long.

A task waits for a place from when all before it is over until it starts, as far as every place of its kind
is held meanwhile. Time in which a place is free and it waits for hands or for morning is not counted.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from panewright.pack.plan.schedule import Plan
from panewright.pack.plan.task import Done, Task

_LEAST_MIN = 720  #: half a day; a place held for less is in the hands of those who would take it next

Span = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Waited:
    """A task that could have begun earlier, had there been one place more."""

    task: Task
    minutes: int  #: of the world, with every place of its kind held


def waits(plan: Plan) -> tuple[Waited, ...]:
    """Every such task, the earliest first."""
    by_name = {each.task.name: each for each in plan.done}
    full = {kind: _full(plan, kind) for kind in plan.shop.places}
    found = []
    for each in plan.done:
        if each.task.holds:
            ready = max((by_name[name].over for name in each.task.after), default=0)
            ready = max((ready, *(_hands_off(by_name[name]) for name in each.task.after_hands)))
            stood = (ready, plan.shop.clock.begins(each.start))
            found.append(Waited(each.task, _common(stood, full[each.task.holds])))
    return tuple(each for each in found if each.minutes >= _LEAST_MIN)


def _hands_off(done: Done) -> int:
    """The minute of the world at which the hands of a task are done, its wait not counted."""
    return done.over - done.task.wait_min


def _full(plan: Plan, kind: str) -> tuple[Span, ...]:
    """When every place of a kind is held."""
    spans = [_span(plan, each) for each in plan.done if each.task.holds == kind]
    moments = sorted({moment for span in spans for moment in span})
    return tuple(
        (start, over)
        for start, over in pairwise(moments)
        if sum(first <= start < last for first, last in spans) >= plan.shop.places[kind]
    )


def _span(plan: Plan, done: Done) -> Span:
    return plan.shop.clock.begins(done.start), done.over


def _common(span: Span, others: Iterable[Span]) -> int:
    return sum(max(0, min(span[1], over) - max(span[0], start)) for start, over in others)
