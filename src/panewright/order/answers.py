"""What the order answers to each key: sound values, mistakes, and the defaults taken.

A value that is missing or wrong is told once, and its key's example stands in for it, so that every
other mistake is still found; an order with a mistake never becomes an `Order`.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping
from decimal import Decimal
from functools import lru_cache

from panewright.errors import Problem
from panewright.order.order import Assumption
from panewright.order.questions import ORDER, Questions
from panewright.order.source import Source
from panewright.shelf.key import Fault, Key, Value, described, nearest
from panewright.shelf.reading import read_row

_LONGEST_SHOWN = 60
_LONGEST_KEY = 120
_MOST_UNKNOWN = 20  # a file with more of them is no order, and hints for all would take long


class Answers:
    """One text held against what it is asked."""

    def __init__(self, source: Source, questions: Questions = ORDER) -> None:
        self.source = source
        self.questions = questions
        self.problems: list[Problem] = []
        self.assumptions: dict[str, Assumption] = {}
        self.raw: dict[str, object] = {}  # as TOML read it, by dotted key
        self._sound: dict[str, Value] = {}
        self._misspelt: set[str] = set()  # sections that stand here under a name much like theirs
        for section, table in _first(source.tables, questions.sections, self._more):
            self._section(section, table)

    def _section(self, section: str, table: object) -> None:
        sections = self.questions.sections
        if section not in sections:
            cure = f"The sections are {self.questions.listed}."
            self._misspelt |= {name for name in sections if name in nearest(section, sections)}
            self.wrong(section, f"There is no section {section}.{nearest(section, sections)}", cure)
        elif not isinstance(table, dict):
            cure = f"Write [{section}] on a line of its own, and its keys below."
            self.wrong(section, f"{section} is a section, not {described(table)}.", cure)
        else:
            self._keys(section, table)

    def _keys(self, section: str, table: Mapping[str, object]) -> None:
        keys = {key.name: key for key in self.questions.keys_of(section)}
        for name, value in _first(table, keys, lambda count, key: self._more(count, f"{section}.{key}")):
            self.raw[f"{section}.{name}"] = value
            if name not in keys:
                self.wrong(f"{section}.{name}", *_unknown(self.questions, section, name))
        plain = {n: v for n, v in table.items() if n in keys and keys[n].kind != "part"}
        reading = read_row(plain, (keys[name] for name in plain))
        self._sound |= {f"{section}.{name}": value for name, value in reading.values.items()}
        for name, fault in reading.faults.items():
            self.wrong(f"{section}.{name}", fault.reason, fault.cure)

    def _more(self, count: int, name: str) -> None:
        reason = f"{count} further keys or sections here are unknown too."
        self.wrong(name, reason, self.questions.begin)

    def wrong(self, dotted: str, reason: str, cure: str) -> None:
        """Tells a mistake at a key."""
        shown, key = _clean(_shown(self._raw(dotted)), _LONGEST_SHOWN), _clean(dotted, _LONGEST_KEY) or '""'
        problem = Problem(
            _clean(reason), _clean(cure), self.source.file, self.source.line(dotted), key, shown
        )
        if problem not in self.problems:
            self.problems.append(problem)

    def _raw(self, dotted: str) -> object:
        if dotted in self.raw:
            return self.raw[dotted]
        outer, _, name = dotted.rpartition(".")
        table = self.raw.get(outer) if outer else self.source.tables.get(dotted)
        return table.get(name) if isinstance(table, dict) and outer else None

    def given(self, dotted: str) -> bool:
        """Whether the order says anything at this key."""
        return dotted in self.raw

    def faulty(self, dotted: str) -> bool:
        """Whether a mistake was told at this key."""
        return any(problem.key == dotted for problem in self.problems)

    def sound(self, dotted: str) -> Value | None:
        """The value that the order states, None where it is left out or wrong."""
        return self._sound.get(dotted)

    def sound_number(self, dotted: str) -> float | None:
        """The stated value of a measured key."""
        value = self._sound.get(dotted)
        return None if value is None or isinstance(value, str) else float(value)

    def sound_count(self, dotted: str) -> int | None:
        """The stated value of a counted key."""
        value = self._sound.get(dotted)
        return value if isinstance(value, int) else None

    def sound_word(self, dotted: str) -> str | None:
        """The stated text or choice."""
        value = self._sound.get(dotted)
        return value if isinstance(value, str) else None

    def number(self, dotted: str) -> float:
        """The stated value or the default, which becomes an assumption."""
        value = self._answer(dotted)
        return float(value) if not isinstance(value, str) else 0.0

    def count(self, dotted: str) -> int:
        """The same for a counted key."""
        value = self._answer(dotted)
        return value if isinstance(value, int) else 0

    def word(self, dotted: str) -> str:
        """The same for a text or choice."""
        return str(self._answer(dotted))

    def exact(self, dotted: str) -> Decimal:
        """The same for money and shares."""
        return Decimal(self._answer(dotted))

    def assume(self, dotted: str, value: str | int, reason: str) -> None:
        """Takes a value for a key that the order leaves out, and says so; what was taken first stays."""
        if not self.given(dotted) and dotted not in self._sound:
            self._sound[dotted] = _taken(self.questions.keys[dotted], value)
            self.assumptions[dotted] = Assumption(dotted, str(value), reason)

    def assumed_open(self, dotted: str, words: str, reason: str) -> None:
        """Says what it means that a key without a value of its own is left out."""
        self.assumptions[dotted] = Assumption(dotted, words, reason)

    def needs(self, dotted: str, because: str) -> None:
        """Tells that a key is missing, where it is."""
        key = self.questions.keys[dotted]
        if not self.given(dotted) and not self.faulty(dotted) and key.section not in self._misspelt:
            head = self.questions.head(key.section)
            self.wrong(dotted, f"{key.name} is missing: {because}", f"Add {key.assignment()} to {head}.")

    def bars(self, dotted: str, reason: str, cure: str) -> None:
        """Tells that a key must not stand here, where it does."""
        if self.given(dotted):
            self.wrong(dotted, reason, cure)

    def _answer(self, dotted: str) -> Value:
        if dotted in self._sound:
            return self._sound[dotted]
        key = self.questions.keys[dotted]
        if self.given(dotted):
            return _stand_in(key)
        if key.default is None:
            self.needs(dotted, "the order must say it.")
            return _stand_in(key)
        self.assume(dotted, key.default, key.reason)
        return self._sound[dotted]


@lru_cache(maxsize=1024)
def _taken(key: Key, value: str | int) -> Value:
    """What a value taken for a key means; kept, for sizes of one catalogue leave out the same keys."""
    return key.read(value)


def _stand_in(key: Key) -> Value:
    try:
        return key.read(key.example)
    except Fault:
        return key.example


def _unknown(questions: Questions, section: str, name: str) -> tuple[str, str]:
    """Reason and cure for a key that does not exist here."""
    names, head = [key.name for key in questions.keys_of(section)], questions.head(section)
    elsewhere = [key.section for key in questions.keys.values() if key.name == name]
    if elsewhere:
        return f"{name} does not belong in {head}.", f"Move it to {questions.head(elsewhere[0])}."
    hint = nearest(name, names)
    cure = f"The keys of {head} are {', '.join(names)}."
    return f"There is no key {name}.{hint}", cure


def _shown(raw: object) -> str:
    """A raw value as it stands in the order, shortened."""
    if raw is None:
        return ""
    if isinstance(raw, bool):
        return str(raw).lower()
    if isinstance(raw, dict):
        return "a table"
    try:
        return f'"{raw}"' if isinstance(raw, str) else str(raw)
    except ValueError:  # Python prints no number of more than 4300 digits
        return "a very long number"


def _clean(text: str, longest: int = 600) -> str:
    """The text without letters that would upset a screen, shortened."""
    safe = "".join(letter if letter.isprintable() else "?" for letter in text[: longest + 1])
    return safe if len(safe) <= longest else f"{safe[: longest - 3]}..."


def _first(
    table: Mapping[str, object], known: Container[str], more: Callable[[int, str], None]
) -> Iterator[tuple[str, object]]:
    """Every known key and the first unknown ones; tells how many more there are, and where they begin."""
    unknown = [name for name in table if name not in known]
    for name, value in table.items():
        if name in known or name in unknown[:_MOST_UNKNOWN]:
            yield name, value
    if len(unknown) > _MOST_UNKNOWN:
        more(len(unknown) - _MOST_UNKNOWN, unknown[_MOST_UNKNOWN])
