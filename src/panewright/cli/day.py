"""A day as a command takes it: year, month, day, in a year that a shop has orders in."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import click

FIRST, LAST = 2000, 2199


class Day(click.DateTime):
    """Year first; other centuries are a slip of the hand, and days past the last are none."""

    def __init__(self) -> None:
        super().__init__(["%Y-%m-%d"])

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The day, or what is wrong with it."""
        found = super().convert(value, param, ctx)
        if isinstance(found, datetime) and not FIRST <= found.year <= LAST:
            self.fail(f"{value!r} is in the year {found.year}; write one from {FIRST} to {LAST}.", param, ctx)
        return found


DAY = Day()
