"""Where in a panel: a cell, a bypass diode, or a whole string.

Strings and bypass diodes are counted from 0, cells along their string from 1 at the minus end, as `CellState`
counts them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from numbers import Integral

from panewright.circuit.network import Network, String


@dataclass(frozen=True, slots=True, order=True)
class CellAt:
    """A cell, with the joint on its plus side."""

    string: int
    number: int  #: 1 at the minus end

    def __post_init__(self) -> None:
        _whole(self)


@dataclass(frozen=True, slots=True, order=True)
class DiodeAt:
    """A substring and what lies beside it."""

    string: int
    substring: int  #: 0 at the minus end

    def __post_init__(self) -> None:
        _whole(self)


@dataclass(frozen=True, slots=True, order=True)
class StringAt:
    """A whole string."""

    string: int

    def __post_init__(self) -> None:
        _whole(self)


def _whole(place: CellAt | DiodeAt | StringAt) -> None:
    if not all(_is_whole(getattr(place, name)) for name in place.__slots__):
        raise ValueError(f"{place}: strings, cells and substrings are counted in whole numbers")


def _is_whole(number: object) -> bool:
    return type(number) is int or (isinstance(number, Integral) and not isinstance(number, bool))


Place = CellAt | DiodeAt | StringAt


def string_at(network: Network, place: Place) -> String:
    """The string of a place, or a `ValueError` that says what there is."""
    count = len(network.strings)
    if not 0 <= place.string < count:
        raise ValueError(f"{place}: no string {place.string} here; strings are 0 to {count - 1}")
    return network.strings[place.string]


def within(network: Network, place: CellAt) -> tuple[int, int]:
    """Substring of a cell, and the cell's place in it, both from 0."""
    left = place.number - 1
    string = string_at(network, place)
    for k, substring in enumerate(string.substrings):
        if 0 <= left < len(substring.cells):
            return k, left
        left -= len(substring.cells)
    count = sum(len(substring.cells) for substring in string.substrings)
    raise ValueError(f"{place}: no cell {place.number} here; string {place.string} has cells 1 to {count}")


def substring_of(network: Network, place: DiodeAt) -> int:
    """The place's substring, or a `ValueError` that says what there is."""
    count = len(string_at(network, place).substrings)
    if not 0 <= place.substring < count:
        there = f"string {place.string} has substrings 0 to {count - 1}"
        raise ValueError(f"{place}: no substring {place.substring} here; {there}")
    return place.substring


def all_cells(network: Network) -> Iterator[CellAt]:
    """Every cell, string by string."""
    for s, string in enumerate(network.strings):
        for number in range(1, 1 + sum(len(substring.cells) for substring in string.substrings)):
            yield CellAt(s, number)
