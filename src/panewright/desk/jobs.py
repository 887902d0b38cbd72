"""Work that takes a while, as functions that another process can be asked for by name."""

from __future__ import annotations

import pickle
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.desk import Made
from panewright.desk.shown import Refused, Shown, shown
from panewright.errors import PanewrightError


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What came of an order's text."""

    seen: Shown | Refused
    kept: bytes = b""  #: the design itself, to be taken out again by `made_of`


def reckon(text: str, file: str) -> Reckoned:
    """An order's text designed, or every mistake in it."""
    try:
        made = _made(text, file)
    except PanewrightError as mistake:
        return Reckoned(Refused(text, mistake.problems))
    return Reckoned(shown(made), pickle.dumps(made, protocol=5))


def paper(text: str, file: str, name: str) -> bytes:
    """One document of an order."""
    from panewright import desk

    return next(each for each in desk.papers(_made(text, file)) if each.name == name).content()


def order_text(data: bytes) -> str:
    """The text of an order file, `OrderError` where it is none."""
    from panewright.order.source import decoded, read_source

    return read_source(decoded(data, "the file"), "the file").text


def face(weight: Literal["regular", "strong"]) -> bytes:
    """The face as a web font."""
    from panewright.paper.face import web_font

    return web_font(weight)


def made_of(kept: bytes) -> Made:
    """The design that a process of our own has packed."""
    made = pickle.loads(kept)
    assert isinstance(made, Made)
    return made


@lru_cache(maxsize=8)
def _made(text: str, file: str) -> Made:
    from panewright import desk

    return desk.design(text.encode(), file)
