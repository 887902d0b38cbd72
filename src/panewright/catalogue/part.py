"""A catalogue's work in parts, for whoever does them.

A part is sizes of as many columns and rows: those that differ in their glass alone, of one cell and of the
next, for cells of one format lie behind the same panes.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.catalogue.family import Family, Member

_MOST_SIZES = 10  #: of a part, but all its glass: for all hands to be busy to the end


@dataclass(frozen=True, slots=True)
class Part:
    """Some sizes, each with its order's text, and where each stands in the range."""

    number: int
    sizes: tuple[tuple[Member, str], ...]
    places: tuple[int, ...]


def how_many(family: Family) -> int:
    """Parts of a range."""
    pairs = len(family.columns) * len(family.rows)
    return pairs * -(-family.size // pairs // _most_sizes(family))


def parts_of(family: Family) -> tuple[Part, ...]:
    """All work of a range; the largest panels first, which take longest: at the end all hands are busy."""
    alike: dict[tuple[int, int], list[tuple[int, Member]]] = {}
    sizes = (each for layup in family.layups() for each in layup)
    for place, each in enumerate(sizes):
        alike.setdefault((each.columns, each.rows), []).append((place, each))
    most = _most_sizes(family)
    largest = reversed(alike.values())
    shared = [each[n : n + most] for each in largest for n in range(0, len(each), most)]
    return tuple(_part(family, number, each) for number, each in enumerate(shared))


def _part(family: Family, number: int, placed: list[tuple[int, Member]]) -> Part:
    places, members = zip(*placed, strict=True)
    return Part(number, tuple((each, family.text(each)) for each in members), places)


def _most_sizes(family: Family) -> int:
    return max(1, _MOST_SIZES // len(family.glass)) * len(family.glass)
