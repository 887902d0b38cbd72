"""What a piece can add to its string at most, for every current, as a table that is surely no less.

A string of cells gives I (v1(I) + v2(I) + ...) at its current I. Where a junction's law bends upward,
p(I) = I v(I) is concave: p'' = 2 v' + I v'', and v'' = -D''/g^3. So on a stretch of currents it lies under
its tangent at the middle, and sums of tangents are greatest at one of the two ends, whichever cells are
taken. Two numbers for each piece and stretch therefore bound every string that works anywhere in it.

Beyond its knee a cell's law may bend the other way, for Bishop's term does. There the cell counts with the
beginning's voltage, which is no less than any after it, times the current that makes more of it. A piece
that is below nothing counts so, but with no more than all others of its string can give: what a bypass
diode saves is another case (see `relieved`). Where pieces reach over several substrings, no case is needed: a
piece below nothing, and every cell of it, counts as nothing there.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from panewright.cell.curve import voltage_and_ohm, voltage_v
from panewright.cell.diode import top_v
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.network import Network, String, Substring
from panewright.enclosure.bypass import forward_v
from panewright.lots.matching.pieces import Pieces
from panewright.lots.matching.proof.relieved import Mask, Spared, spared_of
from panewright.lots.matching.proof.sunk import sunk_of

_NO_CELL_V = 1.5  # forward, no cell of silicon gets there
_HAIR = 1e-9  # relative: rounding of a voltage is far less
_FAR_V = -1e3  # a string has no cell so far in reverse


@dataclass(frozen=True, slots=True)
class Ceilings:
    """Stretches of current, and two rows for each: at its low and at its high end."""

    low_a: Array
    high_a: Array
    piece_w: Array  #: (2 stretches, pieces); rows of the low ends first
    string_w: Array  #: what tail and leads take of a string, 0 or less
    sunk: Mask  #: (2 stretches, pieces): most of the current goes past a substring that holds such a piece
    drop_w: Array  #: and that takes so much at least
    spared: tuple[
        Spared, ...
    ] = ()  #: substrings that a diode may carry past, where pieces count below nothing

    @classmethod
    def of(cls, pieces: Pieces, network: Network, low: Array, high: Array) -> Ceilings:
        """The table of stretches from these currents to those. [A]"""
        spared, ends = spared_of(network), (low, high)
        # of bare strings side by side, too: there it proves as much, in half the time
        clipped = _reach_over(pieces, network) if spared else len(network.strings) > 1
        sunk, drop_w = sunk_of(pieces, network, ends)
        return cls(
            low,
            high,
            _piece_w(pieces, network, ends, clipped),
            _string_w(network, usual_a(pieces), ends),
            np.tile(sunk, (2, 1)),
            np.tile(drop_w, 2),
            () if clipped else spared,
        )

    def joined(self, other: Ceilings) -> Ceilings:
        """Both tables as one."""
        half, more = self.low_a.size, other.low_a.size

        def both(one: Any, two: Any) -> Any:
            return np.concatenate([one[:half], two[:more], one[half:], two[more:]])

        return Ceilings(
            np.concatenate([self.low_a, other.low_a]),
            np.concatenate([self.high_a, other.high_a]),
            both(self.piece_w, other.piece_w),
            both(self.string_w, other.string_w),
            both(self.sunk, other.sunk),
            both(self.drop_w, other.drop_w),
            self.spared,
        )

    def parted(self, bench: tuple[Pieces, Network], stretches: NDArray[np.int64], parts: int) -> Ceilings:
        """The table with some stretches cut in so many parts, which come last."""
        cut = [np.linspace(self.low_a[k], self.high_a[k], parts + 1) for k in stretches.tolist()]
        low, high = (np.concatenate([each[a:b] for each in cut]) for a, b in ((0, -1), (1, None)))
        return self.without(stretches).joined(Ceilings.of(*bench, low, high))

    def without(self, stretches: NDArray[np.int64]) -> Ceilings:
        """The table without some stretches."""
        kept = np.setdiff1d(np.arange(self.low_a.size), stretches)
        rows = np.concatenate([kept, kept + self.low_a.size])
        return Ceilings(
            self.low_a[kept],
            self.high_a[kept],
            self.piece_w[rows],
            self.string_w[rows],
            self.sunk[rows],
            self.drop_w[rows],
            self.spared,
        )


def _piece_w(pieces: Pieces, network: Network, ends: tuple[Array, Array], clipped: bool) -> Array:
    """Tangents at both ends, summed over the cells of each piece. [W]"""
    both = _cell_w(
        replace(pieces.cells, series_ohm=pieces.cells.series_ohm + least_joint_ohm(network)), *ends
    )
    if clipped:
        both = pieces.summed(np.maximum(both, 0.0) if _reach_over(pieces, network) else both)
        return np.maximum(both, 0.0) * (1 + _HAIR)
    length = sum(len(part.cells) for part in network.strings[0].substrings)
    summed = pieces.summed(both)
    rest = length * np.maximum((summed / pieces.size).max(axis=1, initial=0.0), 0.0)
    return np.asarray(np.maximum(summed + _HAIR * np.abs(summed), -rest[:, None]))


def _cell_w(cells: Diodes, low: Array, high: Array) -> Array:
    """Of every cell at the low ends, then at the high ends. [W]"""
    middle = (low + high) / 2
    volt, ohm = voltage_and_ohm(cells, np.repeat(middle[:, None], cells.light_a.size, axis=1))
    rise = volt - middle[:, None] * ohm
    half = (high - low)[:, None] / 2
    at_low, at_high = middle[:, None] * volt - rise * half, middle[:, None] * volt + rise * half
    unsafe = ~_bends_upward(cells, high) | ~np.isfinite(rise)
    if unsafe.any():
        begin = voltage_v(cells, np.repeat(low[:, None], cells.light_a.size, axis=1))
        begin = np.maximum(begin, _FAR_V)  # no less than a cell far in reverse
        flat = np.where(begin > 0, high[:, None], low[:, None]) * begin
        at_low, at_high = np.where(unsafe, flat, at_low), np.where(unsafe, flat, at_high)
    return np.concatenate([at_low, at_high])


def _parts(network: Network) -> list[Substring]:
    return [part for string in network.strings for part in string.substrings]


def _reach_over(pieces: Pieces, network: Network) -> bool:
    """Whether a piece may fill several substrings: a diode may then take over in the midst of it."""
    return int(pieces.size.max(initial=0)) > min(len(part.cells) for part in _parts(network))


def _bends_upward(cells: Diodes, current: Array) -> NDArray[np.bool_]:
    """Whether D'' is above zero from a current on downward, for every cell. (currents, cells)

    D'' = I0/n^2 exp(Vd/n) less at most 2 G m / |Vbr|, which is Bishop's part at its worst; up to its top.
    """
    wide = np.repeat(current[:, None], cells.light_a.size, axis=1)
    junction = voltage_v(cells, wide) + wide * cells.series_ohm
    worst = -2 * cells.breakdown_siemens * cells.breakdown_exponent / cells.breakdown_v
    with np.errstate(over="ignore", invalid="ignore"):
        bend = cells.saturation_a / cells.ideality_v**2 * np.exp(junction / cells.ideality_v)
        forward = (junction >= 0) & (top_v(cells.breakdown_v, cells.breakdown_exponent) > _NO_CELL_V)
    return np.asarray(forward & (bend >= worst))


def least_joint_ohm(network: Network) -> float:
    """Mean joint of the substring whose joints are best: no cell has less to lose, on average. [ohm]"""
    return min(sum(part.joints_ohm) / len(part.joints_ohm) for part in _parts(network))


def usual_a(pieces: Pieces) -> float:
    """About the current at which a string of the lot works. [A]"""
    return 0.935 * float(np.median(pieces.cells.light_a))


def _string_w(network: Network, usual_a: float, stretches: tuple[Array, Array]) -> Array:
    """What the tail, the blocking diode and the leads take, as tangents at both ends. [W]"""
    low, high = stretches
    middle, half = (low + high) / 2, (high - low) / 2
    tail = min(string.tail_ohm for string in network.strings)
    taken, rise = tail * middle**2, 2 * tail * middle
    blocking = [_blocking(string, middle) for string in network.strings]
    drop = min(blocking, key=lambda each: float(each[0].sum()))
    if len(network.strings) > 1:
        drop = (
            (np.zeros_like(middle), np.zeros_like(middle))
            if not all(s.blocking for s in network.strings)
            else drop
        )
    lead, lead_rise = lead_w(network, usual_a, middle)
    taken, rise = taken + drop[0] + lead, rise + drop[1] + lead_rise
    return np.concatenate([-(taken - rise * half), -(taken + rise * half)])


def _blocking(string: String, current: Array) -> tuple[Array, Array]:
    """Watts in the blocking diode, and how they rise with current. [W, V]"""
    if string.blocking is None:
        return np.zeros_like(current), np.zeros_like(current)
    diode = string.blocking
    volt = np.array([forward_v(diode, float(amps)) for amps in current])
    slope = diode.ideality_v / (current + diode.saturation_a) + diode.series_ohm
    return current * volt, volt + current * slope


def lead_w(network: Network, usual_a: float, current: Array) -> tuple[Array, Array]:
    """A string's share of what the leads take, and how it rises. [W, V]

    (I1 + I2 + ...)^2 of several strings is no less than its tangent at the strings' usual current, which
    is a sum over the strings.
    """
    strings, ohm = len(network.strings), network.lead_ohm
    if strings == 1:
        return ohm * current**2, 2 * ohm * current
    usual = strings * usual_a
    return ohm * (2 * usual * current - usual**2 / strings), np.full_like(current, 2 * ohm * usual)
