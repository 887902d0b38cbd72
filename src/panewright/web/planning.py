"""The one cutting plan that is being made just now: a worker makes it, then it is kept.

What takes a moment only is answered with the plan itself, so that pages without a script do as well.
"""

from __future__ import annotations

import asyncio
import sys
from typing import TYPE_CHECKING

from panewright.errors import PanewrightError, Problem
from panewright.web.workers import WorkerGone

if TYPE_CHECKING:
    from panewright.desk.shop.who import Who
    from panewright.desk.stores.cutting import Job
    from panewright.web.floor import Floor

KEY = "cutting"
A_MOMENT_S = 0.9
BUSY = Problem("Another plan is being made.", "Wait until it is done, or stop it.")
_GONE = Problem("The work ended before the plan was done.", "Make it again; nothing was changed.")
_STOPPED = Problem("It was stopped.", "No plan was made.")


class Planning:
    """What is being planned, and what came of the last."""

    def __init__(self, floor: Floor) -> None:
        self._floor = floor
        self._task: asyncio.Task[None] | None = None
        self._begun = ""
        self.number = 0  #: of the plan made last
        self.problems: tuple[Problem, ...] = ()

    @property
    def doing(self) -> bool:
        """Whether a plan is being made."""
        return self._task is not None and not self._task.done()

    @property
    def far(self) -> int:
        """How far it is, in per cent."""
        return self._floor.far.get(KEY, 0)

    async def do(self, told: Job, who: Who) -> bool:
        """Begin a plan, and wait a moment for it; False where another is being made.

        A tap that is sent twice, because its answer was lost, begins it once.
        """
        if who.tap == self._begun:
            return True
        if self.doing:
            return False
        self._begun, self.number, self.problems = who.tap, 0, ()
        self._task = self._floor.later(self._done(told, who))
        await asyncio.wait({self._task}, timeout=A_MOMENT_S)
        return True

    async def wait(self) -> None:
        """Until it is done, however it ends."""
        if self._task is not None:
            await asyncio.wait({self._task})

    def stop(self) -> None:
        """Give it up."""
        self._floor.give_up(KEY)

    async def _done(self, told: Job, who: Who) -> None:
        from panewright.desk.stores.cutting import keep

        floor = self._floor
        try:
            plan = await floor.work(KEY, "cut_plan", told)
            if plan is None:
                self.problems = (_STOPPED,)
            else:
                self.number = await floor.asks(keep, floor.shop.ledger, plan, who)
        except PanewrightError as mistake:
            self.problems = mistake.problems
        except (WorkerGone, OSError, ValueError, RuntimeError) as ours:
            print(f"a cutting plan broke: {type(ours).__name__}", file=sys.stderr, flush=True)
            self.problems = (_GONE,)
        floor.live.tell("cut")
