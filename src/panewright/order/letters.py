"""What an order says in letters that its papers cannot print: told, never left to be found as boxes."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

from panewright.drawing.letters import numbered, unprinted

_MOST_SHOWN = 6


def boxes(text: str) -> tuple[tuple[str, str], ...]:
    """Every key of an order's text whose words hold letters that print as boxes, with those letters.

    >>> boxes('[order]\\nname = "\u7530\u4e2d"\\nmaker = "Łódź"')
    (('order.name', '\u7530\u4e2d'),)
    """
    return tuple(
        (key, missing) for key, words in _texts("", tomllib.loads(text)) if (missing := unprinted(words))
    )


def _texts(place: str, value: object) -> Iterator[tuple[str, str]]:
    if isinstance(value, str):
        yield place, value
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield from _texts(f"{place}.{name}" if place else name, inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _texts(place, inner)


def boxes_told(text: str) -> str:
    """In two sentences, nothing where all prints. Letters stand by their number: none prints."""
    found = boxes(text)
    if not found:
        return ""
    said = ", ".join(f"{key} ({numbered(missing)})" for key, missing in found[:_MOST_SHOWN])
    more = f" and {len(found) - _MOST_SHOWN} keys more" if len(found) > _MOST_SHOWN else ""
    return (
        f"The papers' face has no letters for {said}{more}: boxes stand there in print. Write them in Latin, "
        "Greek or Cyrillic letters."
    )
