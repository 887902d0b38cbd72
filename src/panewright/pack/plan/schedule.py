"""A list schedule: at each moment the free hands take, of what may begin, the task that comes first in turn.

Two turns are tried, each with everybody at work and with some only helping to lift (a long task of theirs
would hold the lift up); the plan that ends first is kept:

    longest way first   minutes of hands and waits on the longest chain of tasks from here
    panel by panel      all of the earlier panel before the later one, longest way first within each

Among equals the earlier panel comes first, then the earlier step. No search and no chance: the same tasks
give the same plan. It is not the best plan there is; `bound` says what no plan can beat.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from panewright.pack.plan.clock import DAY_MIN, Clock
from panewright.pack.plan.task import Done, Task

Name = tuple[str, int]


@dataclass(frozen=True, slots=True)
class Shop:
    """Hands, days, and how many places of each kind there are."""

    people: int
    clock: Clock
    places: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Plan:
    """Every task with its time, in the order in which they start."""

    shop: Shop
    done: tuple[Done, ...]

    @property
    def over(self) -> int:
        """The minute of the world at which all is done."""
        return max((each.over for each in self.done), default=0)

    @property
    def work_days(self) -> int:
        """Days on which hands work, from the first to the last."""
        last = max((each.end for each in self.done), default=0)
        return -(-last // self.shop.clock.day_min)

    @property
    def calendar_days(self) -> float:
        """From the first minute to the end of the last wait. [d]"""
        return self.over / DAY_MIN


def schedule(tasks: Iterable[Task], shop: Shop) -> Plan:
    """Every task placed; ValueError where one waits for a task that is not there, or in a circle."""
    listed = {task.name: task for task in tasks}
    _refuse_impossible(listed, shop)
    tails = tail_minutes(listed)
    longest = {name: (-tails[name], name[1], place) for place, name in enumerate(listed)}
    by_panel = {name: (name[1], -tails[name], place) for place, name in enumerate(listed)}
    plans = (
        _by_turn(listed, shop, turn, alone)
        for alone in range(shop.people, 0, -1)
        for turn in (longest, by_panel)
    )
    return min(plans, key=lambda plan: (plan.over, plan.work_days))


def _by_turn(
    listed: Mapping[Name, Task], shop: Shop, turn: Mapping[Name, tuple[int, int, int]], alone: int
) -> Plan:
    """The plan that one turn gives; only the first `alone` people work alone, the others help to lift."""
    waiting = dict(listed)
    free_at, held, placed = [0] * shop.people, dict[str, list[int]](), dict[Name, Done]()
    now = 0
    while waiting:
        fit = [task for task in waiting.values() if _may_start(task, now, placed, shop, held)]
        for task in sorted(fit, key=lambda one: turn[one.name]):
            wanted = min(task.people, shop.people)
            who = range(alone if wanted == 1 else shop.people)
            hands = [person for person in who if free_at[person] <= now]
            if len(hands) < wanted or not _room(task, now, shop, held):
                continue
            made = _placed(task, now, tuple(hands[:wanted]), shop.clock)
            for person in made.people:
                free_at[person] = made.end
            if task.holds:
                held.setdefault(task.holds, []).append(made.over)
            placed[task.name] = made
            del waiting[task.name]
        now = _next(now, free_at, placed, shop) if waiting else now
    return Plan(
        shop, tuple(sorted(placed.values(), key=lambda each: (each.start, each.people, each.task.name)))
    )


def _refuse_impossible(tasks: Mapping[Name, Task], shop: Shop) -> None:
    for task in tasks.values():
        if lost := [name for name in (*task.after, *task.after_hands) if name not in tasks]:
            raise ValueError(f"{task.name} waits for {lost[0]}, which is no task")
        if task.holds and shop.places.get(task.holds, 0) < 1:
            raise ValueError(f"{task.name} wants a place of kind {task.holds}, and there is none")


def tail_minutes(tasks: Mapping[Name, Task]) -> dict[Name, int]:
    """Minutes on the longest chain from the start of each task to the end; ValueError in a circle."""
    over, hands = _later(tasks)
    tails: dict[Name, int] = {}
    for name in reversed(_in_turn(tasks, over, hands)):
        waited = tasks[name].wait_min + max((tails[after] for after in over[name]), default=0)
        tails[name] = tasks[name].minutes + max([waited, *(tails[after] for after in hands[name])])
    return tails


def _later(tasks: Mapping[Name, Task]) -> tuple[dict[Name, list[Name]], dict[Name, list[Name]]]:
    """Of each task, those that wait until it is over, and those that wait for its hands alone."""
    over: dict[Name, list[Name]] = {name: [] for name in tasks}
    hands: dict[Name, list[Name]] = {name: [] for name in tasks}
    for name, task in tasks.items():
        for before in task.after:
            over[before].append(name)
        for before in task.after_hands:
            hands[before].append(name)
    return over, hands


def _in_turn(
    tasks: Mapping[Name, Task], over: Mapping[Name, list[Name]], hands: Mapping[Name, list[Name]]
) -> list[Name]:
    """All tasks, each behind those that it waits for; ValueError in a circle."""
    ahead = {name: len(task.after) + len(task.after_hands) for name, task in tasks.items()}
    turn, ready = [], [name for name, count in ahead.items() if count == 0]
    while ready:
        name = ready.pop()
        turn.append(name)
        for after in (*over[name], *hands[name]):
            ahead[after] -= 1
            if ahead[after] == 0:
                ready.append(after)
    if len(turn) < len(tasks):
        raise ValueError("tasks wait for each other in a circle")
    return turn


def _may_start(
    task: Task, now: int, placed: Mapping[Name, Done], shop: Shop, held: dict[str, list[int]]
) -> bool:
    """Whether all before it is over, a place is free, and what must not be broken off fits into the day."""
    world = shop.clock.begins(now)
    if any(name not in placed or placed[name].over > world for name in task.after):
        return False
    if any(name not in placed or placed[name].end > now for name in task.after_hands):
        return False
    left = shop.clock.day_min - now % shop.clock.day_min
    broken = task.whole and left < task.minutes <= shop.clock.day_min
    return not broken and _room(task, now, shop, held)


def _room(task: Task, now: int, shop: Shop, held: dict[str, list[int]]) -> bool:
    world = shop.clock.begins(now)
    taken = sum(until > world for until in held.get(task.holds, ()))
    return not task.holds or taken < shop.places[task.holds]


def _placed(task: Task, now: int, people: tuple[int, ...], clock: Clock) -> Done:
    end = now + task.minutes
    hands_done = clock.world(end) if task.minutes else clock.begins(now)
    return Done(task, now, end, people if task.minutes else (), hands_done + task.wait_min)


def _next(now: int, free_at: list[int], placed: Mapping[Name, Done], shop: Shop) -> int:
    """The next minute of work at which anything changes: hands come free, a wait ends, a day begins."""
    clock = shop.clock
    world = clock.begins(now)
    moments = [until for until in free_at if until > now]
    moments += [clock.work(each.over) for each in placed.values() if each.over > world]
    moments.append((now // clock.day_min + 1) * clock.day_min)
    return min(moment for moment in moments if moment > now)
