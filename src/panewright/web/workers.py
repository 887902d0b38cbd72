"""Processes beside the server that design and set type, so that the pages go on meanwhile.

A worker is asked for one thing at a time. What is cancelled is ended with its process, and another begins.
When the server goes, however it goes, its workers read the end of their line and go too.
"""

from __future__ import annotations

import asyncio
import multiprocessing
import os
import resource
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

from panewright.desk.progress import heard_by
from panewright.errors import PanewrightError

MOST_MEMORY, MOST_SECONDS = 1_500_000_000, 15
_AT = "at"  #: before how many percent are done
Told = Callable[[int], None] | None
_CONTEXT = multiprocessing.get_context("spawn")


class WorkerGone(Exception):
    """The process ended before it answered."""


class Worker:
    """One process and the line to it."""

    def __init__(self, limited: bool = False) -> None:
        self._line, there = _CONTEXT.Pipe()
        self._process: BaseProcess = _CONTEXT.Process(target=_work, args=(there, limited), daemon=True)
        self._process.start()
        there.close()

    def ask(self, job: str, arguments: tuple[Any, ...], told: Told = None) -> Any:
        """What the job gives; waits for it, and tells meanwhile how far it is."""
        try:
            self._line.send((job, arguments))
            fine, answer = self._line.recv()
            while fine == _AT:
                if told:
                    told(answer)
                fine, answer = self._line.recv()
        except (EOFError, OSError) as gone:
            raise WorkerGone from gone
        if not fine:
            raise answer
        return answer

    def end(self) -> None:
        """End the process at once."""
        with suppress(OSError):
            self._process.kill()
        self._process.join(2.0)
        self._line.close()


class Workers:
    """A few workers and the queue before them; they start when first needed."""

    def __init__(self, count: int = 2, start: Callable[[], Worker] = Worker) -> None:
        self._free: asyncio.LifoQueue[Worker | None] = asyncio.LifoQueue()
        self._start = start
        for _ in range(count):
            self._free.put_nowait(None)
        self._busy: set[Worker] = set()
        self._idle: set[Worker] = set()

    async def warm(self) -> None:
        """Start a worker before anybody waits for it."""
        with suppress(WorkerGone):
            await self.ask("ready")

    async def ask(self, job: str, *arguments: Any, told: Told = None) -> Any:
        """What the job gives; a cancelled one takes its process with it."""
        worker = await self._free.get()
        try:
            if worker is None:
                worker = await asyncio.to_thread(self._start)
            self._idle.discard(worker)
            self._busy.add(worker)
            answer = await asyncio.to_thread(worker.ask, job, arguments, told)
        except PanewrightError:
            self._back(worker)
            raise
        except BaseException:
            if worker is not None:
                self._busy.discard(worker)
                worker.end()
            self._free.put_nowait(None)
            raise
        self._back(worker)
        return answer

    def end(self) -> None:
        """End all of them."""
        for worker in (*self._busy, *self._idle):
            worker.end()

    def _back(self, worker: Worker | None) -> None:
        if worker is not None:
            self._busy.discard(worker)
            self._idle.add(worker)
        self._free.put_nowait(worker)


def one_reader() -> Workers:
    """One worker for bytes that came from a page: bounded in memory and time, and it writes no file."""
    return Workers(1, lambda: Worker(limited=True))


def _limit() -> None:
    """What a reader may take."""
    for what, most in (
        (resource.RLIMIT_AS, MOST_MEMORY),
        (resource.RLIMIT_CPU, MOST_SECONDS),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
    ):
        resource.setrlimit(what, (most, most))


def _work(line: Connection, limited: bool) -> None:
    """A worker's whole life."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if limited:
        _limit()
        sys.dont_write_bytecode = True
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    heard_by(lambda percent: line.send((_AT, percent)))
    while True:
        try:
            job, arguments = line.recv()
        except (EOFError, OSError):
            return
        try:
            answer: tuple[bool, Any] = True, done(job, arguments)
        except Exception as mistake:
            answer = False, mistake
        try:
            line.send(answer)
        except (BrokenPipeError, OSError):
            return


def done(job: str, arguments: tuple[Any, ...]) -> Any:
    """The job of that name, done here."""
    from panewright import desk
    from panewright.desk import jobs

    if job == "ready":
        return desk.new_order()
    return getattr(jobs, job)(*arguments)
