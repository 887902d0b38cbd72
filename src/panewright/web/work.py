"""Long work that a worker does: how far it is, how it is stopped, and what came of it.

Of each kind one piece goes on at a time, and every screen sees it. What takes a moment only is answered with
what came of it, so that pages without a script are as good as those with one. A mark lies in the shop's
folder while the work goes on: where the server is ended meanwhile, the next one tells that it was cut off.
"""

from __future__ import annotations

import asyncio
import json
import sys
from collections.abc import Awaitable, Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from panewright.errors import PanewrightError, Problem
from panewright.web.doing import Doing

A_MOMENT_S = 0.9
_MOST_NOTED = 200_000


@dataclass(frozen=True, slots=True)
class Words:
    """What is said of one kind of work."""

    busy: Problem
    stopped: Problem
    gone: Problem  #: it broke
    cut_off: Problem  #: the server was ended meanwhile


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one piece of work."""

    at: datetime
    came: Any = None  #: what it gave; None where it was stopped or went wrong
    problems: tuple[Problem, ...] = ()
    note: str = ""  #: what it was begun with


class Work:
    """One kind of long work: what goes on of it now, and what came of the last pieces."""

    def __init__(self, doing: Doing, key: str, words: Words) -> None:
        self._doing = doing
        self.key, self.words = key, words
        self.doing = ""
        self.note = ""  #: what it was begun with last, such as a text
        self.outcomes: dict[str, Outcome] = {}
        self._begun = ""
        self._stopped = False
        self._task: asyncio.Task[None] | None = None

    @property
    def far(self) -> int:
        """How far it is, in per cent."""
        return self._doing.far.get(self.key, 0)

    @property
    def last(self) -> Outcome | None:
        """What came of the last piece; nothing while one goes on."""
        return None if self.doing or not self.outcomes else next(reversed(self.outcomes.values()))

    async def do(
        self, what: str, steps: Callable[[], Awaitable[Any]], *, tap: str = "", note: str = ""
    ) -> bool:
        """Begin it, and wait a moment for its end; False where another piece is being done.

        A tap that is sent twice, because its answer was lost, begins it once.
        """
        if tap and tap == self._begun:
            return True
        if self.doing:
            return False
        self.doing, self.note, self._begun, self._stopped = what, note, tap, False
        self.outcomes.pop(what, None)
        self._doing.live.tell(self.key)
        self._task = self._doing.later(self._done(what, steps))
        await asyncio.wait({self._task}, timeout=A_MOMENT_S)
        return True

    async def ask(self, job: str, *arguments: Any) -> Any:
        """What a worker makes for it; None where it was stopped."""
        return None if self._stopped else await self._doing.work(self.key, job, *arguments)

    async def wait(self) -> None:
        """Until it is done, however it ends."""
        if self._task is not None:
            await asyncio.wait({self._task})

    async def stop(self) -> None:
        """Give it up."""
        self._stopped = True
        self._doing.give_up(self.key)
        await self.wait()

    def recall(self) -> None:
        """What was cut off when the server ended, told as what came of it."""
        with suppress(OSError, ValueError, TypeError, KeyError):
            told = json.loads(self._mark.read_text(encoding="utf-8"))
            at = datetime.fromisoformat(told["at"])
            self.note = str(told["note"])
            self.outcomes[str(told["what"])] = Outcome(at, None, (self.words.cut_off,), self.note)

    @property
    def _mark(self) -> Any:
        return self._doing.folder / "cache" / "working" / f"{self.key}.json"

    async def _done(self, what: str, steps: Callable[[], Awaitable[Any]]) -> None:
        begun, came = datetime.now(UTC), None
        problems: tuple[Problem, ...] = (self.words.gone,)
        try:
            await self._doing.asks(self._note_down, what, begun)
            came = await steps()
            problems = () if came is not None else (self.words.stopped,)
        except PanewrightError as mistake:
            problems = mistake.problems
        except Exception as ours:  # whatever breaks: nothing stays at work for ever
            print(f"{what} broke: {type(ours).__name__}", file=sys.stderr, flush=True)
        await self._ended(what, Outcome(datetime.now(UTC), came, problems, self.note))

    async def _ended(self, what: str, outcome: Outcome) -> None:
        """What came of it stands, and every page is told."""
        self._mark.unlink(missing_ok=True)
        self.outcomes[what], self.doing = outcome, ""
        self._doing.live.tell(self.key)

    def _note_down(self, what: str, begun: datetime) -> None:
        """Leave the mark: whole or not at all."""
        self._mark.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        told = {"what": what, "note": self.note[:_MOST_NOTED], "at": begun.isoformat()}
        fresh = self._mark.with_suffix(".new")
        fresh.write_text(json.dumps(told), encoding="utf-8")
        fresh.replace(self._mark)
