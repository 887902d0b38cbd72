"""The one piece of work that keeps the records safe just now, how far it is, and what came of the last ones.

A worker does it; every screen sees it. What takes a moment only is answered with what came of it, so that
pages without a script are as good as those with one.
"""

from __future__ import annotations

import asyncio
import sys
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from panewright.errors import PanewrightError, Problem
from panewright.web.workers import WorkerGone

if TYPE_CHECKING:
    from panewright.web.floor import Floor

KEY = "records"
A_MOMENT_S = 0.9
BUSY = Problem("Something else is being done with the records.", "Wait until it is done, or stop it.")
_STOPPED = Problem("It was stopped.", "Nothing was changed.")
_LATE = Problem(
    "The backup was put back before it could be stopped.", "What stood before is the newest backup."
)
_GONE = Problem("The work ended before it was done.", "Begin it again; nothing was half done.")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one piece of work."""

    at: datetime
    came: Any = None  #: what the job gave; None where it was stopped or went wrong
    problems: tuple[Problem, ...] = ()


class Keeping:
    """What is being done with the records as a whole: one thing at a time."""

    def __init__(self, floor: Floor) -> None:
        self._floor = floor
        self.doing = ""
        self.outcomes: dict[str, Outcome] = {}
        self._begun: str = ""

    @property
    def far(self) -> int:
        """How far it is, in per cent."""
        return self._floor.far.get(KEY, 0)

    async def do(self, what: str, job: str, *arguments: Any, tap: str = "") -> bool:
        """Begin it, and wait a moment for its end; False where something else is being done.

        A tap that is sent twice, because its answer was lost, begins it once.
        """
        if tap and tap == self._begun:
            return True
        if self.doing:
            return False
        self.doing, self._begun = what, tap
        self.outcomes.pop(what, None)
        self._floor.live.tell(KEY)
        await asyncio.wait({self._floor.later(self._done(what, job, arguments))}, timeout=A_MOMENT_S)
        return True

    def stop(self) -> None:
        """Give it up."""
        self._floor.give_up(KEY)

    async def _done(self, what: str, job: str, arguments: tuple[Any, ...]) -> None:
        from panewright.desk.records.keeping import tidy

        outcome = await self._came(job, arguments)
        try:
            if await self._floor.renewed():
                self.outcomes.clear()  # they told of other records
                outcome = outcome if outcome.came is not None else Outcome(outcome.at, problems=(_LATE,))
            await self._floor.asks(tidy, self._floor.place)
        except PanewrightError as mistake:
            outcome = Outcome(outcome.at, problems=mistake.problems)
        finally:
            self.outcomes[what], self.doing = outcome, ""
            self._floor.live.tell(KEY)

    async def _came(self, job: str, arguments: tuple[Any, ...]) -> Outcome:
        problems: tuple[Problem, ...] = (_GONE,)
        try:
            came = await self._floor.work(KEY, "records", job, *arguments)
            return Outcome(datetime.now(UTC), came, () if came is not None else (_STOPPED,))
        except PanewrightError as mistake:
            problems = mistake.problems
        except (WorkerGone, OSError, ValueError, RuntimeError) as ours:
            print(f"{job} broke: {type(ours).__name__}", file=sys.stderr, flush=True)
        return Outcome(datetime.now(UTC), problems=problems)
