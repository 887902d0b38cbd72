"""The seats of one panel: strings, substrings, and how many cells each holds."""

from __future__ import annotations

from dataclasses import dataclass

from panewright.circuit.network import Network
from panewright.circuit.place import CellAt


@dataclass(frozen=True, slots=True)
class Seats:
    """Seats in the order strings, substrings, cells from the minus end."""

    strings: tuple[tuple[int, ...], ...]  #: cells of each substring of each string
    driven: tuple[
        int, ...
    ]  #: for every substring: cells that can drive one of its cells backward, and itself

    @classmethod
    def of(cls, network: Network) -> Seats:
        """The seats of a wiring."""
        strings = tuple(tuple(len(part.cells) for part in each.substrings) for each in network.strings)
        parts = [
            (part, sum(own))
            for each, own in zip(network.strings, strings, strict=True)
            for part in each.substrings
        ]
        return cls(strings, tuple(len(part.cells) if part.bypass else whole for part, whole in parts))

    @property
    def count(self) -> int:
        """Cells of a panel."""
        return sum(map(sum, self.strings))

    @property
    def length(self) -> int:
        """Cells of a string."""
        return sum(self.strings[0])

    @property
    def substrings(self) -> tuple[int, ...]:
        """Cells of every substring, string by string."""
        return tuple(cells for string in self.strings for cells in string)

    @property
    def substring_of(self) -> tuple[int, ...]:
        """For every seat its substring, counted through all strings."""
        return tuple(k for k, cells in enumerate(self.substrings) for _ in range(cells))

    @property
    def string_of(self) -> tuple[int, ...]:
        """For every seat its string."""
        return tuple(s for s, string in enumerate(self.strings) for _ in range(sum(string)))

    @property
    def string_of_substring(self) -> tuple[int, ...]:
        """For every substring its string."""
        return tuple(s for s, string in enumerate(self.strings) for _ in string)

    def place(self, seat: int) -> CellAt:
        """A seat as the circuit counts it."""
        return CellAt(seat // self.length, seat % self.length + 1)

    def seat(self, place: CellAt) -> int:
        """The seat of a place, or a `ValueError` that says what there is."""
        if not (0 <= place.string < len(self.strings) and 1 <= place.number <= self.length):
            raise ValueError(
                f"{place}: a panel has strings 0 to {len(self.strings) - 1} with cells 1 to {self.length}"
            )
        return place.string * self.length + place.number - 1
