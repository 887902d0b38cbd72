"""The wiring with other cells in its seats: joints, tails, leads and bypass diodes stay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.circuit.network import Network, String


def filled(network: Network, cells: Diodes, seats: Sequence[int]) -> Network:
    """A network with these cells of a lot, seat after seat."""
    chosen = iter([_diode(cells, k) for k in seats])
    return replace(network, strings=tuple(_string(string, chosen) for string in network.strings))


def _string(string: String, chosen: Iterator[Diode]) -> String:
    parts = tuple(replace(part, cells=tuple(next(chosen) for _ in part.cells)) for part in string.substrings)
    return replace(string, substrings=parts)


def _diode(cells: Diodes, k: int) -> Diode:
    return Diode(*(float(getattr(cells, name)[k]) for name in Diodes.__slots__))
