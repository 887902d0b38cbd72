"""The key of one line to read, and what of it is read."""

from __future__ import annotations


def key_of(line_key: str) -> str:
    """What is read, without the place.

    >>> key_of("string-column.voc-3"), key_of("cut-rails.length-1-2"), key_of("set-pane.glue-line")
    ('string-column.voc', 'cut-rails.length-1', 'set-pane.glue-line')
    """
    stem, _, number = line_key.rpartition("-")
    if not number.isdecimal() or (line_key.startswith("cut-rails.length-") and line_key.count("-") == 2):
        return line_key
    return stem
