"""Lots that are weighed: each once for what was read and settled of it, by a worker, while pages go on."""

from __future__ import annotations

import asyncio
from collections import OrderedDict
from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem
from panewright.web.doing import Doing
from panewright.web.workers import WorkerGone

if TYPE_CHECKING:
    from panewright.desk.lots.seen import Weighed

A_MOMENT_S = 0.9
_KEPT = 6  #: lots


class Scales:
    """What was weighed last, and what is being weighed."""

    def __init__(self, doing: Doing) -> None:
        self._doing = doing
        self._tasks: OrderedDict[str, asyncio.Task[Weighed]] = OrderedDict()

    async def weighed(
        self, key: str, weigh: Callable[[], Awaitable[Weighed]], *, wait: bool
    ) -> Weighed | None:
        """The lot of that key; None while it is still being weighed and nobody wants to wait for it."""
        task = self._tasks.get(key)
        if task is None or (task.done() and (task.cancelled() or task.exception())):
            task = self._tasks[key] = self._doing.later(_told(weigh))
        self._tasks.move_to_end(key)
        while len(self._tasks) > _KEPT:
            self._tasks.popitem(last=False)
        await asyncio.wait({task}, timeout=None if wait else A_MOMENT_S)
        return task.result() if task.done() else None

    def forget(self) -> None:
        """Other records stand now."""
        self._tasks.clear()


async def _told(weigh: Callable[[], Awaitable[Weighed]]) -> Weighed:
    try:
        return await weigh()
    except (WorkerGone, MemoryError) as gone:
        reason = "The lot could not be weighed."
        raise PanewrightError([Problem(reason, "Load the page again.", key="lot")]) from gone
