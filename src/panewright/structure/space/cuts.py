"""Runs cut into members, as loops: for where thousands of frames are asked (space/compiled.py).

What `mesh` does run by run with lists is done here for all of them, to the same last digit. Every function is
plain enough to be compiled.
"""

from __future__ import annotations

from math import inf

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.member import Array

SAME_MM = 1e-6  #: as in `run`
STIFF = 1e4  #: as in `mesh`
Whole = NDArray[np.intp]


def told_place(places: Array, count: int, place: float) -> int:
    """A place put among those in order; how many there are then."""
    at = count
    while at > 0 and places[at - 1] > place:
        places[at] = places[at - 1]
        at -= 1
    places[at] = place
    return count + 1


def kinked(
    length: float, table: Array, held: Array, points: Array, stiff_mm: float, told: Array, kept: Array
) -> int:
    """Places where something happens to a run, in order, none twice; how many."""
    count = told_place(told, 0, 0.0)
    count = told_place(told, count, length)
    if stiff_mm != 0.0:
        count = told_place(told, count, stiff_mm)
    for k in range(table.shape[0]):
        count = told_place(told, count, table[k, 0])
    for k in range(held.shape[0]):
        count = told_place(told, count, held[k])
    for k in range(points.shape[0]):
        count = told_place(told, count, points[k, 0])
    found, before = 0, -inf
    for k in range(count):
        if 0.0 <= told[k] <= length + SAME_MM:
            if told[k] - before > SAME_MM:
                kept[found] = told[k]
                found += 1
            before = told[k]
    return found


def noded(kinks: Array, count: int, members: int, each: Array, parts: Array, place: Array) -> None:
    """Places of the nodes: the longest stretches cut up until there are so many members."""
    for k in range(count - 1):
        each[k], parts[k] = kinks[k + 1] - kinks[k], 1.0
    for _ in range(members - (count - 1)):
        longest = 0
        for k in range(1, count - 1):
            if each[k] > each[longest]:
                longest = k
        parts[longest] += 1.0
        each[longest] = (kinks[longest + 1] - kinks[longest]) / parts[longest]
    node = 0
    place[0] = 0.0
    for k in range(count - 1):
        for _ in range(int(parts[k])):
            place[node + 1] = place[node] + each[k]
            node += 1


def nearest(place: Array, last: int, at: float) -> int:
    """The node nearest to a place, of two as near the first."""
    after = 0
    while after <= last and place[after] < at:
        after += 1
    if after == 0 or after > last:
        return min(after, last)
    return after - 1 if abs(place[after - 1] - at) <= abs(place[after] - at) else after


def lined(table: Array, place: Array, last: int, at: Array, first: Array, end: Array) -> None:
    """Load at both ends of each member; `at` is room for that at each node."""
    after, count = 0, table.shape[0]
    for n in range(last + 1):
        while after < count and table[after, 0] <= place[n]:
            after += 1
        if after == 0 or after == count:
            at[n] = table[min(after, count - 1), 1]
        else:
            slope = (table[after, 1] - table[after - 1, 1]) / (table[after, 0] - table[after - 1, 0])
            at[n] = slope * (place[n] - table[after - 1, 0]) + table[after - 1, 1]
    for m in range(last):
        within = table[0, 0] < (place[m] + place[m + 1]) / 2 < table[count - 1, 0]
        first[m] = at[m] if within else 0.0
        end[m] = at[m + 1] if within else 0.0


def brackets_near(place: Array, held: Array, last: int, at: float, room_mm: float) -> int:
    """Brackets so near to a place, with the corner and those beyond the rail's middle."""
    near, end = 1 if abs(at) < room_mm else 0, place[last]
    for n in range(last + 1):
        if held[n]:
            if abs(place[n] - at) < room_mm:
                near += 1
            if place[n] < end and abs(2 * end - place[n] - at) < room_mm:
                near += 1
    return near


def marked(
    place: Array,
    last: int,
    braced: Array,
    push: Array,
    rail: tuple[float, float],
    pushed: Array,
    brackets: Array,
    alone: Array,
    seat: Array,
) -> None:
    """Forces and brackets at the nodes nearest to them, brackets that stand alone, and stiff seats."""
    stiff_mm, room_mm = rail
    for n in range(last + 1):
        pushed[n], brackets[n] = 0.0, False
    for k in range(len(braced)):
        brackets[nearest(place, last, braced[k])] = True
    for k in range(len(push)):
        pushed[nearest(place, last, push[k, 0])] += push[k, 1]
    for n in range(last + 1):
        alone[n] = brackets[n] and brackets_near(place, brackets, last, place[n], room_mm) == 1
    for m in range(last):
        stiff = stiff_mm != 0.0 and (place[m] + place[m + 1]) / 2 < stiff_mm
        seat[m] = STIFF if stiff else 1.0


def cut(
    lengths: Array,
    tables: tuple[Array, Whole],
    held: tuple[Array, Whole],
    points: tuple[Array, Whole],
    rail: tuple[float, float],
    least: int,
    rooms: tuple[Array, Whole, Array],
    place: Array,
    line: tuple[Array, Array],
    pushed: Array,
    brackets: Array,
    alone: Array,
    seat: Array,
) -> int:
    """Halves of rails cut into as many members each, at least so many; how many.

    `tables`, `held` and `points` are rows of all runs, one after the other, and where each run's begin;
    `rail` is where its seat stops to be stiff, and the room about a bracket.
    """
    kinks, counts, work = rooms
    members = least
    for r in range(len(lengths)):
        table, braced = tables[0][tables[1][r] : tables[1][r + 1]], held[0][held[1][r] : held[1][r + 1]]
        push = points[0][points[1][r] : points[1][r + 1]]
        counts[r] = kinked(lengths[r], table, braced, push, rail[0], work[0], kinks[r])
        members = max(members, counts[r] - 1)
    for r in range(len(lengths)):
        table, braced = tables[0][tables[1][r] : tables[1][r + 1]], held[0][held[1][r] : held[1][r + 1]]
        push, here = points[0][points[1][r] : points[1][r + 1]], place[r]
        noded(kinks[r], counts[r], members, work[0], work[1], here)
        lined(table, here, members, work[0], line[0][r], line[1][r])
        marked(here, members, braced, push, rail, pushed[r], brackets[r], alone[r], seat[r])
    return members
