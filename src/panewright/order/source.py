"""From bytes or text to the tables of an order, or to what is wrong with the writing."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from panewright.errors import OrderError, Problem
from panewright.order.places import FORMERLY, Places, key_lines

MOST_BYTES = 1_000_000  #: an order is a page or two; more is something else
_MOST_POINTS = 60  #: in a line: an order's keys have one or two

_AT = re.compile(r"\(at (?:line (\d+), column \d+|end of document)\)$")
_BARE_VALUE = re.compile(r"""^\s*([\w.\-"']+)\s*=\s*([^"'\[{#\s][^#]*?)\s*(?:#.*)?$""")
_KEY = re.compile(r"""^\s*([\w.\-"']+)\s*=""")
_HEAD = re.compile(r"^\s*\[+\s*([\w.\-\"']+)\s*\]")


@dataclass(frozen=True, slots=True)
class Source:
    """An order's tables as TOML reads them, and the line of each key."""

    file: str
    text: str
    tables: Mapping[str, object]

    @property
    def places(self) -> Places:
        """Line of each key and table; looked for where somebody asks, which a sound order does not."""
        return _key_lines(self.text)

    def line(self, dotted: str) -> int | None:
        """Line of a key, or of the innermost table that should hold it; None where neither stands."""
        while dotted:
            if dotted in self.places:
                return self.places[dotted]
            dotted = dotted.rpartition(".")[0]
        return None


@lru_cache(maxsize=1)
def _key_lines(text: str) -> Places:
    """Kept, for every mistake of an order asks for its line."""
    return key_lines(text)


def decoded(data: bytes, file: str) -> str:
    """The text in a file's bytes."""
    if len(data) > MOST_BYTES:
        raise _refusal(file, f"The file holds {len(data)} bytes.", "An order is text of a page or two.")
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise _refusal(file, "The file is UTF-16 text.", "Save it as UTF-8.")
    if b"\0" in data:
        raise _refusal(file, "The file is not text.", "Name a TOML order, saved as UTF-8 text.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as mistake:
        line = data.count(b"\n", 0, mistake.start) + 1
        raise _refusal(file, "A letter here is not UTF-8.", "Save the file as UTF-8.", line) from mistake


def read_source(text: str, file: str) -> Source:
    """The tables of an order's text, with the line of each key."""
    text = text.removeprefix("\ufeff")
    if len(text) > MOST_BYTES:
        raise _refusal(file, f"The text has {len(text)} letters.", "An order is text of a page or two.")
    if not text.strip():
        raise _refusal(file, "The order is empty.", "Begin with the commented order that `new` writes.")
    _refuse_chains(text, file)
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as mistake:
        raise OrderError([_syntax(str(mistake), text, file)]) from mistake
    except RecursionError as mistake:
        raise _refusal(file, "Lists or tables are nested too deep.", "An order has two levels.") from mistake
    except ValueError as mistake:  # a number of thousands of digits
        raise _refusal(
            file, "A number is too long to be read.", "Write values as text with a unit."
        ) from mistake
    return Source(file, text, _today(tables, text, file))


def _today(tables: dict[str, object], text: str, file: str) -> dict[str, object]:
    """Sections under the names of today: orders that were kept under older ones stay orders."""
    for old, new in FORMERLY.items():
        if old in tables and new in tables:
            line = key_lines(text).get(new)
            reason, cure = f"[{old}] is [{new}] today, and both stand here.", f"Keep all under [{new}]."
            raise OrderError([Problem(reason, cure, file, line, key=new)])
    return {FORMERLY.get(name, name): table for name, table in tables.items()}


def _refuse_chains(text: str, file: str) -> None:
    """A key of thousands of parts takes its reader minutes and all memory there is."""
    for number, line in enumerate(text.split("\n"), 1):
        if line.count(".") > _MOST_POINTS and not line.lstrip().startswith("#"):
            raise _refusal(file, "This line has too many points.", "An order has two levels.", number)


def _refusal(file: str, reason: str, cure: str, line: int | None = None) -> OrderError:
    return OrderError([Problem(reason, cure, file, line, key="order")])


def _syntax(message: str, text: str, file: str) -> Problem:
    """A mistake in the writing: its line, the key it stands at, and what to write."""
    lines = text.split("\n")
    found = _AT.search(message)
    number = int(found.group(1)) if found and found.group(1) else max(1, len(text.rstrip().split("\n")))
    written = lines[min(number, len(lines)) - 1]
    reason = _AT.sub("", message).strip().rstrip(".")
    key = _key_at(lines, number)
    return Problem(f"{reason}.", _syntax_cure(reason, written), file, number, key, written.strip()[:60])


def _key_at(lines: list[str], number: int) -> str:
    """The key on a line with the table above it, or the table, or 'order'."""
    key, table = _KEY.match(lines[min(number, len(lines)) - 1]), ""
    for line in lines[:number]:
        if head := _HEAD.match(line):
            table = head.group(1)
    return ".".join(part for part in (table, key.group(1) if key else "") if part) or "order"


def _syntax_cure(reason: str, written: str) -> str:
    if "overwrite" in reason or "twice" in reason or "more than once" in reason:
        return "The key or table stands twice: keep one."
    if bare := _BARE_VALUE.match(written):
        return f'Put the value in quotes: {bare.group(1)} = "{bare.group(2)}".'
    if re.match(r"^\s*\[", written):
        return "Write a table's head alone on its line, such as [site]."
    if written.count('"') % 2 or written.count("'") % 2:
        return "Close the quotes on the same line."
    if "array" in reason.lower() or "inline table" in reason.lower():
        return "Close the bracket, and put a comma between entries."
    return 'Write one key = "value" on each line; words after # are remarks.'
