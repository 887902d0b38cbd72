"""The tasks of so many panels of one order: its steps, what each waits for, and which places they hold."""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.pack.bench import Bench
from panewright.pack.plan.bound import Bound, bound
from panewright.pack.plan.clock import Clock
from panewright.pack.plan.places import CURE, FORM, PRESS
from panewright.pack.plan.schedule import Plan, Shop, schedule
from panewright.pack.plan.task import Task
from panewright.pack.steps.steps import BenchStep, bench_steps
from panewright.structure.carrying import carriers

MOST_PANELS = 20  #: that are planned at once; more are planned in such lots
SET_UP = "set-up"

#: what a step waits for where that is not simply the step before it
_AFTER: dict[str, tuple[str, ...]] = {
    "sort-cells": (SET_UP,),
    "trial-patch": ("sort-cells",),
    "cut-rails": (SET_UP,),
    "clean-pane": (SET_UP,),
    "tab-cells": ("sort-cells",),
    "string-column": ("tab-cells",),
    "bypass-diodes": (SET_UP,),
    "label": (),
}
_ONCE = frozenset({SET_UP, "trial-patch"})  #: for all panels of an order
_AFTER_HANDS = {"label": ("close-back",)}  #: it is stuck on the back while the glue under the box sets
_POURED: dict[str, tuple[str, ...]] = {
    "encapsulate": ("insulation", "trial-patch"),
    "set-pane": ("join-frame", "clean-pane"),
    "join-columns": ("string-column", "set-pane"),
    "close-back": ("encapsulate", "bypass-diodes"),
    "measure-sun": ("close-back", "label"),
}
_ON_A_BOARD: dict[str, tuple[str, ...]] = {
    "set-pane": ("join-frame", "clean-pane"),
    "join-columns": ("string-column", "join-frame"),
    "encapsulate": ("polarity", "set-pane"),
    "close-back": ("insulation", "bypass-diodes"),
    "measure-sun": ("close-back", "label"),
}
_IN_FILM: dict[str, tuple[str, ...]] = {
    "join-columns": ("string-column", "clean-pane"),
    "set-pane": ("join-frame", "encapsulate"),
    "cut-rails": (SET_UP,),
    "close-back": ("set-pane", "bypass-diodes"),
    "measure-sun": ("insulation", "label"),
}
_WAYS = {
    "silicone pour": _POURED,
    "film": _IN_FILM,
    "air gap": _ON_A_BOARD,
}
_WHOLE = frozenset({"set-pane", "encapsulate", "measure-sun"})  #: silicone and sun do not wait for morning
_LIFTED = frozenset({"set-pane", "measure-sun"})  #: two hands more where the panel is heavy or long


def shop_of(bench: Bench) -> Shop:
    """Hands and places as the order tells them."""
    hands = bench.design.order.hands
    places = {CURE: hands.cure_places, FORM: hands.forms, PRESS: hands.presses}
    return Shop(hands.people, Clock(round(hands.day_h * 60), hands.days_a_week), places)


def tasks_of(bench: Bench, panels: int) -> tuple[Task, ...]:
    """Setting up and a trial patch once, then every step of every panel."""
    listed = _merged(bench_steps(bench))
    setting = Task(SET_UP, 0, "Set up", round(bench.minutes_once("Set up")))
    return (setting, *(task for panel in range(1, panels + 1) for task in _panel(bench, listed, panel)))


def _merged(steps: tuple[BenchStep, ...]) -> tuple[BenchStep, ...]:
    """Steps of hands, each with the waits that follow it.

    A cure begins the moment the hands are off, and where the panel lies then. So it is no task of its own:
    nobody sets a pane into wet silicone and looks for a place to lay it afterwards.
    """
    made: list[BenchStep] = []
    for step in steps:
        if made and not step.minutes:
            made[-1] = replace(made[-1], wait_h=made[-1].wait_h + step.wait_h)
        elif step.minutes:
            made.append(step)
    return tuple(made)


def _panel(bench: Bench, steps: tuple[BenchStep, ...], panel: int) -> list[Task]:
    before = _before(bench, tuple(step.key for step in steps))
    return [
        Task(
            *(step.key, _whose(step.key, panel), step.step.title),
            *(round(step.minutes), round(step.wait_h * 60)),
            people=_people(bench, step.key),
            after=_named(before[step.key] or (SET_UP,), panel),
            after_hands=_named(_AFTER_HANDS.get(step.key, ()), panel),
            holds=_place(bench, step.key),
            whole=step.key in _WHOLE,
        )
        for step in steps
        if panel == 1 or step.key not in _ONCE
    ]


def _before(bench: Bench, keys: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """What each step waits for, of those that there are: the step before it where nothing else is told."""
    told = _AFTER | _WAYS[bench.design.order.parts.encapsulation]
    there = {SET_UP, *keys}
    last = dict(zip(keys, ((), *((key,) for key in keys)), strict=False))
    return {key: tuple(name for name in told.get(key, last[key]) if name in there) for key in keys}


def _named(keys: tuple[str, ...], panel: int) -> tuple[tuple[str, int], ...]:
    """Tasks by their keys: of this panel, or what is done once."""
    return tuple((key, _whose(key, panel)) for key in keys)


def _whose(key: str, panel: int) -> int:
    """The panel that a task belongs to; 0 for what is done once."""
    return 0 if key in _ONCE else panel


def _people(bench: Bench, key: str) -> int:
    """Hands that a step asks: as many as carry the panel, two at most, where it is lifted."""
    if key not in _LIFTED:
        return 1
    return min(2, carriers(bench.design.structural.frame, bench.design.label.mass_kg))


def _place(bench: Bench, key: str) -> str:
    """The kind of place that a step holds through its wait."""
    kind = bench.design.order.parts.encapsulation
    if key == "encapsulate":
        return {"silicone pour": CURE, "film": PRESS, "air gap": ""}[kind]
    return {"set-pane": CURE, "close-back": CURE, "string-column": FORM}.get(key, "")


@dataclass(frozen=True, slots=True)
class Asked:
    """For what a plan is made: so many panels, so many people, from a weekday of work on."""

    panels: int
    people: int
    first: int = 0  #: weekday of the first day, 0 for Monday
    more: tuple[str, ...] = ()  #: kinds of places of which there is one more than the order tells


def asked_of(bench: Bench) -> Asked:
    """As the order has it: its panels, the first twenty where there are more, and its people."""
    order = bench.design.order
    return Asked(min(order.job.panels, MOST_PANELS), order.hands.people)


def plan_of(bench: Bench, asked: Asked | None = None) -> tuple[Plan, Bound]:
    """The plan of panels, as the order asks where nothing else is said, and what no plan beats."""
    wanted, own = asked or asked_of(bench), shop_of(bench)
    places = {kind: number + wanted.more.count(kind) for kind, number in own.places.items()}
    clock = replace(own.clock, first=wanted.first)
    shop = replace(own, people=wanted.people, clock=clock, places=places)
    tasks = tasks_of(bench, wanted.panels)
    return schedule(tasks, shop), bound(tasks, shop)
