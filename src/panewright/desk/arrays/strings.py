"""Strings as somebody tries them: panels put into places, taken out, exchanged; and written into the text."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from panewright.errors import Problem, RecordError

if TYPE_CHECKING:
    from panewright.order.site.site import Site, Typed

_HEAD = re.compile(r"\s*\[{1,2}\s*([^\[\]#]+?)\s*\]{1,2}\s*(#.*)?")
_TO = re.compile(r"(?P<out>out)|new-(?P<input>\d{1,3})|(?P<string>\d{1,3})-(?P<place>\d{1,3})")
OUT = "out"


@dataclass(frozen=True, slots=True)
class Tried:
    """One string: the controller's input that it feeds, from 1, and its panels from minus to plus."""

    input: int
    panels: tuple[str, ...]


Strings = tuple[Tried, ...]


def strings_of(site: Site) -> Strings:
    """The strings that a site's text tells."""
    names = [panel.name for panel in site.panels]
    told = (Tried(each.input + 1, tuple(names[p] for p in each.panels)) for each in site.strings)
    return in_order(told)


def in_order(strings: Iterable[Tried]) -> Strings:
    """Input after input, as the plan, the book and the checks count them."""
    return tuple(sorted(strings, key=lambda each: each.input))


def typed_of(site: Site, strings: Strings) -> tuple[Typed, ...]:
    """The same by number, as a site has them; panels and inputs that it has not are passed over."""
    from panewright.order.site.site import Typed

    numbers = {panel.name: number for number, panel in enumerate(site.panels)}
    told = (
        Typed(tuple(numbers[name] for name in each.panels if name in numbers), each.input - 1)
        for each in strings
        if each.input <= site.box.inputs
    )
    return tuple(each for each in told if each.panels)


def moved(site: Site, strings: Strings, panel: str, to: str) -> Strings:
    """A panel put elsewhere: 'out', 'new-2' for a new string of an input, '1-3' for string and place.

    Where another lies there, it takes the place from which the first one came. `RecordError` where the
    site has no such panel or place.
    """
    found = _TO.fullmatch(to)
    if panel not in {each.name for each in site.panels}:
        raise _no_such("panel", panel, "Tap one of the panels on the page.")
    if found is None:
        raise _no_such("place", to, "Tap one of the places on the page.")
    if found["out"]:
        return _without(strings, panel)
    if found["input"]:
        if not 1 <= int(found["input"]) <= site.box.inputs:
            raise _no_such("input", found["input"], f"The controller has inputs 1 to {site.box.inputs}.")
        return in_order((*_without(strings, panel), Tried(int(found["input"]), (panel,))))
    return _put(strings, panel, (int(found["string"]) - 1, int(found["place"]) - 1))


def _put(strings: Strings, panel: str, at: tuple[int, int]) -> Strings:
    string, place = at
    if not (0 <= string < len(strings) and 0 <= place <= len(strings[string].panels)):
        raise _no_such("place", f"{string + 1}-{place + 1}", "Tap one of the places on the page.")
    if place < len(strings[string].panels):
        turn = {panel: strings[string].panels[place], strings[string].panels[place]: panel}
        if not any(panel in each.panels for each in strings):
            del turn[panel]  # the other one goes out
        return tuple(Tried(each.input, tuple(turn.get(p, p) for p in each.panels)) for each in strings)
    rows = [[p for p in each.panels if p != panel] for each in strings]
    rows[string].append(panel)
    return _whole(strings, rows)


def _without(strings: Strings, panel: str) -> Strings:
    return _whole(strings, [[p for p in each.panels if p != panel] for each in strings])


def _whole(strings: Strings, rows: Sequence[Sequence[str]]) -> Strings:
    """Strings with a panel or more."""
    told = zip(strings, rows, strict=True)
    return tuple(Tried(each.input, tuple(row)) for each, row in told if row)


def known_of(site: Site, strings: Strings) -> Strings:
    """The strings without panels that the text no longer has."""
    names = {panel.name for panel in site.panels}
    return _whole(strings, [[p for p in each.panels if p in names] for each in strings])


def left_out(site: Site, strings: Strings) -> tuple[str, ...]:
    """Panels that lie in no string."""
    used = {name for each in strings for name in each.panels}
    return tuple(panel.name for panel in site.panels if panel.name not in used)


def written(strings: Strings) -> str:
    """Strings as a draft keeps them."""
    return json.dumps([[each.input, list(each.panels)] for each in strings])


def read(told: str) -> Strings:
    """The strings of a draft."""
    return tuple(Tried(int(number), tuple(map(str, panels))) for number, panels in json.loads(told))


def into_text(text: str, strings: Strings) -> str:
    """The text with these strings in the place of those that it had; nothing else of it changes."""
    kept = "\n".join(_without_strings(text.split("\n"))).rstrip("\n") + "\n"
    fresh = kept + "".join(f"\n{_section(each)}" for each in strings)
    if (before := _else(text)) is None or _else(fresh) != before:
        cure = "Write them into the text yourself, as [[string]] with panels = and input =."
        raise RecordError([Problem("The strings stand in a way that is not changed from here.", cure)])
    return fresh


def _else(text: str) -> dict[str, object] | None:
    """All that a text says beside its strings; None where it is no text."""
    try:
        told = tomllib.loads(text)
    except ValueError:
        return None
    told.pop("string", None)
    return told


def without_strings(text: str) -> str:
    """What of a text does not hang on its strings."""
    return "\n".join(_without_strings(text.split("\n"))).strip()


def _section(string: Tried) -> str:
    panels = ", ".join(quoted(name) for name in string.panels)
    return f"[[string]]\npanels = [{panels}]\ninput = {string.input}\n"


def quoted(words: str) -> str:
    """Words as the text of an array bears them.

    >>> quoted('a "b"')
    '"a \\\\"b\\\\""'
    """
    return json.dumps(words, ensure_ascii=False).replace("\x7f", "\\u007f")


def _without_strings(lines: Sequence[str]) -> Iterator[str]:
    """Lines but those of [[string]]; remarks over the next section are its own."""
    dropped: list[str] | None = None
    for line in lines:
        if head := _HEAD.fullmatch(line):
            yield from _last_remarks(dropped or ())
            dropped = [] if head[1].strip("\"' ") == "string" else None
        if dropped is None:
            yield line
        else:
            dropped.append(line)


def _last_remarks(lines: Sequence[str]) -> list[str]:
    """Remarks and blank lines at the end of a section that goes."""
    count = len(lines)
    while count and (not lines[count - 1].strip() or lines[count - 1].lstrip().startswith("#")):
        count -= 1
    return [line for line in lines[count:] if line.strip()]


def _no_such(what: str, value: str, cure: str) -> RecordError:
    return RecordError([Problem(f"There is no such {what}.", cure, key=what, value=value[:60])])
