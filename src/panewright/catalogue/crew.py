"""Processes of this machine that do the parts of a catalogue.

They are begun before it is known what each size is asked for, and open their books while this process opens
its own. Each has one part at a time and asks for the next by giving one back. Whoever called the catalogue
off, or went away without a word, leaves no process behind: a process whose line ends, ends too. Where a
process dies, its part is done here, so that its mistake is seen.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from panewright.catalogue.part import Part
    from panewright.catalogue.row import Asked
    from panewright.catalogue.work import Crew, Done, Stopping

_CONTEXT = multiprocessing.get_context("spawn")
_LOOKS_S = 0.1  # how often somebody is asked whether it is called off
_THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


@contextmanager
def crew(processes: int, parts: int) -> Iterator[Crew]:
    """So many processes for so many parts, none of them idle; of one alone it is this one."""
    if processes < 1:
        raise ValueError(f"somebody has to do the work, got {processes} processes")
    if processes == 1 or multiprocessing.current_process().daemon:  # such a one may start no other
        yield _here
        return
    hands = _started(min(processes, parts))
    try:
        yield lambda parts, asked, stopping: _by_processes(hands, parts, asked, stopping)
    finally:
        for hand in hands:
            hand.end()


def _here(parts: Sequence[Part], asked: Asked, stopping: Stopping) -> Iterator[Done]:
    from panewright.catalogue.work import here

    return here(parts, asked, stopping)


@dataclass(slots=True)
class _Hand:
    """One process, the line to it and what it is doing."""

    process: BaseProcess
    line: Connection
    part: Part | None = field(default=None)

    def hear(self, said: Asked | Part) -> None:
        with suppress(OSError):  # a line that has ended tells so where it is read
            self.line.send(said)

    def begin(self, part: Part) -> None:
        self.part = part
        self.hear(part)

    def end(self) -> None:
        with suppress(OSError):
            self.process.kill()
        self.process.join(5.0)
        self.line.close()


def _by_processes(
    hands: list[_Hand], parts: Sequence[Part], asked: Asked, stopping: Stopping
) -> Iterator[Done]:
    """Parts as they come back."""
    waiting = list(reversed(parts))
    for hand in hands:
        hand.hear(asked)
        if waiting:
            hand.begin(waiting.pop())
    while any(hand.part for hand in hands) and not stopping():
        yield from _heard(hands, waiting, asked)
    yield from _here(waiting[::-1], asked, stopping)  # all of them died


def _heard(hands: list[_Hand], waiting: list[Part], asked: Asked) -> Iterator[Done]:
    """What has come back by now; who gave it gets the next part."""
    busy = {hand.line: hand for hand in hands if hand.part}
    for line in wait(list(busy), _LOOKS_S):
        hand = busy[line]  # type: ignore[index]
        part, hand.part = hand.part, None
        assert part is not None
        try:
            done = hand.line.recv()
            if isinstance(done, Exception):
                raise done
            if waiting:
                hand.begin(waiting.pop())
        except (EOFError, OSError):
            yield from _here((part,), asked, _never)
        else:
            yield done


def _never() -> bool:
    return False


def _started(count: int) -> list[_Hand]:
    hands = []
    with _one_thread_each(), _left_alone():
        for _ in range(count):
            line, there = _CONTEXT.Pipe()
            process = _CONTEXT.Process(target=_work, args=(there,), daemon=True)
            process.start()
            there.close()
            hands.append(_Hand(process, line))
    return hands


@contextmanager
def _one_thread_each() -> Iterator[None]:
    """What a process inherits: more threads would only get in one another's way, and change last digits."""
    before = {name: os.environ.get(name) for name in _THREADS}
    os.environ.update(dict.fromkeys(_THREADS, "1"))
    try:
        yield
    finally:
        for name, value in before.items():
            os.environ.pop(name) if value is None else os.environ.update({name: value})


@contextmanager
def _left_alone() -> Iterator[None]:
    """Ctrl-C does not reach a process that is begun meanwhile, not even while it opens its books."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _work(line: Connection) -> None:
    """A process's whole life; Ctrl-C is the affair of whoever began it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.disable()  # it ends within minutes; among so many small records the looking costs a fifth of the time
    from panewright.catalogue.work import part_done

    with suppress(EOFError, OSError):
        asked = line.recv()
        while True:
            line.send(_answered(part_done, line.recv(), asked))


def _answered(done: Callable[[Part, Asked], Done], part: Part, asked: Asked) -> Done | Exception:
    try:
        return done(part, asked)
    except Exception as mistake:
        return mistake
