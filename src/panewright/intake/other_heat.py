"""A heat that is another thing's: the light sensor's own, the load's, not the panel's or the cell's.

A reference cell stands beside the panel in a case of its own, and mostly is cooler than the cells behind
glass: ten kelvins are 4 % of a panel's power (common practice, no source). So its heat is never taken for
theirs: it is left unread, and a person is asked.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class _Words:
    """How a heading says that it is a heat, and whose."""

    heat: tuple[str, ...]
    heat_short: frozenset[str]
    not_heat: frozenset[str]
    begins: tuple[tuple[str, str], ...]  # how a word begins, and whose heat that is
    short: dict[str, str]


def whose_heat(words: tuple[str, ...], kind: str) -> str:
    """Of which other thing a heading says the heat; '' where it says none, or is no heat.

    `kind` is that of the unit beside it, '' where none stands.

    >>> whose_heat(("ref", "cell", "temp"), ""), whose_heat(("ref", "cell"), "light"), whose_heat(("t",), "")
    ("the light's sensor", '', '')
    """
    book = _words()
    said = kind == "heat" or (not kind and any(_is_heat(word, book) for word in words))
    if not said:
        return ""
    told = [book.short.get(word) or _begun(word, book) for word in words]
    return next((whose for whose in told if whose), "")


def asked(whose: str) -> str:
    """What a person is asked of it."""
    own = "Is it the panel's or the cell's own after all? Then say that this column is."
    return f"The heat of {whose} is not theirs: left unread. {own}"


def _is_heat(word: str, book: _Words) -> bool:
    """A word that holds one of heat: 'referenzzellentemperatur' too."""
    return word in book.heat_short or (word not in book.not_heat and any(each in word for each in book.heat))


def _begun(word: str, book: _Words) -> str:
    return next((whose for begin, whose in book.begins if word.startswith(begin)), "")


@cache
def _words() -> _Words:
    own = tomllib.loads(files("panewright.intake").joinpath("names.toml").read_text("utf-8"))["other_heat"]
    begins = ((word, whose) for whose, words in own["whose"].items() for word in words)
    short = {word: whose for whose, words in own["whose_short"].items() for word in words}
    whole, unlike = frozenset(own["heat_short"]), frozenset(own["not_heat"])
    return _Words(tuple(own["heat"]), whole, unlike, tuple(begins), short)
