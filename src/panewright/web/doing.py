"""What is being done beside the pages of one running server: by whom, how far it is, how it is given up."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

from starlette.concurrency import run_in_threadpool

from panewright.errors import AwayError, Problem
from panewright.web.live import Live
from panewright.web.workers import Workers

T = TypeVar("T")


class NoAnswer(Exception):
    """The records cannot be reached. No mistake of a person: a page keeps what it sent, to send it again."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        super().__init__()
        self.problems = tuple(problems)


class Doing:
    """Workers, what they are at, and who is told of it."""

    def __init__(self, folder: Path, workers: Workers) -> None:
        self.folder, self.workers, self.live = folder, workers, Live()
        self.far: dict[str, int] = {}  #: percent done of what is being made
        self._working: dict[str, set[asyncio.Task[Any]]] = {}
        self._tasks: set[asyncio.Task[Any]] = set()

    async def asks(self, question: Callable[..., T], *arguments: Any, **named: Any) -> T:
        """What the records say, without keeping others waiting; `NoAnswer` where they cannot be reached."""
        try:
            return await run_in_threadpool(question, *arguments, **named)
        except AwayError as away:
            raise NoAnswer(away.problems) from away

    async def work(self, key: str, job: str, *arguments: Any) -> Any:
        """What a worker makes, told meanwhile how far it is; None where it was given up."""
        loop = asyncio.get_running_loop()

        def told(percent: int) -> None:
            loop.call_soon_threadsafe(self._far, key, percent)

        task = asyncio.ensure_future(self.workers.ask(job, *arguments, told=told))
        self._working.setdefault(key, set()).add(task)
        try:
            return await task
        except asyncio.CancelledError:
            current = asyncio.current_task()
            if current is not None and current.cancelling():
                raise
            return None
        finally:
            self._working.get(key, set()).discard(task)
            self.far.pop(key, None)

    def _far(self, key: str, percent: int) -> None:
        """How far something is, for whoever looks."""
        self.far[key] = percent
        self.live.tell(f"working:{key}")

    def give_up(self, key: str) -> None:
        """Stop what is being made under that key."""
        for task in self._working.pop(key, set()):
            task.cancel()

    def later(self, work: Any) -> asyncio.Task[Any]:
        """Do something beside the pages."""
        task: asyncio.Task[Any] = asyncio.ensure_future(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
        return task

    def end(self) -> None:
        """End all of it."""
        for task in self._tasks:
            task.cancel()
        self.workers.end()
