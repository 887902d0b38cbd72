"""What a text is asked: its sections, their keys, and how a reader is told of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from panewright.order.schema import KEYS, SECTIONS
from panewright.shelf.key import Key


@dataclass(frozen=True)
class Questions:
    """The keys that may stand in a text, by section."""

    keys: Mapping[str, Key]  #: by dotted name
    sections: tuple[str, ...]
    listed: str  #: the sections as a cure names them
    begin: str  #: what to begin with, where much is unknown

    def keys_of(self, section: str) -> tuple[Key, ...]:
        """The keys of one section, in their order."""
        return tuple(key for key in self.keys.values() if key.section == section)

    def head(self, section: str) -> str:
        """A section as it is named in a sentence: a row of several is told by its number."""
        return f"[{section}]" if " " not in section else section


def listed(sections: Mapping[str, str] | tuple[str, ...]) -> str:
    """Heads of sections, one after the other."""
    return ", ".join(f"[{name}]" for name in sections)


ORDER = Questions(
    KEYS, tuple(SECTIONS), listed(SECTIONS), "Begin with the commented order that `new` writes."
)
