"""A plan as bars: a row a panel, a column a day; hands as filled bars, cures as open ones.

The first pair of hands is drawn black, the second grey; what both lift together is black over grey.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, timedelta

from panewright.drawing.drawing import Drawing, Item, Path, Text, box
from panewright.drawing.sheet import Figure
from panewright.pack.plan.clock import DAY_MIN, Clock
from panewright.pack.plan.schedule import Plan
from panewright.pack.plan.task import Done

ROOM_MM = 158.0  #: paper for all days
_HEAD, _LETTER, _LEFT = 8.0, 2.6, 14.0
_MOST_ROW, _HIGH = 9.0, 150.0
_NUMBER, _NAME, _LONG_NAME = 1.6, 2.3, 3.6  #: room for a name, in letters' heights
_LEAST_MM = 0.5  #: the shortest bar that can be seen


def plan_figure(plan: Plan, start: date | None = None, letter_mm: float = _LETTER) -> Figure | None:
    """All panels under each other; None where there is nothing to do.

    With a first day each day bears its number in the month.
    """
    if not plan.done:
        return None
    panels = sorted({each.task.panel for each in plan.done})
    last = math.ceil(plan.over / DAY_MIN)
    day_mm = ROOM_MM / max(last, 1)
    row = min(_MOST_ROW, _HIGH / len(panels))
    named = [(day * day_mm, name) for day, name in _names(plan.shop.clock, last, start, day_mm / letter_mm)]
    items: list[Item] = [*_days(plan, last, day_mm, row * len(panels))]
    items += [Text((x + 0.4, 1.4), name, letter_mm) for x, name in named]
    for place, panel in enumerate(panels):
        foot = -(place + 1) * row
        name = f"panel {panel}" if panel else "once"
        items.append(Text((-1.5, foot + row / 2 - 0.3 * letter_mm), name, letter_mm, "text", "right"))
        for done in plan.done:
            if done.task.panel == panel:
                items += _bars(plan, done, foot, row, day_mm)
    return Figure(Drawing("Plan", tuple(items)), 1.0, "Panels over days", to_scale=False)


def _days(plan: Plan, last: int, day_mm: float, high: float) -> Iterator[Item]:
    """A line a day; free days shaded."""
    for day in range(last):
        if plan.shop.clock.is_free(day):
            yield box(day * day_mm, -high, (day + 1) * day_mm, 0.0, "band", filled=True)
    for day in range(last + 1):
        yield Path(((day * day_mm, -high), (day * day_mm, 0.6)), "grid")
    yield Path(((0.0, 0.0), (last * day_mm, 0.0)), "axis")


def _names(clock: Clock, last: int, start: date | None, room: float) -> Iterator[tuple[int, str]]:
    """Each day by its name where there is room for it, else every so many by its number."""
    long = start is not None and room >= _LONG_NAME
    least = _NAME if start is None else _NUMBER
    step = 1 if room >= least else math.ceil(least / room)
    for day in range(0, last, step):
        number = f"{day + 1}" if start is None else f"{(start + timedelta(days=day)).day}"
        name = clock.weekday(day)
        yield day, f"{name} {number}" if long else name if step == 1 and start is None else number


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
