"""What changes, told to every page that looks: one line of events for each open page."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterator
from contextlib import contextmanager

_MOST_WAITING = 200
_BREATH_S = 15.0


class Live:
    """Who listens, and what they are told."""

    def __init__(self) -> None:
        self._ears: set[asyncio.Queue[str]] = set()
        self.mark = ""  #: a word for the records that stand; another one where others were put in their place

    def tell(self, what: str, tap: str = "") -> None:
        """Tell every page that something, such as 'order:JL-7', has changed, and by which page's tap."""
        what = f"{what}~{tap}" if tap else what
        for ear in self._ears:
            if ear.qsize() < _MOST_WAITING:
                ear.put_nowait(what)

    def greet(self, mark: str) -> None:
        """Other records stand now: every page is greeted anew, and looks at everything afresh."""
        self.mark = mark
        for ear in self._ears:
            ear.put_nowait("")

    @contextmanager
    def ear(self) -> Iterator[asyncio.Queue[str]]:
        """A queue of what changes from now on."""
        ear: asyncio.Queue[str] = asyncio.Queue()
        self._ears.add(ear)
        try:
            yield ear
        finally:
            self._ears.discard(ear)


async def events(live: Live) -> AsyncIterator[str]:
    """The lines of one page's stream; a remark now and then shows that the line is whole."""
    with live.ear() as ear:
        yield f"retry: 1000\n{_hello(live)}"
        while True:
            try:
                what = await asyncio.wait_for(ear.get(), _BREATH_S)
            except TimeoutError:
                yield ": here\n\n"
                continue
            names = {what, *_more(ear)}
            if "" in names:
                yield _hello(live)
            if names == {""}:
                continue
            yield f"event: change\ndata: {' '.join(sorted(names - {''}))}\n\n"


def _hello(live: Live) -> str:
    return f"event: hello\ndata: {live.mark or 'here'}\n\n"


def _more(ear: asyncio.Queue[str]) -> Iterator[str]:
    """What else waits already."""
    while not ear.empty():
        yield ear.get_nowait()
