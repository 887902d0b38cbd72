"""Frames stood and the worst of each side read off, as one loop: for where thousands are asked
(space/compiled.py).

What `space_frame` does step by step with whole tables is done here without leaving the loops. Every function
is plain enough to be compiled.
"""

from __future__ import annotations

from math import isfinite

from panewright.structure.space.block import Solving, Work, membered, stood
from panewright.structure.space.cuts import Whole, cut
from panewright.structure.space.looks import SAG, forced, sagged, stressed
from panewright.structure.space.member import Array

SAME_MM = 1e-6  #: as in `run`
COUNT = 6  #: figures of a bound, as `looks` names them
FORCES = 3 * COUNT  #: where those at the bracket stand, after three bounds
LOOSE, SLIDE, CORNER, ALL = FORCES + 3, FORCES + 6, FORCES + 7, FORCES + 13  #: what comes then, and how much
Cut = tuple[
    tuple[Array, Whole, Array], Array, tuple[Array, Array], Array, Array, Array, Array
]  # room to work in, places, lines, points, brackets, those alone, seats


def kept(told: Array, at: int, size: float) -> None:
    """The larger of two sizes."""
    told[at] = max(told[at], size)


def bracketed(moved: Array, ends: Array, held: Array, bolt: Array, loose: bool, told: Array) -> None:
    """Largest forces at brackets, and how far the rail slides there; `loose` where a pane holds it little.

    A bracket in the middle of a rail has its other half beyond.
    """
    last = ends.shape[0]
    for n in range(last + 1):
        if not held[n]:
            continue
        for i in range(3):
            force = 0.0
            if n < last:
                force += ends[n, i]
            if n > 0:
                force += ends[n - 1, 6 + i]
            if n == last:
                force *= 2.0 if i > 0 else 0.0
            kept(told, FORCES + i, abs(force))
            if loose:
                kept(told, LOOSE + i, abs(force))
        if loose:
            slide = moved[n, 0] + bolt[1] * moved[n, 4] - bolt[0] * moved[n, 5]
            kept(told, SLIDE, abs(slide))


def stands(moved: Array, ends: Array) -> bool:
    """Whether every figure of a run is a number."""
    for n in range(moved.shape[0]):
        for i in range(6):
            if not isfinite(moved[n, i]):
                return False
    for m in range(ends.shape[0]):
        for i in range(12):
            if not isfinite(ends[m, i]):
                return False
    return True


def looked(
    run: tuple[Array, Array, Array, Array, Array],
    under: tuple[float, float],
    bolt: Array,
    rail: tuple[Array, Array, Array, Array, float, float, Array],
    way: tuple[int, float],
    sag_only: bool,
    line: Array,
    told: Array,
) -> None:
    """The worst of one run in one condition put to what is told of it; `line` is room for its figures.

    `run` are places, movements, forces at ends, seats and brackets; `way` which bound it belongs to, and what
    `looks.stressed` asks.
    """
    place, moved, ends, seat, held = run
    bead, centroid, rows, area, gj, torsion, shape = rail
    sagged(place, moved, ends, seat, under, bead, gj, shape, line)
    if sag_only:
        kept(told, COUNT * way[0] + SAG, line[SAG])
        return
    stressed(place, ends, centroid, rows, way[1], shape, line)
    forced(moved, ends, bead, torsion, area, line)
    for figure in range(COUNT):
        kept(told, COUNT * way[0] + figure, line[figure])
    bracketed(moved, ends, held, bolt, way[0] < 2, told)
    for i in range(6):
        kept(told, CORNER + i, abs(ends[0, i]))


def sided(
    run: tuple[int, Array, Array, Array],
    tables: tuple[Array, Whole],
    there: tuple[Array, Array],
    bolt: Array,
    rail: tuple[Array, Array, Array, Array, float, float, Array],
    bounds: tuple[Whole, Array],
    sag_only: bool,
    line: Array,
    told: Array,
) -> bool:
    """The worst of one side of one frame in all conditions; whether all its figures are numbers.

    `run` is its number, with places, seats and brackets of all runs; `there` its movements and forces.
    """
    r, place, seat, brackets = run
    moved, ends = there
    first, last = tables[1][r], tables[1][r + 1] - 1
    under = tables[0][first, 0] - SAME_MM, tables[0][last, 0] + SAME_MM
    told[:] = 0.0
    for w in range(moved.shape[0]):
        if not stands(moved[w], ends[w]):
            return False
        here, way = (place[r], moved[w], ends[w], seat[r], brackets[r]), (bounds[0][w], bounds[1][w])
        looked(here, under, bolt, rail, way, sag_only, line, told)
    return True


def worst(
    lengths: Array,
    tables: tuple[Array, Whole],
    held: tuple[Array, Whole],
    points: tuple[Array, Whole],
    seats: tuple[float, float],
    least: int,
    member: tuple[Array, Array, Array, Array, Array],
    bolts: tuple[Array, Array],
    ways: tuple[Array, Array, Array, Whole, Array],
    frames: tuple[Whole, Array],
    rail: tuple[Array, Array, Array, Array, float, float, Array],
    sag_only: bool,
    rooms: tuple[Cut, Work, tuple[Array, Array], Solving, Array],
    moved: Array,
    ends: Array,
    told: Array,
) -> int:
    """The worst of both sides of every frame: how many members runs have, 0 where a figure is no number.

    `lengths` to `least` are as in `cuts.cut`. `member` is what it resists, what a load does to it and its
    fixed matrices, the springs, and which movements are turns; `bolts` where bolts lie and what they give.
    `ways` are spring, corner, hold along the rail, bound and moments' ratio of each condition; `frames` the
    two runs of each, and how corners see them. `told` has axes (frames, sides, figures): three bounds, forces
    at the bracket, the same where the pane holds little, slide, forces and moments at the corner.
    """
    net, works, parts, solving, line = rooms
    place, brackets, seat = net[1], net[4], net[6]
    stiff, loads, shapes, spring, turned = member
    runs, maps = frames
    count = cut(lengths, tables, held, points, seats, least, *net)
    membered(stiff, seat, place, net[2], loads, shapes, spring, turned, works, count, *parts)
    pressed = net[3], rail[0][0]
    stood(parts, pressed, brackets, net[5], bolts, ways[:3], runs, maps, solving, count, moved, ends)
    bounds = ways[3], ways[4]
    for f in range(told.shape[0]):
        for side in range(2):
            at = 2 * f + side
            run = runs[at], place, seat, brackets
            there = moved[:, at, : count + 1], ends[:, at, :count]
            if not sided(run, tables, there, bolts[0], rail, bounds, sag_only, line, told[f, side]):
                return 0
    return count
