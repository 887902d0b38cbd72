"""Minutes of work and minutes of the world: hands rest at night and on free days, cures do not.

Minute 0 of both is the first minute of work on the first day, a Monday where no other is said. A cure that
ends at night is met the next morning.
"""

from __future__ import annotations

from dataclasses import dataclass

DAY_MIN = 1440
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True, slots=True)
class Clock:
    """When hands work."""

    day_min: int  #: of work a day
    days_a_week: int  #: from Monday on
    first: int = 0  #: weekday of the first day, 0 for Monday

    def __post_init__(self) -> None:
        if not 0 <= self.first < self.days_a_week:
            raise ValueError(f"work begins on a day of work, got weekday {self.first}")

    def world(self, work_min: int) -> int:
        """The minute of the world at which so many minutes were worked, as late as a day's work ends.

        >>> clock = Clock(480, 5)
        >>> clock.world(480), clock.world(481), clock.world(2400), clock.world(2401)
        (480, 1441, 6240, 10081)
        """
        day, rest = divmod(work_min, self.day_min)
        if rest == 0 and day > 0:
            return self._start(day - 1) + self.day_min
        return self._start(day) + rest

    def begins(self, work_min: int) -> int:
        """The minute of the world at which work goes on there: the morning after, at a day's end."""
        day, rest = divmod(work_min, self.day_min)
        return self._start(day) + rest

    def work(self, world_min: int) -> int:
        """The first minute of work that is not before a minute of the world."""
        day, rest = divmod(max(world_min, 0), DAY_MIN)
        week, weekday = divmod(day + self.first, 7)
        if weekday >= self.days_a_week:
            return ((week + 1) * self.days_a_week - self.first) * self.day_min
        return (week * self.days_a_week + weekday - self.first) * self.day_min + min(rest, self.day_min)

    def day_of(self, work_day: int) -> int:
        """The day of the world, from 0, on which a day of work falls.

        >>> Clock(480, 5, first=3).day_of(1), Clock(480, 5, first=3).day_of(2)
        (1, 4)
        """
        week, weekday = divmod(work_day + self.first, self.days_a_week)
        return 7 * week + weekday - self.first

    def is_free(self, day: int) -> bool:
        """Whether nobody works on a day of the world."""
        return (day + self.first) % 7 >= self.days_a_week

    def weekday(self, day: int) -> str:
        """The name of a day of the world."""
        return DAYS[(day + self.first) % 7]

    def _start(self, work_day: int) -> int:
        return self.day_of(work_day) * DAY_MIN

    def day_words(self, work_day: int) -> str:
        """A day of work by its number and name, its week from the second on.

        >>> Clock(480, 5).day_words(0), Clock(480, 5).day_words(6)
        ('Mon', 'Tue, week 2')
        """
        week, weekday = divmod(work_day + self.first, self.days_a_week)
        return DAYS[weekday] if week == 0 else f"{DAYS[weekday]}, week {week + 1}"
