"""What no plan can beat: the longest chain, the hands, and the places, each by itself.

    chain    the longest chain of tasks with its waits, alone in the shop with as many hands as it asks
    hands    all minutes of hands over the people
    places   minutes for which a kind of place is held, over the places of that kind, by the clock of the
    world

The bound is the latest of the three. Each is true of every plan, so no plan ends before it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from panewright.pack.plan.clock import DAY_MIN, Clock
from panewright.pack.plan.places import named
from panewright.pack.plan.schedule import Name, Shop
from panewright.pack.plan.task import Task


@dataclass(frozen=True, slots=True)
class Bound:
    """The earliest end by each reason, in minutes of the world."""

    chain: int
    hands: int
    places: int
    kind: str = ""  #: of the places that are held longest

    @property
    def over(self) -> int:
        """The latest of them."""
        return max(self.chain, self.hands, self.places)

    @property
    def reason(self) -> str:
        """Which of them it is."""
        places = f"the {named(self.kind, 2)}"
        said = {"the longest chain": self.chain, "the hands": self.hands, places: self.places}
        return max(said, key=lambda name: said[name])


def bound(tasks: Iterable[Task], shop: Shop) -> Bound:
    """By chain, hands and places."""
    listed = {task.name: task for task in tasks}
    minutes = sum(task.minutes * min(task.people, shop.people) for task in listed.values())
    hands = shop.clock.world(-(-minutes // shop.people))
    places, kind = _places(listed.values(), shop)
    return Bound(_chain(listed, shop.clock), hands, places, kind)


def _chain(tasks: Mapping[Name, Task], clock: Clock) -> int:
    """Every task as early as its chain lets it, with hands without number."""
    over: dict[Name, int] = {}

    def end_of(name: Name) -> int:
        if name not in over:
            task = tasks[name]
            waited = [end_of(before) for before in task.after]
            held = [end_of(before) - tasks[before].wait_min for before in task.after_hands]
            start = clock.work(max((*waited, *held), default=0))
            done = clock.world(start + task.minutes) if task.minutes else clock.begins(start)
            over[name] = done + task.wait_min
        return over[name]

    return max((end_of(name) for name in tasks), default=0)


def _places(tasks: Iterable[Task], shop: Shop) -> tuple[int, str]:
    """The minutes that the busiest kind of place needs, and which kind it is."""
    held: dict[str, int] = defaultdict(int)
    for task in tasks:
        if task.holds:
            held[task.holds] += task.minutes + task.wait_min
    need = ((-(-minutes // shop.places[kind]), kind) for kind, minutes in held.items())
    return max(need, default=(0, ""))


def over_by(found: int, least: int) -> float:
    """How much longer a plan takes than the bound. [1]"""
    return found / least - 1 if least else 0.0


def days(world_min: int) -> float:
    """Minutes of the world as days. [d]"""
    return world_min / DAY_MIN
