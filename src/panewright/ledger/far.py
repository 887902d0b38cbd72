"""How far long work on the records is, told to whoever waits for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

T = TypeVar("T")
Told = Callable[[int], None]  #: is given percents, each once, upwards


def nobody(_percent: int) -> None:
    """Where nobody waits."""


def part(told: Told, first: int, last: int) -> Told:
    """The same ear for a part of the work.

    >>> part(print, 40, 60)(50)
    50
    """
    return lambda percent: told(first + (last - first) * percent // 100)


def along(things: Sequence[T], told: Told) -> Iterator[T]:
    """The things one by one, told as they go.

    >>> list(along("abc", print))
    0
    33
    66
    100
    ['a', 'b', 'c']
    """
    before = -1
    for n, each in enumerate(things):
        if (now := 100 * n // len(things)) != before:
            told(now)
            before = now
        yield each
    told(100)
