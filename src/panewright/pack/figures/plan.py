"""A plan as bars: a row a panel, a column a day; hands as filled bars, cures as open ones.

The first pair of hands is drawn black, the second grey; what both lift together is black over grey.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.sheet import Figure
from panewright.pack.plan.clock import DAY_MIN, DAYS
from panewright.pack.plan.schedule import Plan
from panewright.pack.plan.task import Done

ROOM_MM = 158.0  #: paper for all days
_HEAD, _LETTER, _LEFT = 8.0, 2.6, 14.0
_MOST_ROW, _HIGH = 9.0, 150.0
_LEAST_MM = 0.5  #: the shortest bar that can be seen


def plan_figure(plan: Plan) -> Figure | None:
    """All panels under each other; None where there is nothing to do."""
    if not plan.done:
        return None
    panels = sorted({each.task.panel for each in plan.done})
    last = math.ceil(plan.over / DAY_MIN)
    day_mm = ROOM_MM / max(last, 1)
    row = min(_MOST_ROW, _HIGH / len(panels))
    items: list[Item] = [*_days(plan, last, day_mm, row * len(panels))]
    for place, panel in enumerate(panels):
        foot = -(place + 1) * row
        name = f"panel {panel}" if panel else "once"
        items.append(Text((-1.5, foot + row / 2 - 0.8), name, _LETTER, "text", "right"))
        for done in plan.done:
            if done.task.panel == panel:
                items += _bars(plan, done, foot, row, day_mm)
    return Figure(Drawing("Plan", tuple(items)), 1.0, "Panels over days", to_scale=False)


def _days(plan: Plan, last: int, day_mm: float, high: float) -> Iterator[Item]:
    """A line a day, its name above; free days shaded."""
    step = math.ceil(6.0 / day_mm) if day_mm < 6.0 else 1
    for day in range(last):
        x = day * day_mm
        if day % 7 >= plan.shop.clock.days_a_week:
            yield box(x, -high, x + day_mm, 0.0, "band", filled=True)
        if day % step == 0:
            yield Text((x + 0.4, 1.4), _name(day, step), _LETTER)
    for day in range(last + 1):
        yield Path(((day * day_mm, -high), (day * day_mm, 0.6)), "grid")
    yield Path(((0.0, 0.0), (last * day_mm, 0.0)), "axis")


def _name(day: int, step: int) -> str:
    return DAYS[day % 7] if step == 1 else f"{day + 1}"


def _bars(plan: Plan, done: Done, foot: float, row: float, day_mm: float) -> Iterator[Item]:
    """Hands day by day, then the wait."""
    gap, clock = 0.12 * row, plan.shop.clock
    thick = row - 2 * gap
    for person in done.people:
        share = thick / len(done.people)
        low = foot + gap + share * done.people.index(person)
        for start, end in _stretches(done, clock.day_min):
            left = _at(plan, start, day_mm)
            right = max(left + (end - start) / clock.day_min * day_mm, left + _LEAST_MM)
            yield box(left, low, right, low + share, "ink" if person == 0 else "bracket", filled=True)
    if done.task.wait_min:
        hands = clock.world(done.end) if done.task.minutes else clock.begins(done.start)
        yield box(
            _world(plan, hands, day_mm),
            foot + row * 0.36,
            _world(plan, done.over, day_mm),
            foot + row * 0.64,
            "hole",
            filled=True,
        )


def _stretches(done: Done, day_min: int) -> Iterator[tuple[int, int]]:
    """A task's minutes of work, cut at the nights."""
    start = done.start
    while start < done.end:
        end = min(done.end, (start // day_min + 1) * day_min)
        yield start, end
        start = end


def _at(plan: Plan, work_min: int, day_mm: float) -> float:
    return _world(plan, plan.shop.clock.begins(work_min), day_mm)


def _world(plan: Plan, world_min: int, day_mm: float) -> float:
    """A day of work fills the width of its day: nights take no room, so a wait ends where work goes on."""
    day, rest = divmod(world_min, DAY_MIN)
    return (day + min(1.0, rest / plan.shop.clock.day_min)) * day_mm
