"""What all pages of one running server share: the shop, the workers, who listens, and what was reckoned."""

from __future__ import annotations

import asyncio
import threading
from collections import OrderedDict
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from starlette.concurrency import run_in_threadpool

from panewright.errors import PanewrightError, Problem, RecordError
from panewright.web.doing import Doing, NoAnswer
from panewright.web.keys import Keys
from panewright.web.planned import Planned
from panewright.web.reckoner import Reckoner, digest, trim
from panewright.web.scales import Scales
from panewright.web.session import Sessions
from panewright.web.workers import WorkerGone, Workers, one_reader
from panewright.web.works import Works

if TYPE_CHECKING:
    from panewright.circuit.line import LineOf
    from panewright.desk import Made
    from panewright.desk.orders.tried import Tried
    from panewright.desk.records.place import Place
    from panewright.desk.shop.shop import Shop
    from panewright.price.actuals import Actuals

T = TypeVar("T")
_LEAFED = 3  #: documents whose pages are kept
_LOOKS_S, _FIRST_LOOK_S = 0.5, 0.8
_MOST_READING_S = 20.0


class Floor(Doing):
    """The running shop."""

    def __init__(
        self,
        folder: Path,
        records: str = "",
        *,
        workers: Workers | None = None,
        readers: Callable[[], Workers] = one_reader,
        quick: bool = True,
    ) -> None:
        super().__init__(folder, workers or Workers())
        self._records, self._quick = records, quick
        self.keys = Keys(folder / "keys")
        self.sessions = Sessions(self.keys.session())
        self.reckoner = Reckoner(self.workers)
        self.planned = Planned()
        self.faces: dict[str, bytes] = {}
        self.looked_at: set[str] = set()
        self.lines: LineOf | None = None  #: who solves panels quickly, once loaded
        self.tried: OrderedDict[tuple[str, str], Tried] = OrderedDict()
        self.paged: OrderedDict[str, tuple[bytes, ...]] = OrderedDict()  #: documents page by page
        self._own_read = asyncio.Lock()
        self._readers = readers
        self._reading = asyncio.Semaphore(2)
        self._shop: Shop | None = None
        self._opening = threading.Lock()
        self._told = 0  #: the last thing written that pages were told of
        self._marked = False
        self.works = Works(self, self.renewed, lambda: self.place)
        self.scales = Scales(self)

    @property
    def shop(self) -> Shop:
        """The records, opened when first asked for."""
        with self._opening:  # the first page and the watch may ask at once
            if self._shop is None:
                from panewright.desk.shop.shop import Shop

                self._shop = Shop.open(self.folder, self._records)
            return self._shop

    @property
    def place(self) -> Place:
        """The shop's folder and its records, as another process is told of them."""
        from panewright.desk.records.place import place

        return place(self.folder, self._records)

    async def own(self) -> Actuals:
        """The shop's own pace and breakage; read again only when something was written that may move them."""
        async with self._own_read:  # many pages ask at once
            self.reckoner.own = await self.asks(lambda: self.shop.own.now())
        return self.reckoner.own

    async def face(self, weight: str) -> bytes:
        """The face in one weight; cut once by a worker, then kept in the folder."""
        path = self.folder / "cache" / f"{weight}.woff"
        if path.exists():
            return path.read_bytes()
        cut: bytes = await self.workers.ask("face", weight)
        path.parent.mkdir(mode=0o700, exist_ok=True)
        fresh = path.with_suffix(".new")
        fresh.write_bytes(cut)
        fresh.replace(path)  # whole or not at all: half a face would be shown for ever
        return cut

    async def pages(self, key: str, text: str, file: str, name: str) -> tuple[bytes, ...] | None:
        """Every page of a document as a picture, kept while it is leafed through; None where given up."""
        known = self._paper(text, name)
        if known not in self.paged:
            made = await self.work(key, "pages", text, file, name, self.reckoner.own)
            if made is None:
                return None
            self.paged[known] = made
            while len(self.paged) > _LEAFED:
                self.paged.popitem(last=False)
        return self.paged[known]

    def paged_now(self, text: str, name: str) -> tuple[bytes, ...]:
        """The pages that are there already."""
        return self.paged.get(self._paper(text, name), ())

    def _paper(self, text: str, name: str) -> str:
        """A document by its order's text, its name, and the pace that its hours are told at."""
        return digest(f"{name}\0{text}\0{self.reckoner.own!r}")

    async def bounded(self, job: str, data: bytes | str, *more: str) -> Any:
        """What a process of its own, with limits, makes of bytes from a page, or of the file they lie in."""
        async with self._reading:
            readers = self._readers()
            try:
                return await asyncio.wait_for(readers.ask(job, data, *more), _MOST_READING_S)
            except (WorkerGone, TimeoutError, MemoryError, RecursionError, OSError) as gone:  # at its limits
                cure = "Send a smaller or a plainer one."
                raise RecordError([Problem("This file cannot be read.", cure, key="file")]) from gone
            finally:
                readers.end()

    def begin(self) -> None:
        """What goes on in the background, and what was cut off when it went on last."""
        self.works.recall()
        self.later(self._watch())
        self.later(self._warm())

    def end(self) -> None:
        """Close the shop."""
        super().end()
        if self._shop is not None:
            self._shop.close()

    async def _warm(self) -> None:
        """Load what the first design needs, once the first page is out."""
        await asyncio.sleep(1.0)
        await self.workers.warm()
        await self.own()
        await run_in_threadpool(_load)

    def quicken(self) -> None:
        """Load what answers taps quickly, once somebody looks at a panel."""
        if self._quick:
            self._quick = False
            self.later(self._load_lines())

    async def _load_lines(self) -> None:
        self.lines = await run_in_threadpool(_quick_lines)

    def try_out(self, made: Made, text: str, marks: Mapping[int, str]) -> Tried:
        """What comes of cells shaded, cracked and swapped; the same is not reckoned twice."""
        from panewright.desk.orders.tried import tried

        key = text, repr(sorted(marks.items()))
        if key not in self.tried:
            self.tried[key] = tried(made, marks, self.lines)
            trim(self.tried)
        return self.tried[key]

    async def _watch(self) -> None:
        """What other programs write to the records is told too."""
        await asyncio.sleep(_FIRST_LOOK_S)
        while True:
            with suppress(
                PanewrightError, NoAnswer
            ):  # records out of reach: a page tells that; here it is tried again
                await self.marked()
                await self.hear_others()
            await asyncio.sleep(_LOOKS_S)

    async def hear_others(self) -> None:
        """What was written since anybody looked, told to every page."""
        for change in await self.asks(self.shop.changes, self._told):
            self._told = change.number
            self.live.tell(f"{change.kind}:{change.key}")
        if await self.asks(self.shop.newest_change) < self._told:  # a command put a backup back
            await self.renewed()

    async def marked(self) -> None:
        """See which records stand, before the first page is greeted."""
        from panewright.desk.records.kept import mark_now

        if not self._marked:
            self.live.mark = await self.asks(lambda: mark_now(self.shop.ledger))
            self._told = await self.asks(self.shop.newest_change)
            self._marked = True

    async def renewed(self) -> bool:
        """Whether other records stand now than before: then nothing that was reckoned of those is shown."""
        from panewright.desk.records.kept import mark_now

        await self.marked()
        mark = await self.asks(mark_now, self.shop.ledger)
        if mark == self.live.mark:
            return False
        self._told = await self.asks(self.shop.newest_change)
        self.forget()
        self.live.greet(mark)
        return True

    def forget(self) -> None:
        """Let go of what was reckoned of the records."""
        self.reckoner.forget()
        self.planned.forget()
        self.shop.own.forget()
        self.looked_at.clear()
        self.tried.clear()
        self.paged.clear()
        self.scales.forget()


def _load() -> None:
    """The rooms that a first tap needs."""
    from panewright import desk
    from panewright.desk.orders import form, tried

    form.form(desk.new_order())
    tried.state_of("shade-50")


def _quick_lines() -> LineOf:
    from panewright import desk

    return desk.quick_lines()
