"""What a drawn rail needs so that a pane can lie in it, and what is wrong with one that has it not.

    |#|          lip, where there is one: it makes the pocket lower
    |#|  pocket: free for bead and pane
    |#|______
    |########|   flat seat at y = wall, to its tip at x = seat
    |########|

The seat is solid and flat, as thick as the wall, from its tip nearly to the upright. The upright is solid and
as thick, its inner face straight at x = wall. A fillet may round the corner between them; all else is free.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from panewright.frame.shape.outline import (
    Edge,
    Outline,
    Point,
    edges,
    first_crossing,
    inside,
    meet,
    turned,
)

MOST_CORNERS = 200  #: of all closed lines together
_NEAR_MM = 0.02  # figures written in inches and in mm still count as one
_FLAT_SHARE = 0.5  # of the seat beside the upright that is flat at least; likewise of the upright


Of = Literal["outline", "holes"]


@dataclass(frozen=True, slots=True)
class Flaw:
    """What is wrong with a drawn rail, and what to do."""

    reason: str
    cure: str
    of: Of = "outline"


@dataclass(frozen=True, slots=True)
class Size:
    """What is said of a drawn rail beside its outline. [mm]"""

    seat_mm: float
    upright_mm: float
    wall_mm: float


@dataclass(frozen=True, slots=True)
class Pocket:
    """The room for bead and pane, from the heel. [mm]"""

    flat_from_mm: float  #: the seat is flat from here to its tip
    straight_from_mm: float  #: the upright's inner face is straight from here
    top_mm: float  #: up to here: the end of the straight face, or what hangs over the seat
    lip_mm: float  #: how far inward metal above the pocket reaches


def pocket(outline: Outline, size: Size) -> Pocket | None:
    """The room for a pane in a drawn outline; None where it has no flat seat or no straight upright."""
    line = turned(outline)
    seat, face = _seat(line, size), _face(line, size)
    if seat is None or face is None:
        return None
    over = min(_over(line, (seat, face[0]), size), default=math.inf)
    top = min(face[1], over)
    lip = max((x for x, y in line if y >= top - _NEAR_MM), default=size.wall_mm)
    return Pocket(seat, face[0], top, max(lip, size.wall_mm))


def flaw(outline: Outline, holes: tuple[Outline, ...], size: Size) -> Flaw | None:
    """The first thing that is wrong with a drawn rail; None where a pane can lie in it."""
    for found in _flaws(outline, holes, size):
        return found
    return None


def _flaws(outline: Outline, holes: tuple[Outline, ...], size: Size) -> Iterator[Flaw]:
    if (corners := len(outline) + sum(len(hole) for hole in holes)) > MOST_CORNERS:
        cure = f"Draw fillets with fewer points: {MOST_CORNERS} corners at most."
        yield Flaw(f"Outline and holes have {corners} points.", cure)
        return
    yield from _line_flaws("The outline", outline)
    for number, hole in enumerate(holes, 1):
        yield from (replace(each, of="holes") for each in _line_flaws(f"Hole {number}", hole))
        yield from _hole_flaws(number, hole, (outline, *holes[: number - 1]))
    yield from _span_flaws(outline, size)
    yield from _pocket_flaws(outline, holes, size)


def _line_flaws(what: str, line: Outline) -> Iterator[Flaw]:
    if len(line) < 3:
        yield Flaw(f"{what} has {len(line)} points.", "Write three corners or more.")
    elif crossing := first_crossing(line):
        one, other = (_told(list(edges(line))[at]) for at in crossing)
        cure = "Write the corners in the order in which they follow one another round the metal, each once."
        yield Flaw(f"{what} meets itself: {one} and {other}.", cure)


def _hole_flaws(number: int, hole: Outline, others: tuple[Outline, ...]) -> Iterator[Flaw]:
    """A hole lies within the outline and outside all other holes, and touches none of them."""
    outer, *before = others
    touched = (
        line for other in others for line in edges(other) if any(meet(line, own) for own in edges(hole))
    )
    if not inside(hole[0], outer) or next(touched, None):
        cure = "Keep every hole within the metal, apart from the outline and from other holes."
        yield Flaw(f"Hole {number} does not lie within the metal.", cure, "holes")
    elif any(inside(hole[0], other) or inside(other[0], hole) for other in before):
        yield Flaw(
            f"Hole {number} and another lie one within the other.", "Write one hole for both.", "holes"
        )


def _span_flaws(outline: Outline, size: Size) -> Iterator[Flaw]:
    """From the heel at 0, 0 as far as seat and upright say."""
    asked = ((0, size.seat_mm, "x", "seat"), (1, size.upright_mm, "y", "upright"))
    for axis, long, name, word in asked:
        low, high = min(point[axis] for point in outline), max(point[axis] for point in outline)
        if abs(low) > _NEAR_MM or abs(high - long) > _NEAR_MM:
            reason = f"The outline spans {name} from {low:g} to {high:g} mm, not from 0 to {long:g} mm."
            yield Flaw(reason, f"Put the heel at 0, 0 and write {word} as the outline's largest {name}.")


def _pocket_flaws(outline: Outline, holes: tuple[Outline, ...], size: Size) -> Iterator[Flaw]:
    room, wall = pocket(outline, size), size.wall_mm
    if room is None or room.flat_from_mm - wall > (size.seat_mm - wall) * (1 - _FLAT_SHARE):
        reason = f"The pane finds no flat seat at y = {wall:g} mm and upright at x = {wall:g} mm."
        cure = "Draw the seat flat at y = wall to its tip at x = seat, the upright's inner face at x = wall."
        yield Flaw(reason, cure)
        return
    if room.straight_from_mm - wall > (room.top_mm - wall) * (1 - _FLAT_SHARE):
        reason = (
            f"The pocket over the seat is open from {room.straight_from_mm:g} to {room.top_mm:g} mm only."
        )
        yield Flaw(reason, "Leave the room over the seat free of metal, or make the fillet smaller.")
    drawn: tuple[tuple[Of, tuple[Outline, ...]], ...] = (("outline", (turned(outline),)), ("holes", holes))
    for of, lines in drawn:
        if _hollow(lines, (room.flat_from_mm, 0.0), (size.seat_mm, wall)):
            cure = "Draw it solid from y = 0 to y = wall, its tip square."
            yield Flaw(f"The seat is not solid {wall:g} mm thick.", cure, of)
        if _hollow(lines, (0.0, room.straight_from_mm), (wall, room.top_mm)):
            cure = "Draw it solid from x = 0 to x = wall beside the pane."
            yield Flaw(f"The upright is not solid {wall:g} mm thick.", cure, of)


def _told(line: Edge) -> str:
    (ax, ay), (bx, by) = line
    return f"{ax:g}, {ay:g} to {bx:g}, {by:g} mm"


def _seat(line: Outline, size: Size) -> float | None:
    """Where the flat seat begins: an edge at y = wall that runs from the tip towards the upright."""
    for (ax, ay), (bx, by) in edges(line):
        level = max(abs(ay - size.wall_mm), abs(by - size.wall_mm)) <= _NEAR_MM
        if level and abs(ax - size.seat_mm) <= _NEAR_MM and bx < ax:
            return max(bx, size.wall_mm)
    return None


def _face(line: Outline, size: Size) -> tuple[float, float] | None:
    """The longest straight part of the upright's inner face, at x = wall, metal behind it."""
    found = [
        (max(ay, size.wall_mm), by)
        for (ax, ay), (bx, by) in edges(line)
        if max(abs(ax - size.wall_mm), abs(bx - size.wall_mm)) <= _NEAR_MM and by > max(ay, size.wall_mm)
    ]
    return max(found, key=lambda face: face[1] - face[0], default=None)


def _over(line: Outline, fillet: Point, size: Size) -> Iterator[float]:
    """Heights at which metal stands over the seat, a fillet up to this point left out."""
    low, high = size.wall_mm + _NEAR_MM, size.seat_mm - _NEAR_MM
    for start, end in edges(line):
        rounds = (
            max(start[0], end[0]) <= fillet[0] + _NEAR_MM and max(start[1], end[1]) <= fillet[1] + _NEAR_MM
        )
        part = None if rounds else _between(start, end, low, high)
        if part and max(y for _, y in part) > size.wall_mm + _NEAR_MM:
            yield min(y for _, y in part)


def _between(start: Point, end: Point, low: float, high: float) -> tuple[Point, Point] | None:
    """The part of an edge whose x lies between two values."""
    (ax, ay), (bx, by) = sorted((start, end))
    if bx < low or ax > high:
        return None
    slope = (by - ay) / (bx - ax) if bx > ax else 0.0
    left, right = max(ax, low), min(bx, high)
    return (left, ay + slope * (left - ax)), (right, by - slope * (bx - right))


def _hollow(lines: Iterable[Outline], low: Point, high: Point) -> bool:
    """Whether any line runs through a rectangle that should be solid, its own sides left out."""
    x0, y0, x1, y1 = low[0] + _NEAR_MM, low[1] + _NEAR_MM, high[0] - _NEAR_MM, high[1] - _NEAR_MM
    for line in lines:
        for start, end in edges(line):
            part = _between(start, end, x0, x1)
            if part and max(y for _, y in part) > y0 and min(y for _, y in part) < y1:
                return True
    return False
