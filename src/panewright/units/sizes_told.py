"""Millimetres within a sentence, told in inches with the millimetres beside."""

from __future__ import annotations

import re

from panewright.units.showing import show

_BEHIND = r"(?= (?:wider|longer|apart|for size and square|above what it stands on)\b)"
_BEFORE = r"(?:(?<=held every )|(?<=round a washer of ))"  # neither is a part's name, such as 4 mm glass
_SIZE = re.compile(rf"(\d+(?:\.\d+)?) mm{_BEHIND}|{_BEFORE}(\d+(?:\.\d+)?) mm")


def sizes_told(words: str, system: str) -> str:
    """What is to be made wider, longer or so far apart, in the order's units; all else as it is.

    >>> sizes_told("Make the cell gap 1.6 mm wider.", "us").replace("\u2009", " ")
    'Make the cell gap 0.0630 in (1.60 mm) wider.'
    >>> sizes_told("Take 4 mm low-iron glass.", "us"), sizes_told("Make it 1.6 mm wider.", "metric")
    ('Take 4 mm low-iron glass.', 'Make it 1.6 mm wider.')
    """
    if system != "us":
        return words
    return _SIZE.sub(lambda found: show(float(found[1] or found[2]), "mm", system), words)
