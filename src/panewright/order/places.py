"""On which line each key of an order stands.

A small scanner over text that is already known to be TOML: it steps over strings, comments and lists, and
notes the line of every table head and of every key, also inside inline tables.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from panewright.errors import Problem

Places = dict[str, int]  #: dotted key or table to its first line, counted from 1

_TOKEN = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}'
    r"|'''.*?'{3,5}"
    r'|"(?:[^"\\\n]|\\.)*"'
    r"|'[^'\n]*'"
    r"|\#[^\n]*|\n|[\[\]{}=,.]|[^\s\"'\#\[\]{}=,.]+",
    re.DOTALL,
)


FORMERLY = {"carriage": "crate"}  #: sections by the name that they had in older orders


def key_lines(text: str) -> Places:
    """The line of every table and key.

    >>> key_lines('[site]\\nwind = "26 m/s" # wind\\n[parts]\\ntab = { width = "2 mm" }')
    {'site': 1, 'site.wind': 2, 'parts': 3, 'parts.tab': 4, 'parts.tab.width': 4}
    """
    scan = _Scan()
    for token, line in _tokens(text):
        if scan.awaits_key:
            scan.take_key(token, line)
        else:
            scan.take_value(token)
    return {_today(dotted): line for dotted, line in scan.places.items()}


def _today(dotted: str) -> str:
    """A key under the name that its section has today."""
    section, point, name = dotted.partition(".")
    return f"{FORMERLY.get(section, section)}{point}{name}"


def placed(problem: Problem, file: str, text: str) -> Problem:
    """A problem that only the design could find, with its file and the line of its key."""
    return replace(problem, file=file, line=key_lines(text).get(problem.key))


def _tokens(text: str) -> Iterator[tuple[str, int]]:
    line, at = 1, 0
    for found in _TOKEN.finditer(text):
        line += text.count("\n", at, found.start())
        at = found.start()
        if not found.group().startswith("#"):
            yield found.group(), line


class _Scan:
    """Where the scan stands: before a key, or inside a value that may hold lists and tables."""

    def __init__(self) -> None:
        self.places: Places = {}
        self.awaits_key = True
        self.parts: list[str] = []  # of the key being read
        self.head = False  # the key being read is a table's head
        self.prefix: tuple[str, ...] = ()  # the table that keys belong to
        self.table: tuple[str, ...] = ()  # the table of the last head
        self.current: tuple[str, ...] = ()  # the key whose value is being read
        self.open: list[tuple[str, tuple[str, ...], tuple[str, ...]]] = []  # brackets, with what to return to

    def take_key(self, token: str, line: int) -> None:
        """One token where a key may stand."""
        if token == "}":
            self._close()
        elif token == "[":
            self.head = True
        elif token == "]" and self.parts:
            self.table = self.prefix = self._note((), line)
            self.head = False
        elif token == "=":
            self.current = self._note(self.prefix, line)
            self.awaits_key = False
        elif token not in ".,]\n":
            self.parts.append(_bare(token))

    def take_value(self, token: str) -> None:
        """One token inside a value."""
        if token in "[{":
            self.open.append((token, self.prefix, self.current))
            if token == "{":
                self.prefix, self.awaits_key = self.current, True
        elif token in "]}":
            self._close()
        elif token == ",":
            self.awaits_key = bool(self.open) and self.open[-1][0] == "{"
        elif token == "\n" and not self.open:
            self.prefix, self.awaits_key = self.table, True

    def _close(self) -> None:
        if self.open:
            _, self.prefix, self.current = self.open.pop()
        self.awaits_key = False

    def _note(self, table: tuple[str, ...], line: int) -> tuple[str, ...]:
        """The whole key; it and every table it opens on the way get their line."""
        whole = (*table, *self.parts)
        self.parts = []
        for depth in range(1, len(whole) + 1):
            self.places.setdefault(".".join(whole[:depth]), line)
        return whole


def _bare(part: str) -> str:
    return part[1:-1] if part[:1] in ('"', "'") else part
