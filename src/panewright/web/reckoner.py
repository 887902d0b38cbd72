"""Designs by the text that they came of: each is made once, and priced anew as the shop's pace moves."""

from __future__ import annotations

import asyncio
import hashlib
from collections import OrderedDict
from typing import TYPE_CHECKING, Any

from starlette.concurrency import run_in_threadpool

from panewright.web.workers import Workers

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.jobs import Reckoned
    from panewright.desk.orders.shown import Refused, Shown
    from panewright.price.actuals import Actuals

_KEPT = 24


class Reckoner:
    """What is designed, what is being designed, and at whose pace it was priced."""

    def __init__(self, workers: Workers) -> None:
        self._workers = workers
        self._known: OrderedDict[str, Reckoned] = OrderedDict()
        self._made: OrderedDict[str, Made] = OrderedDict()
        self._going: dict[str, asyncio.Task[Reckoned]] = {}
        self._newest: dict[str, str] = {}
        self.own: Actuals = _nobodys()  #: the shop's pace and breakage, as they were read last
        self.last: dict[str, Reckoned] = {}  #: by order: the last design that could be made
        self.to_mend: dict[str, int] = {}  #: by order: mistakes in the text reckoned last

    def forget(self) -> None:
        """Let go of all that is known."""
        self._known.clear()
        self._made.clear()
        self.last.clear()
        self.to_mend.clear()

    def known(self, text: str) -> Reckoned | None:
        """What is known already, at the shop's pace of now."""
        known = self._known.get(digest(text))
        return known if known and self.fresh(known) else None

    def fresh(self, known: Reckoned) -> bool:
        """Whether it is priced at the pace of now; what could not be designed has no price."""
        return not known.kept or known.own == self.own

    def shown(self, text: str) -> Shown | Refused | None:
        """What a page shows of a text's design."""
        known = self._known.get(digest(text))
        return known.seen if known else None

    async def of(self, number: str, text: str) -> Reckoned | None:
        """The design of a text; None where a newer text of that order was asked for meanwhile."""
        key = digest(text)
        self._newest[number] = key
        if self.known(text) is None and key not in self._going:
            self._going[key] = asyncio.ensure_future(self._reckon(number, key, text))
            self._going[key].add_done_callback(_told)
        going = self._going.get(key)
        if going is not None:
            await asyncio.wait({going})
            if going.cancelled() or (going.done() and going.exception() is not None):
                return None
        return self._known.get(key)

    def stop(self, number: str) -> None:
        """Give up what is being reckoned for an order."""
        task = self._going.get(self._newest.get(number, ""))
        if task is not None:
            task.cancel()

    async def made(self, number: str, text: str) -> Made | None:
        """The design itself, at whichever pace it was priced; None where there is none."""
        reckoned = self._known.get(digest(text)) or await self.of(number, text)
        if reckoned is None or not reckoned.kept:
            return None
        key = digest(text)
        if key not in self._made:
            self._made[key] = await run_in_threadpool(_unpack, reckoned.kept)
            trim(self._made)
        return self._made[key]

    async def _reckon(self, number: str, key: str, text: str) -> Reckoned:
        """Designed; or only priced anew, where the design is there."""
        try:
            await asyncio.sleep(0)
            reckoned: Reckoned
            if (before := self._known.get(key)) and before.kept:
                reckoned = await self._workers.ask("reprice", before, self.own)
                self._made.pop(key, None)
            else:
                reckoned = await self._workers.ask("reckon", text, f"{number}.toml", self.own)
            self._known[key] = reckoned
            trim(self._known)
            self.to_mend[number] = len(getattr(reckoned.seen, "problems", ()))
            if reckoned.kept:
                self.last[number] = reckoned
            return reckoned
        finally:
            self._going.pop(key, None)


def trim(kept: OrderedDict[Any, Any]) -> None:
    """Only the newest stay."""
    while len(kept) > _KEPT:
        kept.popitem(last=False)


def digest(text: str) -> str:
    """A text as a short key."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _told(task: asyncio.Task[Reckoned]) -> None:
    """What went wrong is asked for by whoever waits; nobody may, as when the shop closes."""
    if not task.cancelled():
        task.exception()


def _nobodys() -> Actuals:
    """Before anything was read: common practice alone."""
    from panewright.price.actuals import Actuals

    return Actuals()


def _unpack(kept: bytes) -> Made:
    from panewright.desk.jobs import made_of

    return made_of(kept)
