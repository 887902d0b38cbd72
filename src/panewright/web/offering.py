"""The one price list that is being reckoned just now, and the last that was: kept while the server runs."""

from __future__ import annotations

import asyncio
import sys
from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem
from panewright.web.workers import WorkerGone

if TYPE_CHECKING:
    from panewright.desk.ranges import Priced
    from panewright.web.floor import Floor

KEY = "catalogue"
A_MOMENT_S = 0.9
BUSY = Problem("Another catalogue is being reckoned.", "Wait until it is done, or stop it.")
_GONE = Problem("The work ended before it was done.", "Begin it again.")
_STOPPED = Problem("It was stopped.", "The range is kept below; reckon it again when you like.")


class Offering:
    """What is being reckoned, its range, and what came of it."""

    def __init__(self, floor: Floor) -> None:
        self._floor = floor
        self._task: asyncio.Task[None] | None = None
        self._begun = ""
        self.text = ""  #: of the range that was reckoned, or is being
        self.found: Priced | None = None
        self.problems: tuple[Problem, ...] = ()

    @property
    def doing(self) -> bool:
        """Whether a price list is being reckoned."""
        return self._task is not None and not self._task.done()

    @property
    def far(self) -> int:
        """How far it is, in per cent."""
        return self._floor.far.get(KEY, 0)

    async def do(self, text: str, tap: str) -> bool:
        """Begin, and wait a moment for the end; False where another is being reckoned."""
        if tap == self._begun:
            return True
        if self.doing:
            return False
        self._begun, self.text, self.found, self.problems = tap, text, None, ()
        self._task = self._floor.later(self._done(text))
        await asyncio.wait({self._task}, timeout=A_MOMENT_S)
        return True

    async def stop(self) -> None:
        """Give it up."""
        self._floor.give_up(KEY)
        if self._task is not None:
            await asyncio.wait({self._task})

    async def _done(self, text: str) -> None:
        try:
            self.found = await self._floor.work(KEY, "price_list", text, await self._floor.own())
            self.problems = () if self.found else (_STOPPED,)
        except PanewrightError as mistake:
            self.problems = mistake.problems
        except (WorkerGone, OSError, ValueError, RuntimeError) as ours:
            print(f"a catalogue broke: {type(ours).__name__}", file=sys.stderr, flush=True)
            self.problems = (_GONE,)
        self._floor.live.tell("catalogue")
