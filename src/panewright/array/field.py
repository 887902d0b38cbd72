"""The field at every step of a year: strings summed, inputs summed, and where each of them is worked.

A step is an hour or a part of it. Panels are asked by `circuit.chords`. At each input the greatest power is
sought on the whole curve, so that a hump behind shade is not missed; and the current is told at some fixed
voltages, between which a battery or a load finds its own.
"""

from __future__ import annotations

from typing import NamedTuple

from panewright.array.wiring import Wired
from panewright.cell.root import Array
from panewright.circuit.chords.curve import abreast, amp_at, chord_at, in_series, peak, volt_at
from panewright.circuit.chords.even import Tables
from panewright.circuit.chords.law import Law, Whole
from panewright.circuit.chords.panel import Light, brightest_a, panel_points
from panewright.circuit.solver.sheet import Column, Numbers, Table


class Steps(NamedTuple):
    """Light and heat, rows by step and columns by panel."""

    light_w_m2: Array  #: on all cells of a panel alike
    open_w_m2: Array  #: where nothing stood in the way
    cell_c: Array
    shade: Whole  #: row of `shaded` with the light of each cell, -1 where all are alike
    shaded: Array  #: rows of lights of cells [W/m2]
    means: Array  #: rows of the same by substring: the mean of its cells
    rises: Array  #: and how steep their slope is, below 0 where it is none: see `circuit.chords.sloped`


class Asked(NamedTuple):
    """At which voltages an input is worked."""

    least_v: Array  #: of each input: no greatest power is taken below
    most_v: Array  #: nor above
    held_v: Array  #: rows by input: voltages at which its current is told


class Given(NamedTuple):
    """What comes of it: written by `work_out`, rows by step."""

    open_w: Array  #: of each panel on a tracker of its own, where nothing stood in the way
    alone_w: Array  #: and as it is
    panel_w: Array  #: of each panel as it is worked at the input's greatest power
    row_a: Array  #: of each string then
    input_v: Array  #: of each input then, behind its run
    input_a: Array
    held_a: Array  #: (step, input, voltage)


class Room(NamedTuple):
    """Rows in which curves are built."""

    panel_v: Table  #: of each panel
    panel_a: Table
    points: Numbers
    row_v: Table  #: of each string
    row_a: Table
    row_points: Numbers
    work: Table  #: of `circuit.chords.panel`
    row_now: Column  #: current of each string
    own_v: Column
    own_a: Column
    sum_v: Column
    sum_a: Column


def work_out(
    law: Law,
    tables: Tables,
    wired: Wired,
    steps: Steps,
    asked: Asked,
    first: int,
    end: int,
    room: Room,
    given: Given,
) -> None:
    """Write what the field gives at the steps from `first` up to `end`."""
    for t in range(first, end):
        panels_at(law, tables, wired, steps, t, t > first, room, given)
        for n in range(len(wired.run_ohm)):
            count = input_at(wired, n, room)
            if count < 2:
                continue
            best(wired, n, count, t, asked, room, given)
            for q in range(len(asked.held_v[n])):
                hold(wired, n, count, t, q, asked.held_v[n][q], room, given)


def panels_at(
    law: Law,
    tables: Tables,
    wired: Wired,
    steps: Steps,
    t: int,
    goes_on: bool,
    room: Room,
    given: Given,
) -> None:
    """Set the curve of every panel, and what it would give alone.

    With `goes_on` the curves of the step before still stand: what is as it was then is not asked again.
    """
    for r in range(len(wired.wire_ohm)):
        most = 0.0
        for j in range(wired.first_panel[r], wired.first_panel[r + 1]):
            p = wired.panel[j]
            most = max(most, brightest_a(law, p, light_at(steps, t, p), steps.cell_c[t, p]))
        for j in range(wired.first_panel[r], wired.first_panel[r + 1]):
            p = wired.panel[j]
            panel_alone(law, tables, steps, t, p, most, goes_on, room, given)
    for p in wired.nowhere:
        most = brightest_a(law, p, light_at(steps, t, p), steps.cell_c[t, p])
        panel_alone(law, tables, steps, t, p, most, goes_on, room, given)


def panel_alone(
    law: Law,
    tables: Tables,
    steps: Steps,
    t: int,
    p: int,
    most_a: float,
    goes_on: bool,
    room: Room,
    given: Given,
) -> None:
    """Set the curve of one panel, and what it would give alone, as it is and with no shadow on it."""
    alike = steps.shade[t, p] < 0
    as_open = alike and steps.open_w_m2[t, p] == steps.light_w_m2[t, p]
    still = goes_on and steps.cell_c[t, p] == steps.cell_c[t - 1, p]
    if still and as_before(steps, t, p):
        given.alone_w[t, p] = given.alone_w[t - 1, p]
    else:
        given.alone_w[t, p] = panel_at(law, tables, steps, t, p, most_a, room)
    if as_open:
        given.open_w[t, p] = given.alone_w[t, p]
    elif still and steps.open_w_m2[t, p] == steps.open_w_m2[t - 1, p]:
        given.open_w[t, p] = given.open_w[t - 1, p]
    else:
        given.open_w[t, p] = in_the_open(law, tables, steps, t, p, room)


def light_at(steps: Steps, t: int, p: int) -> Light:
    """Light on a panel."""
    row = steps.shade[t, p]
    if row < 0:
        return Light(steps.light_w_m2[t, p : p + 1], True, steps.means[0], steps.rises[0])
    return Light(steps.shaded[row], False, steps.means[row], steps.rises[row])


def as_before(steps: Steps, t: int, p: int) -> bool:
    """Whether a panel's light was the same a step before."""
    row = steps.shade[t, p]
    if row != steps.shade[t - 1, p]:
        return False
    return bool(row >= 0 or steps.light_w_m2[t, p] == steps.light_w_m2[t - 1, p])


def panel_at(law: Law, tables: Tables, steps: Steps, t: int, p: int, most_a: float, room: Room) -> float:
    """Set the curve of a panel; its greatest power. [W]"""
    light, heat = light_at(steps, t, p), steps.cell_c[t, p]
    volt, amp = room.panel_v[p], room.panel_a[p]
    room.points[p] = panel_points(law, p, light, heat, most_a, tables, room.work, volt, amp)
    best_v, best_a = peak(volt, amp, room.points[p])
    return best_v * best_a


def in_the_open(law: Law, tables: Tables, steps: Steps, t: int, p: int, room: Room) -> float:
    """Power of a panel on which no shadow fell. [W]"""
    light, heat = (
        Light(steps.open_w_m2[t, p : p + 1], True, steps.means[0], steps.rises[0]),
        steps.cell_c[t, p],
    )
    most = brightest_a(law, p, light, heat)
    count = panel_points(law, p, light, heat, most, tables, room.work, room.sum_v, room.sum_a)
    volt, current = peak(room.sum_v, room.sum_a, count)
    return volt * current


def input_at(wired: Wired, n: int, room: Room) -> int:
    """Set the curves of an input's strings and their sum in `own_v`, `own_a`; how many points. [V, A]

    A string with a dark panel gives nothing and takes nothing: what it would take back is less than is told.
    """
    count = 0
    for r in range(wired.first_row[n], wired.first_row[n + 1]):
        points = row_at(wired, r, room)
        room.row_points[r] = points
        if points < 2:
            continue
        if count == 0:
            count = kept(room.row_v[r], room.row_a[r], points, room.own_v, room.own_a)
        else:
            sums = abreast(
                room.own_v, room.own_a, count, room.row_v[r], room.row_a[r], points, room.sum_v, room.sum_a
            )
            count = kept(room.sum_v, room.sum_a, sums, room.own_v, room.own_a)
    for q in range(count):
        room.own_v[q] -= wired.run_ohm[n] * room.own_a[q]
    return count


def row_at(wired: Wired, r: int, room: Room) -> int:
    """Set the curve of a string behind its wire and diode; how many points. [V, A]"""
    first, count = wired.first_panel[r], 0
    row_v, row_a = room.row_v[r], room.row_a[r]
    for j in range(first, wired.first_panel[r + 1]):
        p = wired.panel[j]
        if room.points[p] < 2:
            return 0
        if count == 0:
            count = kept(room.panel_v[p], room.panel_a[p], room.points[p], row_v, row_a)
        else:
            sums = in_series(
                row_v, row_a, count, room.panel_v[p], room.panel_a[p], room.points[p], room.sum_v, room.sum_a
            )
            count = kept(room.sum_v, room.sum_a, sums, row_v, row_a)
    blocked, drop = 0, wired.blocking_v[r]
    for q in range(count):
        row_v[q] -= wired.wire_ohm[r] * row_a[q] + drop
        if drop > 0.0 and row_a[q] < 0.0:
            blocked = q
            break
    if blocked > 0:
        return blocked_at(row_v, row_a, blocked)
    return count


def blocked_at(volt: Column, amp: Column, q: int) -> int:
    """End a curve where its current ends: beyond there its voltage may be any; how many points."""
    slope = (volt[q] - volt[q - 1]) / (amp[q - 1] - amp[q])
    volt[q], amp[q] = volt[q - 1] + slope * amp[q - 1], 0.0
    volt[q + 1], amp[q + 1] = volt[q] + FAR_V, -LEAK_A
    return q + 2


_ROUNDS, _SETTLED = 60, 1e-13
FAR_V, LEAK_A = 1e3, 1e-9  #: a diode bears what it must and lets nothing back


def kept(from_v: Column, from_a: Column, count: int, volt: Column, amp: Column) -> int:
    """A curve written elsewhere; how many points."""
    for q in range(count):
        volt[q], amp[q] = from_v[q], from_a[q]
    return count


def best(wired: Wired, n: int, count: int, t: int, asked: Asked, room: Room, given: Given) -> None:
    """The greatest power within the input's voltages, and what every string and panel does there."""
    volt, current = peak(room.own_v, room.own_a, count)
    for limit, past in (
        (asked.least_v[n], volt < asked.least_v[n]),
        (asked.most_v[n], volt > asked.most_v[n]),
    ):
        if past:
            volt, current = limit, amp_at(room.own_v, room.own_a, count, limit)
    if current <= 0.0 or volt <= 0.0:
        return
    current = settled(wired, n, volt, current, room)
    given.input_v[t, n], given.input_a[t, n] = volt, current
    for r in range(wired.first_row[n], wired.first_row[n + 1]):
        row = given.row_a[t, r] = room.row_now[r]
        for j in range(wired.first_panel[r], wired.first_panel[r + 1]):
            p = wired.panel[j]
            if row != 0.0:
                given.panel_w[t, p] = row * volt_at(room.panel_v[p], room.panel_a[p], room.points[p], row)


def hold(wired: Wired, n: int, count: int, t: int, q: int, volt: float, room: Room, given: Given) -> None:
    """What an input gives held at a voltage."""
    current = amp_at(room.own_v, room.own_a, count, volt)
    if current > 0.0:
        given.held_a[t, n, q] = settled(wired, n, volt, current, room)


def settled(wired: Wired, n: int, volt: float, near_a: float, room: Room) -> float:
    """Current of an input at a voltage, its strings by their panels' own curves; sets `row_now`. [A]

    The sum's curve has fewer points than its parts: it says where to look, and the parts say what is there.
    Falling chords have one meeting point, and a step along them that stays in its bracket finds it.
    """
    run, current = wired.run_ohm[n], near_a
    low, high = -1e9, 1e9
    for _ in range(_ROUNDS):
        total, slope = rows_a(wired, n, volt + run * current, room)
        over = total - current
        if over > 0.0:
            low = current
        else:
            high = current
        if abs(over) <= _SETTLED * max(abs(current), 1e-3):
            break
        new = current + over / (1.0 + run * slope)
        current = new if low < new < high else 0.5 * (low + high)
    return total


def rows_a(wired: Wired, n: int, bus_v: float, room: Room) -> tuple[float, float]:
    """Current of an input's strings at their common voltage, and how it falls with it. [A, S]"""
    total, slope = 0.0, 0.0
    for r in range(wired.first_row[n], wired.first_row[n + 1]):
        room.row_now[r] = 0.0
        if room.row_points[r] < 2:
            continue
        near = amp_at(room.row_v[r], room.row_a[r], room.row_points[r], bus_v)
        row, ohm = row_current(wired, r, bus_v, near, room)
        if wired.blocking_v[r] > 0.0 and row <= 0.0:
            continue
        room.row_now[r] = row
        total, slope = total + row, slope + 1.0 / ohm
    return total, slope


def row_current(wired: Wired, r: int, bus_v: float, near_a: float, room: Room) -> tuple[float, float]:
    """Current of a string at a voltage behind its wire, and its -dV/dI there. [A, ohm]"""
    low, high, current, ohm = -1e9, 1e9, near_a, 1.0
    for _ in range(_ROUNDS):
        over, ohm = -bus_v - wired.blocking_v[r] - wired.wire_ohm[r] * current, wired.wire_ohm[r]
        for j in range(wired.first_panel[r], wired.first_panel[r + 1]):
            p = wired.panel[j]
            volt, amp = room.panel_v[p], room.panel_a[p]
            k = chord_at(amp, room.points[p], current)
            own = (volt[k + 1] - volt[k]) / (amp[k] - amp[k + 1])
            over, ohm = over + volt[k] + own * (amp[k] - current), ohm + own
        if over > 0.0:
            low = current
        else:
            high = current
        step = over / ohm
        if abs(step) <= _SETTLED * max(abs(current), 1e-3):
            break
        new = current + step
        current = new if low < new < high else 0.5 * (low + high)
    return current, ohm
