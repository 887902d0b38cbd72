"""The title block: what a drawing says of itself, so that a sheet that has left its folder still tells.

Two rows of named places. Words too long for their place take two lines, then lose their end. Beside the
tolerance stands the sign of the projection: third angle, each view on the side from which it is seen
(ISO 5456-2, recalled).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from panewright.drawing.bounds import bounds
from panewright.drawing.drawing import Arc, Drawing, Item, Path, Point, Text
from panewright.drawing.lettering import text_width_mm

_WIDE = 80.0  # of the block, in heights of its letters, at least
_LABEL = 0.68  # height of a place's name, of the letters
_LINE, _AIR = 1.2, 0.45  # from line to line, and round the words, in letters
_MOST_LINES = 3
_SIGN_SHARE = 0.07


@dataclass(frozen=True, slots=True)
class Title:
    """What stands in a drawing's title block; every place in words."""

    name: str
    order: str
    revision: str
    material: str
    scale: str
    units: str
    side: str  #: from where it is seen
    tolerance: str
    mark: str = ""  #: such as NOT PROVEN


Place = tuple[str, str, float]  # name, words, share of the width


def title_block(title: Title, left_top: Point, wide_mm: float, text_mm: float) -> tuple[Item, ...]:
    """The block as lines and words, hung by its upper left corner. [mm]"""
    order = f"{title.order} — {title.mark}" if title.mark else title.order
    first: tuple[Place, ...] = (
        ("drawing", title.name, 0.28),
        ("order", order, 0.33),
        ("revision", title.revision, 0.13),
        ("scale", title.scale, 0.13),
        ("units", title.units, 0.13),
    )
    second: tuple[Place, ...] = (
        ("material", title.material, 0.28),
        ("seen", title.side or "as each view says", 0.20),
        ("tolerance", title.tolerance, 0.52 - _SIGN_SHARE),
    )
    left, top = left_top
    items = list(_row(first, left_top, wide_mm, text_mm))
    middle = top - _high(first, wide_mm, text_mm)
    items += _row(second, (left, middle), wide_mm, text_mm)
    low = middle - _high(second, wide_mm, text_mm)
    items.append(Path(((left, low), (left + wide_mm, low)), "text"))
    sign = left + wide_mm * (1 - _SIGN_SHARE / 2)
    return (*items, *_third_angle((sign, (middle + low) / 2), 0.8 * text_mm))


def with_title(drawing: Drawing, title: Title, system: str = "metric", text_mm: float = 0.0) -> Drawing:
    """The drawing with its block below; letters suit the drawing's width unless told. [mm]"""
    around = bounds(drawing, system)
    text = text_mm or min(12.0, max(2.5, around.width_mm / _WIDE))
    wide = max(_WIDE * text, min(around.width_mm, 1.5 * _WIDE * text))
    return drawing.with_items(title_block(title, (around.left, around.bottom - 3.0 * text), wide, text))


def _row(places: Sequence[Place], left_top: Point, wide: float, text: float) -> Iterator[Item]:
    """A line on top, then the places side by side with a line between any two."""
    left, top = left_top
    high = _high(places, wide, text)
    yield Path(((left, top), (left + wide, top)), "text")
    for number, (name, words, share) in enumerate(places):
        if number:
            yield Path(((left, top), (left, top - high)), "text")
        x, y = left + _AIR * text, top - (_AIR + _LABEL) * text
        yield Text((x, y), name, _LABEL * text)
        for line in _lines(words, share * wide, text):
            y -= _LINE * text
            yield Text((x, y), line, text, bold=number == 0)
        left += share * wide


def _high(places: Sequence[Place], wide: float, text: float) -> float:
    most = max(len(_lines(words, share * wide, text)) for _, words, share in places)
    return (_AIR + _LABEL + _LINE * most + _AIR) * text


def _lines(words: str, room: float, text: float) -> tuple[str, ...]:
    """The words in as many lines as they need, three at most; what is left has dots in its place."""
    wide = room - 2 * _AIR * text
    lines = wrapped(words or "–", wide, text)
    if len(lines) <= _MOST_LINES:
        return lines
    last = lines[_MOST_LINES - 1]
    while last and text_width_mm(last + "…", text, bold=True) > wide:
        last = last[:-1]
    return (*lines[: _MOST_LINES - 1], last.rstrip() + "…")


def wrapped(words: str, wide_mm: float, text_mm: float) -> tuple[str, ...]:
    """Words in lines no longer than that, broken between words, or within one that is longer. [mm]

    >>> wrapped("saw and file", 10.0, 2.0), wrapped("wwwwwwww", 10.0, 2.0)
    (('saw and', 'file'), ('wwwwww', 'ww'))
    """
    lines: list[str] = []
    for word in filter(None, words.split(" ")):  # never between a figure and its unit
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and text_width_mm(joined, text_mm, bold=True) <= wide_mm:
            lines[-1] = joined
        else:
            lines += _pieces(word, wide_mm, text_mm)
    return tuple(lines)


def _pieces(word: str, wide: float, text: float) -> Iterator[str]:
    """A word, cut where it is longer than a line."""
    piece = ""
    for letter in word:
        if piece and text_width_mm(piece + letter, text, bold=True) > wide:
            yield piece
            piece = ""
        piece += letter
    yield piece


def _third_angle(middle: Point, size: float) -> Iterator[Item]:
    """Two rings, and the cone they are the end of, its small end towards them."""
    x, y = middle
    for radius in (0.5 * size, size):
        yield Arc((x - 1.3 * size, y), radius, "text")
    cone = ((x + 0.3 * size, y - 0.5 * size), (x + 2.3 * size, y - size), (x + 2.3 * size, y + size))
    yield Path((*cone, (x + 0.3 * size, y + 0.5 * size)), "text", closed=True)
    yield Path(((x - 2.5 * size, y), (x + 2.6 * size, y)), "centre")
