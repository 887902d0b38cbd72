"""Panels of an order over days: for how many, by whom, from when; as bars and day by day."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.pack.bench import Bench
    from panewright.pack.pages.plan import Turn
    from panewright.pack.plan.panels import Asked
    from panewright.pack.plan.schedule import Plan

MOST_PEOPLE = 2
_SCREEN_LETTER_MM = 3.4  #: on bars 158 mm wide, as a telephone shows them


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """What a page asks; 0 and None: as the order has it, from the next Monday on."""

    panels: int = 0
    people: int = 0
    start: date | None = None
    today: date = date(2026, 1, 1)


@dataclass(frozen=True, slots=True)
class Hands:
    """One person's day."""

    who: str
    said: str
    hours: str


@dataclass(frozen=True, slots=True)
class Day:
    """A day with work."""

    name: str
    hands: tuple[Hands, ...]


@dataclass(frozen=True, slots=True)
class PlanShown:
    """A plan for its page."""

    panels: int
    people: int
    start: date
    most: int  #: panels that can be planned at once
    ordered: int  #: panels of the order
    sentence: str
    waits: tuple[str, ...]  #: for which places panels wait
    figures: tuple[tuple[str, str], ...]
    ends: str
    picture: str  #: svg
    reckoned: str
    caution: str
    days: tuple[Day, ...]


def asked_of(typed: Mapping[str, str], today: date) -> PlanAsked:
    """What a page sends; what is no number or no day is as the order has it.

    >>> asked_of({"panels": "3", "people": "two", "start": "2026-03-02"}, date(2026, 1, 1)).panels
    3
    """
    try:
        start = date.fromisoformat(typed.get("start", "").strip())
    except ValueError:
        start = None
    return PlanAsked(_count(typed.get("panels", "")), _count(typed.get("people", "")), start, today)


def _count(typed: str) -> int:
    return int(typed) if typed.isdecimal() and len(typed) < 4 else 0


def shown(made: Made, asked: PlanAsked) -> PlanShown:
    """The plan that is asked for, in words and bars."""
    from panewright.pack.bench import Bench
    from panewright.pack.figures.plan import plan_figure
    from panewright.pack.pages import plan as pages
    from panewright.pack.plan.panels import MOST_PANELS, plan_of
    from panewright.paper.screen import picture

    bench = Bench(made.design, made.quote)
    wanted, start = _fitted(bench, asked)
    plan, least = plan_of(bench, wanted)
    drawn = plan_figure(plan, start, _SCREEN_LETTER_MM)
    return PlanShown(
        panels=wanted.panels,
        people=wanted.people,
        start=start,
        most=MOST_PANELS,
        ordered=made.design.order.job.panels,
        sentence=pages.lead(plan, least),
        waits=pages.waited_for(bench, wanted, plan),
        figures=pages.figures(plan, least, wanted.panels)[1:],
        ends=_ends(plan, start),
        picture=picture(drawn.drawing) if drawn else "",
        reckoned=pages.reckoned_with(bench, wanted.people),
        caution=pages.called_for(plan),
        days=tuple(_days(plan, pages.turns(plan), start)),
    )


def pdf(made: Made, asked: PlanAsked) -> bytes:
    """The same plan to hang up."""
    from panewright.pack.bench import Bench
    from panewright.pack.pack import plan_leaf
    from panewright.paper.leaf import render

    wanted, start = _fitted(Bench(made.design, made.quote), asked)
    return render(plan_leaf(made.design, made.quote, wanted, start))


def _fitted(bench: Bench, asked: PlanAsked) -> tuple[Asked, date]:
    """What is asked within what can be planned, and the first day of work from the start on."""
    from panewright.pack.plan import panels

    own, days = panels.asked_of(bench), bench.design.order.hands.days_a_week
    start = asked.start or asked.today + timedelta(days=-asked.today.weekday() % 7)
    while start.weekday() >= days:
        start += timedelta(days=1)
    count = min(asked.panels or own.panels, panels.MOST_PANELS)
    return panels.Asked(count, min(asked.people or own.people, MOST_PEOPLE), start.weekday()), start


def _ends(plan: Plan, start: date) -> str:
    """The day on which the last wait is over."""
    from panewright.pack.plan.clock import DAY_MIN

    day = max(plan.over - 1, 0) // DAY_MIN
    return f"{plan.shop.clock.weekday(day)} {(start + timedelta(days=day)).isoformat()}"


def _days(plan: Plan, turns: tuple[Turn, ...], start: date) -> list[Day]:
    from panewright.pack.pages.plan import day_words

    found: dict[int, list[Hands]] = {}
    for each in turns:
        who = f"Hands {each.person + 1}" if plan.shop.people > 1 else ""
        hands = Hands(who, each.said, f"{each.hours:.1f}\u2009h")
        found.setdefault(each.work_day, []).append(hands)
    return [Day(day_words(plan, day, start), tuple(hands)) for day, hands in found.items()]
