"""A panel of which all cells leak more, or less, than was foretold.

What a nameplate does not tell is the shunt of its cells: of lots of one kind it differs twofold, and cells of
one lot lie about the lot's own (`lots.standing.usual`). What leaks by one cell of its row is a fault; what
leaks by all of them is how the panel is, and no fault.
"""

from __future__ import annotations

from dataclasses import replace

from panewright.circuit.network import Network, String, Substring


def leaking(network: Network, times: float) -> Network:
    """The same with every cell leaking so many times as much. Rows that were one record stay one."""
    made: dict[int, Substring] = {}

    def row_of(row: Substring) -> Substring:
        if id(row) not in made:
            made[id(row)] = _row(row, times)
        return made[id(row)]

    def string_of(string: String) -> String:
        return replace(string, substrings=tuple(row_of(row) for row in string.substrings))

    return replace(network, strings=tuple(string_of(string) for string in network.strings))


def _row(row: Substring, times: float) -> Substring:
    leaky = {cell: replace(cell, shunt_ohm=cell.shunt_ohm / times) for cell in set(row.cells)}
    return replace(row, cells=tuple(leaky[cell] for cell in row.cells))
