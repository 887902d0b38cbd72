"""Voltage of substrings and strings at a current, and current of strings at a voltage.

A substring under a bypass diode divides its current: Ib through the diode, I - Ib through the cells, so
that the cells' voltage Vc(I - Ib) equals minus the diode's drop:

    Vc(I - Ib) + nVb ln(1 + Ib / I0b) + Ib Rb = 0.

Vc falls with current, so the left side rises with Ib and has one root: between 0 and I where the cells
would be reversed at I, else between -I0b and 0. Newton's step straightens the cells' part only and keeps
the diode's law whole, which is one more single-diode equation; so it is good from leakage to full current.
All functions take and give one row for each point asked and one column for each substring or string.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from panewright.cell.curve import voltage_and_ohm
from panewright.cell.omega import omega
from panewright.cell.root import Array, root
from panewright.circuit.wiring import Part, Wiring

MOST_A = 1e9  #: no current beyond this is looked for
_LEAKS = 40.0  # this many nVb above zero a bypass diode leaks its whole saturation current, to 1e-17
_DEEP_V = -1.5  # cells this far in reverse are no longer straight
_EVEN = np.linspace(0.0, 1.0, 21)[:, None]  # shares of the light current at which a bracket may begin
_NEAR = 1 - 0.05 * 0.4 ** np.arange(1, 13)[:, None]


def cells_v(wiring: Wiring, current: Array) -> tuple[Array, Array]:
    """Voltage of the cells of every substring with their joints, and -dV/dI. [V, ohm]"""
    volt, ohm = voltage_and_ohm(wiring.cells, current[:, wiring.cell_home])
    volt = np.add.reduceat(volt * wiring.cell_count, wiring.cell_starts, axis=1)
    ohm = np.add.reduceat(ohm * wiring.cell_count, wiring.cell_starts, axis=1)
    return volt - current * wiring.joints_ohm, ohm + wiring.joints_ohm


def substrings_v(wiring: Wiring, current: Array) -> tuple[Array, Array]:
    """Voltage of every substring at its whole current, and -dV/dI. [V, ohm]"""
    leak = np.where(wiring.bypassed, wiring.bypass_saturation_a, 0.0)
    volt, ohm = cells_v(wiring, current + leak)  # all there is to say where the diode only leaks
    for k in np.flatnonzero(wiring.bypassed):
        part = wiring.substring(int(k))
        near = ~(volt[:, k] > _LEAKS * part.bypass.ideality_v)
        if near.any():
            volt[near, k], ohm[near, k], _ = shared_v(part, current[near, k])
    return volt, ohm


def shared_v(part: Part, current: Array) -> tuple[Array, Array, Array]:
    """Voltage of a substring whose bypass diode may conduct, -dV/dI, and the diode's share. [V, ohm, A]"""
    through = _through_a(part, current, *_part_v(part, current))
    volt, ohm = _part_v(part, current - through)
    diode = part.bypass
    with np.errstate(all="ignore"):
        drop = diode.ideality_v * np.log1p(through / diode.saturation_a) + through * diode.series_ohm
        drop_ohm = diode.ideality_v / (through + diode.saturation_a) + diode.series_ohm
        both = np.where(drop_ohm < ohm, -drop, volt)  # the flatter law magnifies the last digit less
        return both, 1 / (1 / ohm + 1 / drop_ohm), through


def _through_a(part: Part, current: Array, unshared_v: Array, unshared_ohm: Array) -> Array:
    """Current of one bypass diode where it conducts or is about to. [A]"""
    reversed_ = (unshared_v < 0) & (current > 0)

    def surplus(through: Array) -> tuple[Array, Array]:
        volt, ohm = _part_v(part, current - through)
        apart = through - _past_straight_a(part, through, volt, ohm)
        stuck = ~(np.isfinite(volt) & np.isfinite(ohm))  # more than the cells can carry in reverse
        return np.where(stuck, -np.inf, apart), np.ones_like(through)

    with np.errstate(all="ignore"):
        shallow = _past_straight_a(part, np.zeros_like(current), unshared_v, unshared_ohm)
    spilled = np.maximum(current - part.dimmest_a, 0.0)  # then the dimmest cell is about to reverse
    start = np.where(reversed_ & ~(unshared_v > _DEEP_V), spilled, shallow)
    low = np.where(reversed_, 0.0, -part.bypass.saturation_a)
    high = np.where(reversed_, current, 0.0)
    return root(surplus, low, high, np.where(np.isnan(start), spilled, start))


def _past_straight_a(part: Part, through: Array, volt: Array, ohm: Array) -> Array:
    """Current of a bypass diode past cells drawn as a straight line through one point of theirs. [A]"""
    leak, n = part.bypass.saturation_a, part.bypass.ideality_v
    total = ohm + part.bypass.series_ohm
    lifted = (ohm * through - volt + total * leak) / n
    forward = lifted - omega(lifted + np.log(total * leak / n))
    return leak * np.expm1(forward)


def _part_v(part: Part, current: Array) -> tuple[Array, Array]:
    """Voltage of the cells of one substring with their joints, and -dV/dI. [V, ohm]"""
    volt, ohm = voltage_and_ohm(part.cells, current[:, None])
    return volt @ part.cell_count - current * part.joints_ohm, ohm @ part.cell_count + part.joints_ohm


def strings_v(wiring: Wiring, current: Array) -> tuple[Array, Array]:
    """Voltage of every string at its current, and -dV/dI. [V, ohm]"""
    volt, ohm = substrings_v(wiring, current[:, wiring.home])
    volt = np.add.reduceat(volt * wiring.part_count, wiring.starts, axis=1)
    ohm = np.add.reduceat(ohm * wiring.part_count, wiring.starts, axis=1)
    return volt - current * wiring.tail_ohm, ohm + wiring.tail_ohm


def strings_a(wiring: Wiring, volt: Array) -> Array:
    """Current of every string at a voltage. [A]"""
    wanted = np.broadcast_to(volt, (volt.shape[0], wiring.starts.size))

    def surplus(current: Array) -> tuple[Array, Array]:
        got, ohm = strings_v(wiring, current)
        return wanted - got, ohm

    return root(surplus, *_bracket_a(wiring, wanted))


def _bracket_a(wiring: Wiring, wanted: Array) -> tuple[Array, Array, Array]:
    """Currents at which every string lies above and below the wanted voltage, and a guess. [A, A, A]"""
    tried, got = _further(wiring, *_tried(wiring), float(wanted.min()), float(wanted.max()))
    low, high, start = (np.empty_like(wanted) for _ in range(3))
    for k in range(wiring.starts.size):
        place = np.clip(np.searchsorted(-got[:, k], -wanted[:, k]), 1, tried.shape[0] - 1)
        low[:, k], high[:, k] = tried[place - 1, k], tried[place, k]
        with np.errstate(all="ignore"):
            fall = (got[place - 1, k] - wanted[:, k]) / (got[place - 1, k] - got[place, k])
        share = np.where(np.isfinite(fall), fall, 0.5)
        start[:, k] = low[:, k] + share * (high[:, k] - low[:, k])
    return low, high, start


@lru_cache(maxsize=8)
def _tried(wiring: Wiring) -> tuple[Array, Array]:
    """Rising currents of every string and their voltages, kept: every search begins here. [A, V]"""
    bright, dim = wiring.brightest_a, np.minimum.reduceat(wiring.dimmest_a, wiring.starts)
    inside = (bright * _EVEN, dim * _NEAR, bright * _NEAR, dim + (bright - dim) * (1 - _NEAR))
    tried = np.sort(np.concatenate(inside), axis=0)
    return tried, strings_v(wiring, tried)[0]


def _further(wiring: Wiring, tried: Array, got: Array, least_v: float, most_v: float) -> tuple[Array, Array]:
    """The same carried on past both of two voltages. [A, V]"""
    bright = wiring.brightest_a
    while np.any(got[0] < most_v) and np.all(tried[0] > -MOST_A):
        tried = np.concatenate((_further_a(bright, tried[0], -1.0), tried))
        got = np.concatenate((strings_v(wiring, tried[:1])[0], got))
    while np.any(got[-1] > least_v) and np.all(tried[-1] < MOST_A):
        tried = np.concatenate((tried, _further_a(bright, tried[-1], 1.0)))
        got = np.concatenate((got, strings_v(wiring, tried[-1:])[0]))
    return tried, got


def _further_a(bright: Array, last: Array, side: float) -> Array:
    """A step further out, past open circuit (-1) or past the brightest light (+1). [A]"""
    return np.asarray(last + side * np.maximum(np.abs(last), np.maximum(bright, 1e-3)))[None, :]
