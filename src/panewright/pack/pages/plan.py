"""The plan of an order: days and hands at a glance, bars, then who does what on which day."""

from __future__ import annotations

from collections import defaultdict

from panewright.drawing.drawing import Align
from panewright.drawing.sheet import Block, Caution, Heading, Numbers, Page, Table, Words
from panewright.pack.bench import Bench, count
from panewright.pack.figures.plan import plan_figure
from panewright.pack.pages import caution
from panewright.pack.plan.bound import Bound, days, over_by
from panewright.pack.plan.panels import MOST_PANELS, plan_of
from panewright.pack.plan.schedule import Plan
from panewright.pack.plan.task import Done

_READ = (
    "Black bars are the first pair of hands, grey ones the second; open bars lie still and cure. Shaded days "
    "are free. Minutes are those of the steps; day 1 is a Monday."
)
_MOST_ROWS = 60  #: days that are told one by one


def plan_page(bench: Bench) -> Page:
    """The plan in figures, bars and words."""
    plan, least = plan_of(bench)
    hands, panels = bench.design.order.hands, bench.design.order.job.panels
    drawn = plan_figure(plan)
    blocks: list[Block] = [
        Words(_lead(plan, least), "lead"),
        Numbers(
            (
                ("Panels", str(min(panels, MOST_PANELS))),
                ("Days with work", str(plan.work_days)),
                ("From first to last", f"{plan.calendar_days:.1f}\u2009days"),
                ("No plan is shorter than", f"{days(least.over):.1f}\u2009days"),
            )
        ),
        *((drawn,) if drawn else ()),
        Words(_READ, "small"),
        Words(
            f"Reckoned with {count(hands.people, 'person', 'people')}, {hands.day_h:g} hours a day, "
            f"{count(hands.days_a_week, 'day')} a week, {count(hands.cure_places, 'place')} to cure on, "
            f"{count(hands.forms, 'template')}, {count(hands.presses, 'press', 'presses')}: the order's "
            "[hands] "
            "say otherwise. A place is held while a bead, a pour or a glued box cures."
        ),
        *_too_many(panels),
        *_helpers(plan),
        Heading("Day by day"),
        _table(plan),
    ]
    return Page("Plan", tuple(blocks))


def _lead(plan: Plan, least: Bound) -> str:
    more = over_by(plan.over, least.over)
    if more <= 0.005:
        return f"No plan ends sooner: {least.reason} decides."
    return f"{more:.0%} longer than {least.reason} alone would need; no plan is shorter than that."


def _too_many(panels: int) -> list[Block]:
    if panels <= MOST_PANELS:
        return []
    return [Words(f"The first {MOST_PANELS} of {panels} panels; plan the others in such lots.")]


def _helpers(plan: Plan) -> list[Block]:
    """Steps for which somebody must be called."""
    titles = list(dict.fromkeys(each.task.title for each in plan.done if each.helper))
    if not titles:
        return []
    words = f"A second pair of hands must be called for: {', '.join(titles).lower()}. {caution.GLASS_EDGE}"
    return [Caution(words)]


def _table(plan: Plan) -> Table:
    """What each person does on each day."""
    told: dict[tuple[int, int], list[Done]] = defaultdict(list)
    for each in plan.done:
        for day in range(each.start // plan.shop.clock.day_min, _last_day(plan, each) + 1):
            for person in each.people:
                told[day, person].append(each)
    two = plan.shop.people > 1
    rows = tuple(
        (
            f"{day + 1}  {plan.shop.clock.day_words(day)}",
            *((f"{person + 1}",) if two else ()),
            _said(plan, found, day),
            f"{_hours(plan, found, day):.1f}\u2009h",
        )
        for (day, person), found in sorted(told.items())
    )
    head = ("Day", *(("Who",) if two else ()), "Steps, and of which panel", "Hands")
    widths = (0.18, *((0.07,) if two else ()), 0.65 if two else 0.72, 0.1)
    align: tuple[Align, ...] = ("left", "left", "left", "right") if two else ("left", "left", "right")
    return Table(head, rows[:_MOST_ROWS], widths, align)


def _last_day(plan: Plan, done: Done) -> int:
    return max(done.end - 1, done.start) // plan.shop.clock.day_min


def _said(plan: Plan, found: list[Done], day: int) -> str:
    """Steps in the order of the day; panels of one step told together; what goes on overnight says so."""
    by_title: dict[str, list[str]] = defaultdict(list)
    for each in found:
        goes_on = each.start // plan.shop.clock.day_min < day
        name = str(each.task.panel) if each.task.panel else ""
        by_title[each.task.title].append(f"{name} (goes on)" if goes_on else name)
    said = (f"{title} {', '.join(filter(None, names))}".strip() for title, names in by_title.items())
    return "; ".join(said)


def _hours(plan: Plan, found: list[Done], day: int) -> float:
    """Hours of hands on that day."""
    start, end = day * plan.shop.clock.day_min, (day + 1) * plan.shop.clock.day_min
    return sum(max(0, min(each.end, end) - max(each.start, start)) for each in found) / 60
