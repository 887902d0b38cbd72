"""Designs by the text that they came of, made by a worker and kept while somebody looks at them."""

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

_KEPT = 24


class Reckoner:
    """Designs by the text that they came of; each text is reckoned once."""

    def __init__(self, workers: Workers) -> None:
        self._workers = workers
        self._known: OrderedDict[str, Reckoned] = OrderedDict()
        self._made: OrderedDict[str, Made] = OrderedDict()
        self._going: dict[str, asyncio.Task[Reckoned]] = {}
        self._newest: dict[str, str] = {}
        self.last: dict[str, Reckoned] = {}  #: by order: the last design that could be made
        self.to_mend: dict[str, int] = {}  #: by order: mistakes in the text reckoned last

    def forget(self) -> None:
        """Let go of all that is known."""
        self._known.clear()
        self._made.clear()
        self.last.clear()
        self.to_mend.clear()

    def known(self, text: str) -> Reckoned | None:
        """What is known already."""
        return self._known.get(digest_of(text))

    def shown(self, text: str) -> Shown | Refused | None:
        """What a page shows of a text's design."""
        known = self.known(text)
        return known.seen if known else None

    async def of(self, number: str, text: str) -> Reckoned | None:
        """The design of a text; None where a newer text of that order was asked for meanwhile."""
        digest = digest_of(text)
        self._newest[number] = digest
        if digest not in self._known and digest not in self._going:
            self._going[digest] = asyncio.ensure_future(self._reckon(number, digest, text))
            self._going[digest].add_done_callback(_told)
        going = self._going.get(digest)
        if going is not None:
            await asyncio.wait({going})
            if going.cancelled() or (going.done() and going.exception() is not None):
                return None
        return self._known.get(digest)

    def stop(self, number: str) -> None:
        """Give up what is being reckoned for an order."""
        task = self._going.get(self._newest.get(number, ""))
        if task is not None:
            task.cancel()

    async def made(self, number: str, text: str) -> Made | None:
        """The design itself; None where there is none."""
        reckoned = await self.of(number, text)
        if reckoned is None or not reckoned.kept:
            return None
        digest = digest_of(text)
        if digest not in self._made:
            self._made[digest] = await run_in_threadpool(_unpack, reckoned.kept)
            trim(self._made)
        return self._made[digest]

    async def _reckon(self, number: str, digest: str, text: str) -> Reckoned:
        try:
            await asyncio.sleep(0)
            reckoned: Reckoned = await self._workers.ask("reckon", text, f"{number}.toml")
            self._known[digest] = reckoned
            trim(self._known)
            self.to_mend[number] = len(getattr(reckoned.seen, "problems", ()))
            if reckoned.kept:
                self.last[number] = reckoned
            return reckoned
        finally:
            self._going.pop(digest, None)


def _told(task: asyncio.Task[Reckoned]) -> None:
    """What went wrong is asked for by whoever waits; nobody may, as when the shop closes."""
    if not task.cancelled():
        task.exception()


def trim(kept: OrderedDict[Any, Any]) -> None:
    """Let go of what was asked for longest ago."""
    while len(kept) > _KEPT:
        kept.popitem(last=False)


def digest_of(text: str) -> str:
    """What a text is known by."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _unpack(kept: bytes) -> Made:
    from panewright.desk.jobs import made_of

    return made_of(kept)
