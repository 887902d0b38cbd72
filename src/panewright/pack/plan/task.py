"""One step of one panel as a plan sees it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Task:
    """Work of hands, then maybe a wait; held places stay taken until the wait is over."""

    key: str
    panel: int  #: from 1; 0 for what is done once
    title: str
    minutes: int
    wait_min: int = 0
    people: int = 1
    after: tuple[tuple[str, int], ...] = ()  #: tasks that must be over, their waits with them
    after_hands: tuple[tuple[str, int], ...] = ()  #: tasks of which only the hands must be done
    holds: str = ""  #: a kind of place, such as 'cure'
    whole: bool = False  #: never broken off at night, where a day is long enough

    @property
    def name(self) -> tuple[str, int]:
        """What others call it."""
        return self.key, self.panel


@dataclass(frozen=True, slots=True)
class Done:
    """A task in the plan. Starts and ends of hands are minutes of work, `over` is a minute of the world."""

    task: Task
    start: int
    end: int
    people: tuple[int, ...]  #: who, counted from 0
    over: int  #: the wait is over

    @property
    def helper(self) -> bool:
        """Whether more hands are asked than the shop has: somebody is called."""
        return self.task.minutes > 0 and self.task.people > len(self.people)
