"""What a column of a lot can hold: its kind of unit, its likely sizes, its names in several languages.

The likely sizes are of one crystalline cell or a cut piece of one, from the smallest for a lantern to the
largest made (common practice, no source). They tell one unit from another and judge no cell.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

_STOP = frozenset(
    {
        *("a", "at", "the", "of", "per"),
        *("bei", "der", "die", "das", "de", "la", "le", "du", "des", "d", "pour"),
        *("del", "della", "di", "da", "do", "van", "przy"),
    }
)


@dataclass(frozen=True, slots=True)
class Quantity:
    """One thing a column can hold."""

    name: str  #: a figure of `cells.FIGURES`, or mark, grade, remark, time
    said: str  #: to a person
    kind: str = ""  #: of its unit; '' for words
    least: float = 0.0  #: likely, in SI
    most: float = 0.0

    def likely(self, value: float) -> bool:
        """Whether a cell could well show this. Reverse readings count by their size."""
        size = abs(value) if self.name.startswith("reverse") else value
        return self.least <= size <= self.most


QUANTITIES: Mapping[str, Quantity] = MappingProxyType(
    {
        each.name: each
        for each in (
            Quantity("mark", "the cell's mark"),
            Quantity("isc_a", "short-circuit current", "current", 0.03, 25.0),
            Quantity("voc_v", "open-circuit voltage", "voltage", 0.2, 0.88),
            Quantity("at_v", "the fixed voltage", "voltage", 0.1, 0.88),
            Quantity("at_a", "current at a fixed voltage", "current", 0.03, 25.0),
            Quantity("imp_a", "current at the power maximum", "current", 0.03, 25.0),
            Quantity("vmp_v", "voltage at the power maximum", "voltage", 0.2, 0.8),
            Quantity("pmp_w", "power at the maximum", "power", 0.016, 15.0),
            Quantity("fill_factor", "fill factor", "share", 0.25, 0.9),
            Quantity("efficiency", "efficiency", "share", 0.02, 0.3),
            Quantity("shunt_ohm", "shunt resistance", "resistance", 0.05, 1e6),
            Quantity("reverse_v", "voltage put on backwards", "voltage", 0.5, 40.0),
            Quantity("reverse_a", "current backwards", "current", 1e-7, 15.0),
            Quantity("irradiance_w_m2", "light of the moment", "light", 15.0, 1600.0),
            Quantity("cell_c", "heat of the cell", "heat", 5.0, 80.0),
            Quantity("grade", "lot, grade or bin"),
            Quantity("remark", "remark"),
            Quantity("time", "when it was read"),
        )
    }
)


@dataclass(frozen=True, slots=True)
class Names:
    """The names of all quantities, ready to be looked up."""

    whole: Mapping[str, str]  #: letters of a name without its gaps -> quantity
    parts: tuple[tuple[int, frozenset[str], str], ...]  #: length, words and quantity of each name
    bare: Mapping[str, tuple[str, ...]]  #: a name of no one thing -> what it may be
    other: Mapping[str, str]  #: a word of another thing -> which


def telling(words: list[str]) -> tuple[str, ...]:
    """The words without those that only join others."""
    return tuple(word for word in words if word not in _STOP)


@cache
def names() -> Names:
    """The names as `names.toml` keeps them."""
    table = tomllib.loads(files("panewright.intake").joinpath("names.toml").read_text("utf-8"))
    said = [(each.split(), name) for name in QUANTITIES for some in table[name].values() for each in some]
    parts = ((sum(map(len, words)), frozenset(telling(words)), name) for words, name in said)
    bare = dict.fromkeys(table["bare"]["current"], ("isc_a", "imp_a", "at_a"))
    bare |= dict.fromkeys(table["bare"]["voltage"], ("voc_v", "vmp_v", "at_v"))
    other = {word: why for why, words in table["other"].items() for word in words}
    return Names(
        {"".join(telling(words)): name for words, name in reversed(said)},
        tuple(sorted(part for part in parts if part[0] > 2)),
        bare,
        other,
    )
