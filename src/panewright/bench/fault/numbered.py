"""Places in words: cells by their numbers on the drawings, which run on from one string to the next."""

from __future__ import annotations

from collections.abc import Iterable

from panewright.circuit.network import Network, String
from panewright.circuit.place import CellAt, DiodeAt, Place, string_at, substring_of


def number_of(network: Network, cell: CellAt) -> int:
    """A cell's number on the drawings, from 1 through all strings."""
    return sum(map(_count, network.strings[: cell.string])) + cell.number


def numbers_at(network: Network, place: Place | None) -> tuple[int, ...]:
    """The cells of a place by their numbers; none of what has no place."""
    if place is None:
        return ()
    if isinstance(place, CellAt):
        return (number_of(network, place),)
    string = string_at(network, place)
    first, count = number_of(network, CellAt(place.string, 1)), _count(string)
    if isinstance(place, DiodeAt):
        k = substring_of(network, place)
        first += sum(len(row.cells) for row in string.substrings[:k])
        count = len(string.substrings[k].cells)
    return tuple(range(first, first + count))


def where(network: Network, place: Place | None) -> str:
    """A place in words: ' at cell 43', ' at row 2 of string 1, cells 19 to 36'."""
    if place is None:
        return ""
    cells = stretches(numbers_at(network, place))
    match place:
        case CellAt():
            return f" at {cells}"
        case DiodeAt(string, row):
            return f" at row {row + 1} of string {string + 1}, {cells}"
    return f" in string {place.string + 1}, {cells}"


def of_cells(network: Network, cells: Iterable[CellAt]) -> str:
    """'cells 3 to 9'; cells of several stretches one after the other."""
    return stretches(number_of(network, cell) for cell in cells)


def stretches(numbers: Iterable[int]) -> str:
    """Numbers in words.

    >>> stretches([5, 3, 4, 12])
    'cells 3 to 5 and cell 12'
    """
    told: list[list[int]] = []
    for number in sorted(numbers):
        if told and number == told[-1][-1] + 1:
            told[-1].append(number)
        else:
            told.append([number])
    return " and ".join(
        f"cell {each[0]}" if len(each) == 1 else f"cells {each[0]} to {each[-1]}" for each in told
    )


def _count(string: String) -> int:
    return sum(len(row.cells) for row in string.substrings)
