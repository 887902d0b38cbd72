"""Pieces of strings side by side exchanged by chance, colder and colder: loops, plain enough to be compiled.

An exchange that gains is made, and one that loses little too while it is warm (Metropolis 1953, Kirkpatrick
1983, both recalled). So a deal comes out of places where every single exchange loses, as strings that share a
voltage have many. Every draw is handed over; nothing here is drawn.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]
Place = tuple[int, int]  #: row and column
Panels = tuple[Array, Array, Array, Whole, Array, Array]
"""Curves of strings, then of pieces [V]; first current, step and the leads' ohms; points where curves are
met; volts of panels; their watts, then those of all at their best, and now."""

TURNS = 3  # Newton's, for the voltage of a panel
WALKS = 3  # and for a string's current at it, between three points of its curve
STRINGS = 20  #: every so manieth move exchanges whole strings


def amps_at(curve: Array, volt: float, begin: int, found: Array) -> int:
    """Where a string's falling curve has a voltage, in points; with slope and bend: into `found`."""
    at = begin
    while at > 1 and curve[at] < volt:
        at -= 1
    while at < curve.size - 2 and curve[at + 1] >= volt:
        at += 1
    bend = (curve[at - 1] - 2 * curve[at] + curve[at + 1]) / 2
    slope = (curve[at + 1] - curve[at - 1]) / 2
    step = (volt - curve[at]) / slope
    for _ in range(WALKS):
        step -= (curve[at] + step * (slope + step * bend) - volt) / (slope + 2 * bend * step)
    found[0], found[1], found[2] = at + step, slope + 2 * bend * step, 2 * bend
    return at


def most_w(curves: Array, begin: Whole, first: int, count: int, grid: Array, volt: float, at: Array) -> float:
    """Greatest power of a panel whose strings are `count` from `first` on; its voltage: into `at[3]`. [W]

    `grid`: first current, step, and what the leads have. `at`: room for four figures.
    """
    amps, step, ohm = grid[0], grid[1], grid[2]
    for turn in range(TURNS):
        total, rise, bend = count * amps, 0.0, 0.0
        for string in range(first, first + count):
            begin[string] = amps_at(curves[string], volt, begin[string], at)
            total += step * at[0]
            rise += step / at[1]
            bend -= step * at[2] / at[1] ** 3
        watts = total * (volt - ohm * total)
        slope = total + volt * rise - 2 * ohm * total * rise
        curved = 2 * rise + volt * bend - 2 * ohm * (rise * rise + total * bend)
        if turn < TURNS - 1:
            volt -= slope / curved
    at[3] = volt
    return float(watts - slope * slope / (2 * curved))


def changed(rows: Whole, curves: Array, piece: Array, one: Place, other: Place, whole: bool) -> None:
    """Two pieces change places, or the strings in which they are; rows past the strings are left over."""
    count = rows.shape[1]
    for k in range(count if whole else 1):
        here, there = ((one[0], k), (other[0], k)) if whole else (one, other)
        mine, yours = rows[here], rows[there]
        rows[here], rows[there] = yours, mine
        if not whole:
            for point in range(curves.shape[1]):
                more = piece[yours, point] - piece[mine, point]
                curves[one[0], point] += more
                if other[0] < curves.shape[0]:
                    curves[other[0], point] -= more
    if whole:
        for point in range(curves.shape[1]):
            volt = curves[one[0], point]
            curves[one[0], point], curves[other[0], point] = curves[other[0], point], volt


def exchangeable(one: int, other: int, strings: int, like: Whole) -> bool:
    """Whether whole strings of two panels may change places."""
    each = like.size
    return bool(other < strings and one // each != other // each and like[one % each] == like[other % each])


def stood(panels: Panels, each: int, at: Array) -> None:
    """Watts of every panel as it stands, of all now, and of all at their best where that is more."""
    curves, _piece, grid, begin, volt, power = panels
    power[-1] = 0.0
    for panel in range(volt.size):
        power[panel] = most_w(curves, begin, panel * each, each, grid, volt[panel], at)
        volt[panel], power[-1] = at[3], power[-1] + power[panel]
    power[-2] = max(power[-2], power[-1])


def settled(panels: Panels, each: int, here: int, there: int, bears_w: float, at: Array) -> bool:
    """Panels that were changed, as they stand now, if they lose no more than that."""
    curves, _piece, grid, begin, volt, power = panels
    apart = there != here and there < volt.size
    watts = most_w(curves, begin, here * each, each, grid, volt[here], at)
    own_v, gain, others_w = at[3], watts - power[here], 0.0
    if apart:
        others_w = most_w(curves, begin, there * each, each, grid, volt[there], at)
        gain += others_w - power[there]
    if not gain >= -bears_w:
        return False
    power[here], volt[here] = watts, own_v
    if apart:
        power[there], volt[there] = others_w, at[3]
    power[-1] += gain
    return True


def cooled(
    rows: Whole, best: Whole, kinds: Whole, like: Whole, panels: Panels, tried: tuple[Whole, Array, Array]
) -> None:
    """Exchanges tried, each of two places in `rows`: strings, then what is left over in rows as long.

    `tried`: the two places of each, what it may lose [W], and room for four figures. `best`: the rows at
    their best so far. `like`: of every string of a panel the first that has the same seats.
    """
    draws, bears, at = tried
    power, each, length = panels[5], like.size, rows.shape[1]
    stood(panels, each, at)
    for turn in range(draws.shape[0]):
        one = (draws[turn, 0] // length, draws[turn, 0] % length)
        other = (draws[turn, 1] // length, draws[turn, 1] % length)
        whole = turn % STRINGS == 0
        if one[0] == other[0]:
            continue
        if whole:
            if not exchangeable(one[0], other[0], panels[0].shape[0], like):
                continue
        elif kinds[rows[one]] != kinds[rows[other]]:
            continue
        changed(rows, panels[0], panels[1], one, other, whole)
        if settled(panels, each, one[0] // each, other[0] // each, bears[turn], at):
            if power[-1] > power[-2]:
                power[-2] = power[-1]
                best[:] = rows
        else:
            changed(rows, panels[0], panels[1], one, other, whole)
