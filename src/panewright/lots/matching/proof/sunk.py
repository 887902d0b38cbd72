"""Pieces so dark that most of a string's current goes past their substring, wherever they sit.

Say a diode carries less than a share s of a current I. Then the substring's cells carry more than (1 - s) I,
and its voltage is less than that of the dark piece at (1 - s) I and the others' open circuit together. Where
that is below what the diode drops at s I, it carries more after all, and takes I x that drop at least.
"""

from __future__ import annotations

import numpy as np

from panewright.cell.curve import voltage_v
from panewright.cell.root import Array
from panewright.circuit.network import Network
from panewright.enclosure.bypass import Bypass, forward_v
from panewright.lots.matching.pieces import Pieces
from panewright.lots.matching.proof.relieved import Mask

_LEAST, _SHARES = (
    0.5,
    (0.65, 0.8, 0.9, 0.97),
)  # of the current, in the diode; the same pieces may leave it more
_FAR_V = -1e3  # a string has no cell so far in reverse


def sunk_of(pieces: Pieces, network: Network, ends: tuple[Array, Array]) -> tuple[Mask, Array]:
    """Pieces that are surely so dark in all of a stretch (stretches, pieces); what a diode takes then. [W]"""
    beside = [part.bypass for string in network.strings for part in string.substrings]
    diodes = {each for each in beside if isinstance(each, Bypass)}
    light, none = pieces.cells.light_a, np.zeros((ends[0].size, pieces.count), dtype=bool)
    if len(diodes) == 0 or not all(isinstance(each, Bypass) for each in beside):
        return none, np.zeros(ends[0].size)
    longest = max(len(part.cells) for string in network.strings for part in string.substrings)
    build, top = (diodes, longest), np.array([float(light.max(initial=0.0))])
    if not _sunk(pieces, build, (top, top), _LEAST).any():
        return none, np.zeros(ends[0].size)
    sunk, drop_v = _sunk(pieces, build, ends, _LEAST), _drop_v(diodes, _LEAST * ends[0])
    for share in _SHARES:
        same = (_sunk(pieces, build, ends, share) == sunk).all(axis=1)
        drop_v = np.where(same, _drop_v(diodes, share * ends[0]), drop_v)
    return sunk, ends[0] * drop_v


def _sunk(pieces: Pieces, build: tuple[set[Bypass], int], ends: tuple[Array, Array], share: float) -> Mask:
    """Of every stretch the pieces that leave the diode more than a share of its currents."""
    (diodes, longest), (low, high), cells = build, ends, pieces.cells
    wide = np.repeat((1 - share) * low[:, None], cells.light_a.size, axis=1)
    own = pieces.summed(np.maximum(voltage_v(cells, wide), _FAR_V))
    open_v = float(voltage_v(cells, np.zeros((1, cells.light_a.size))).max())
    others = np.maximum(longest - pieces.size, 0) * max(open_v, 0.0)
    return np.asarray(own + others < -_drop_v(diodes, share * high)[:, None])


def _drop_v(diodes: set[Bypass], current: Array) -> Array:
    """Least that a diode drops at every current. [V]"""
    return np.array([min(forward_v(each, amps) for each in diodes) for amps in current.tolist()])
