"""The plan of an order: days and hands at a glance, bars, then who does what on which day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from panewright.drawing.drawing import Align
from panewright.drawing.sheet import Block, Caution, Heading, Numbers, Page, Table, Words
from panewright.pack.bench import Bench, count
from panewright.pack.figures.plan import plan_figure
from panewright.pack.pages import caution
from panewright.pack.plan.bound import Bound, days, over_by
from panewright.pack.plan.clock import DAY_MIN
from panewright.pack.plan.panels import MOST_PANELS, Asked, asked_of, plan_of
from panewright.pack.plan.places import named
from panewright.pack.plan.schedule import Name, Plan
from panewright.pack.plan.task import Done
from panewright.pack.plan.waits import Waited, waits

_BARS = (
    "Black bars are the first pair of hands, grey ones the second; open bars lie still and cure. Shaded days "
    "are free. Minutes are those of the steps"
)
_MOST_ROWS = 60  #: days that are told one by one


@dataclass(frozen=True, slots=True)
class Turn:
    """What one person does on one day."""

    work_day: int  #: from 0
    person: int  #: from 0
    said: str  #: the steps, and of which panels
    hours: float


def plan_page(bench: Bench, asked: Asked | None = None, start: date | None = None) -> Page:
    """The plan in figures, bars and words; as the order asks, from a Monday, where nothing else is said."""
    wanted = asked or asked_of(bench)
    plan, least = plan_of(bench, wanted)
    drawn = plan_figure(plan, start)
    numbers = Numbers(tuple(figures(plan, least, wanted.panels)))
    blocks: list[Block] = [
        Words(lead(plan, least), "lead"),
        numbers,
        *(Words(words) for words in waited_for(bench, wanted, plan)),
        *((drawn,) if drawn else ()),
        Words(f"{_BARS}{'.' if start else '; day 1 is a Monday.'}", "small"),
        Words(reckoned_with(bench, wanted.people)),
        *_too_many(bench.design.order.job.panels, wanted.panels),
        *_helpers(plan),
        Heading("Day by day"),
        _table(plan, start),
    ]
    return Page("Plan", tuple(blocks))


def lead(plan: Plan, least: Bound) -> str:
    """How near the plan is to what no plan can beat."""
    more = over_by(plan.over, least.over)
    if more <= 0.005:
        return f"No plan ends sooner, because of {least.reason}."
    return f"{more:.0%} longer than {least.reason} alone would need; no plan is shorter than that."


def figures(plan: Plan, least: Bound, panels: int) -> tuple[tuple[str, str], ...]:
    """The plan in four figures."""
    return (
        ("Panels", str(panels)),
        ("Days with work", str(plan.work_days)),
        ("From first to last", f"{plan.calendar_days:.1f}\u2009days"),
        ("No plan is shorter than", f"{days(least.over):.1f}\u2009days"),
    )


def reckoned_with(bench: Bench, people: int) -> str:
    """The hands, days and places that the plan reckons with."""
    hands = bench.design.order.hands
    return (
        f"Reckoned with {count(people, 'person', 'people')}, {hands.day_h:g} hours a day, "
        f"{count(hands.days_a_week, 'day')} a week, {count(hands.cure_places, 'cure place')}, "
        f"{count(hands.forms, 'template')}, {count(hands.presses, 'press', 'presses')}: the order's "
        "[hands] say otherwise. A cure place is where one panel can lie flat; it is held from the moment a "
        "pane is set, a pour begun or a box glued until that has cured."
    )


def waited_for(bench: Bench, wanted: Asked, plan: Plan) -> tuple[str, ...]:
    """For which places panels wait, how long, and what one place more of that kind would do."""
    by_kind: dict[str, list[Waited]] = defaultdict(list)
    for each in waits(plan):
        by_kind[each.task.holds].append(each)
    return tuple(_waited(bench, wanted, plan, found) for found in by_kind.values())


def _waited(bench: Bench, wanted: Asked, plan: Plan, found: list[Waited]) -> str:
    """One kind of place."""
    kind, longest = found[0].task.holds, max(found, key=lambda each: each.minutes)
    there = plan.shop.places[kind]
    taken = f"the {named(kind)} is taken" if there == 1 else f"all {there} {named(kind, there)} are taken"
    sooner = plan.over - plan_of(bench, replace(wanted, more=(*wanted.more, kind)))[0].over
    gain = f"{_days_words(sooner)} sooner" if sooner > 0 else "no sooner"
    return (
        f"Waiting for a {named(kind)}: {_days_words(sum(each.minutes for each in found))} over all panels, "
        f"because {taken}; panel {longest.task.panel} longest, {_days_words(longest.minutes)} before the "
        f"step “{longest.task.title}”. With {there + 1} {named(kind, 2)} all is done {gain}."
    )


def _days_words(minutes: int) -> str:
    """Minutes of the world in days of 24 hours; under a day in hours.

    >>> _days_words(60), _days_words(1440), _days_words(4320)
    ('1\u2009h', '1.0\u2009days', '3.0\u2009days')
    """
    if minutes < DAY_MIN:
        return f"{minutes / 60:.0f}\u2009h"
    return f"{days(minutes):.1f}\u2009days"


def _too_many(panels: int, planned: int) -> list[Block]:
    if panels <= MOST_PANELS or planned < MOST_PANELS:
        return []
    return [Words(f"The first {MOST_PANELS} of {panels} panels; plan the others in such lots.")]


def called_for(plan: Plan) -> str:
    """Steps for which somebody must be called, and how to hold glass; nothing where nobody is."""
    titles = list(dict.fromkeys(each.task.title for each in plan.done if each.helper))
    if not titles:
        return ""
    return f"A second pair of hands must be called for: {', '.join(titles).lower()}. {caution.GLASS_EDGE}"


def _helpers(plan: Plan) -> list[Block]:
    words = called_for(plan)
    return [Caution(words)] if words else []


def turns(plan: Plan) -> tuple[Turn, ...]:
    """What each person does on each day."""
    told: dict[tuple[int, int], list[Done]] = defaultdict(list)
    stood = {each.task.name: each for each in waits(plan)}
    for each in plan.done:
        for day in range(each.start // plan.shop.clock.day_min, _last_day(plan, each) + 1):
            for person in each.people:
                told[day, person].append(each)
    return tuple(
        Turn(day, person, _said(plan, found, day, stood), _hours(plan, found, day))
        for (day, person), found in sorted(told.items())
    )


def day_words(plan: Plan, work_day: int, start: date | None) -> str:
    """A day of work by its number and name, or by its date."""
    clock = plan.shop.clock
    if start is None:
        return f"{work_day + 1}  {clock.day_words(work_day)}"
    on = start + timedelta(days=clock.day_of(work_day))
    return f"{clock.weekday(clock.day_of(work_day))} {on.isoformat()}"


def _table(plan: Plan, start: date | None) -> Table:
    two = plan.shop.people > 1
    rows = tuple(
        (
            day_words(plan, each.work_day, start),
            *((f"{each.person + 1}",) if two else ()),
            each.said,
            hands_words(each.hours),
        )
        for each in turns(plan)
    )
    head = ("Day", *(("Who",) if two else ()), "Steps, and of which panel", "Hands")
    widths = (0.18, *((0.07,) if two else ()), 0.65 if two else 0.72, 0.1)
    align: tuple[Align, ...] = ("left", "left", "left", "right") if two else ("left", "left", "right")
    return Table(head, rows[:_MOST_ROWS], widths, align)


def hands_words(hours: float) -> str:
    """Hours of hands, in minutes where they are few.

    >>> hands_words(7.98), hands_words(0.03)
    ('8.0\u2009h', '2\u2009min')
    """
    return f"{hours:.1f}\u2009h" if hours >= 1 else f"{hours * 60:.0f}\u2009min"


def _last_day(plan: Plan, done: Done) -> int:
    return max(done.end - 1, done.start) // plan.shop.clock.day_min


def _said(plan: Plan, found: list[Done], day: int, stood: Mapping[Name, Waited]) -> str:
    """Steps in the order of the day; panels of one step told together, with what they waited for."""
    by_title: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for each in found:
        name = str(each.task.panel) if each.task.panel else ""
        by_title[each.task.title][_note(plan, each, day, stood.get(each.task.name))].append(name)
    return "; ".join(f"{title} {_panels(noted)}".strip() for title, noted in by_title.items())


def _panels(noted: Mapping[str, list[str]]) -> str:
    """Panels with one note after those that share it."""
    return ", ".join(f"{', '.join(names)} {note}".strip() for note, names in noted.items())


def _note(plan: Plan, done: Done, day: int, wait: Waited | None) -> str:
    if done.start // plan.shop.clock.day_min < day:
        return "(goes on)"
    return f"(waited {_days_words(wait.minutes)} for a {named(wait.task.holds)})" if wait else ""


def _hours(plan: Plan, found: list[Done], day: int) -> float:
    """Hours of hands on that day."""
    start, end = day * plan.shop.clock.day_min, (day + 1) * plan.shop.clock.day_min
    return sum(max(0, min(each.end, end) - max(each.start, start)) for each in found) / 60
