"""Shadows on cells: a sun, things in its way, a panel; what share of each cell gets no light.

The outline of a thing is laid along the sun's rays onto the panel's plane; what lies behind the plane is cut
off before. Across each cell run some lines; on each of them a shadow with straight edges and no hollows is
one stretch, known exactly. Where shadows lie over each other their shares of light multiply.
"""

from __future__ import annotations

from math import atan2, cos, hypot, pi, sin, sqrt
from typing import NamedTuple

from panewright.sky.hours import Floats
from panewright.sky.shadow.things import CORNERS, CROWN, POST

LINES = 8  #: across each cell
ROUND = 16  #: corners of a crown
EDGES = ROUND + 2
SKIN_M = 2e-3  #: nearer to the plane a thing throws no shadow: panels of one row lie beside each other
_GRAZING = 1e-3  # cosine: nearer to the plane the sun is behind it
_NOTHING = 1e-9
CLEAR, DARK = -1, -2  #: no cell is shaded; all of them are, wholly


class Room(NamedTuple):
    """What a cast writes to."""

    outline: Floats  #: (EDGES, 3): east, north, up
    shadows: Floats  #: (things, EDGES, 2): on the plane
    corners: Floats  #: of each shadow, how many; 0 for none
    ends: Floats  #: (2 things): of the stretches on one line
    marks: Floats  #: (bands, LINES, things, 2): from and to on the lines of each band
    busy: Floats  #: of each band, how many shadows lie on it
    boxes: Floats  #: (things, 4): left, lower, right, upper edge of each shadow


def cast(
    sun: Floats,
    kinds: Floats,
    figures: Floats,
    light: Floats,
    frame: Floats,
    cells: Floats,
    bands: Floats,
    band: Floats,
    edge: Floats,
    room: Room,
    shares: Floats,
) -> bool:
    """Set the share of each cell that lies in shadow; whether any does.

    `sun`: unit vector to it. `light`: the share each thing lets through. `frame`: see `Pane`. `bands`: lower
    and upper edge of each row of cells, and `band` the row of each; `edge`: the box of all. All is in the
    dark where the sun is behind the panel.
    """
    across, along, facing = (dot(sun, frame[1]), dot(sun, frame[2]), dot(sun, frame[3]))
    touched = False
    if facing <= _GRAZING:
        shares[:] = 1.0
        return True
    near = False
    for n in range(len(kinds)):
        count = outline(int(kinds[n]), figures[n], sun, room.outline)
        room.corners[n] = laid(room.outline, count, frame, (across / facing, along / facing), room.shadows[n])
        boxed(room.shadows[n], int(room.corners[n]), room.boxes[n])
        if apart(room.boxes[n], edge):
            room.corners[n] = 0
        near = near or room.corners[n] > 0
    if not near:
        return False
    stretches(bands, room)
    for c in range(len(cells)):
        shares[c] = in_shadow(cells, c, int(band[c]), light, room)
        touched = touched or shares[c] > _NOTHING
    return touched


def boxed(shadow: Floats, count: int, box: Floats) -> None:
    """Set the edges between which a shadow lies."""
    box[0], box[1], box[2], box[3] = 1e300, 1e300, -1e300, -1e300
    for k in range(count):
        box[0], box[1] = min(box[0], shadow[k, 0]), min(box[1], shadow[k, 1])
        box[2], box[3] = max(box[2], shadow[k, 0]), max(box[3], shadow[k, 1])


def apart(one: Floats, other: Floats) -> bool:
    """Whether two boxes have nothing in common."""
    return bool(one[2] <= other[0] or one[0] >= other[2] or one[3] <= other[1] or one[1] >= other[3])


def dot(one: Floats, other: Floats) -> float:
    """Product of two vectors."""
    return float(one[0] * other[0] + one[1] * other[1] + one[2] * other[2])


def outline(kind: int, figures: Floats, sun: Floats, corners: Floats) -> int:
    """Set the corners of what the sun sees of a thing; how many."""
    if kind == POST:
        return upright(figures, sun, corners)
    if kind == CROWN:
        return rounded(figures, sun, corners)
    for k in range(CORNERS):
        for axis in range(3):
            corners[k, axis] = figures[3 * k + axis]
    return CORNERS


def upright(figures: Floats, sun: Floats, corners: Floats) -> int:
    """A post: a rectangle across the sun's rays."""
    flat = max(hypot(sun[0], sun[1]), 1e-12)
    east, north = 0.5 * figures[4] * sun[1] / flat, -0.5 * figures[4] * sun[0] / flat
    for k in range(4):
        side = 1.0 if k in (1, 2) else -1.0
        corners[k, 0], corners[k, 1] = figures[0] + side * east, figures[1] + side * north
        corners[k, 2] = figures[2] if k < 2 else figures[3]
    return 4


def rounded(figures: Floats, sun: Floats, corners: Floats) -> int:
    """A crown: an ellipse across the sun's rays, its corners a little outside so that its area is kept."""
    turned, flat = atan2(sun[0], sun[1]), hypot(sun[0], sun[1])
    wide, tall = figures[3], sqrt((figures[4] * flat) ** 2 + (figures[3] * sun[2]) ** 2)
    swell = sqrt(2.0 * pi / ROUND / sin(2.0 * pi / ROUND))
    for k in range(ROUND):
        angle = 2.0 * pi * k / ROUND
        aside, above = swell * wide * cos(angle), swell * tall * sin(angle)
        corners[k, 0] = figures[0] + aside * cos(turned) - above * sun[2] * sin(turned)
        corners[k, 1] = figures[1] - aside * sin(turned) - above * sun[2] * cos(turned)
        corners[k, 2] = figures[2] + above * flat
    return ROUND


def laid(corners: Floats, count: int, frame: Floats, lean: tuple[float, float], shadow: Floats) -> int:
    """Lay an outline on a plane along the rays, but for what is behind the plane; how many corners."""
    made = 0
    for k in range(count):
        here, there = placed(corners[k], frame), placed(corners[(k + 1) % count], frame)
        if here[2] >= SKIN_M:
            shadow[made, 0], shadow[made, 1] = here[0] - lean[0] * here[2], here[1] - lean[1] * here[2]
            made += 1
        if (here[2] >= SKIN_M) != (there[2] >= SKIN_M):
            t = (here[2] - SKIN_M) / (here[2] - there[2])
            shadow[made, 0], shadow[made, 1] = (
                here[0] + t * (there[0] - here[0]),
                here[1] + t * (there[1] - here[1]),
            )
            made += 1
    return made if made > 2 else 0


def placed(point: Floats, frame: Floats) -> tuple[float, float, float]:
    """A point as the plane sees it: to the right, up, in front. [m]"""
    east, north, up = point[0] - frame[0, 0], point[1] - frame[0, 1], point[2] - frame[0, 2]
    return (
        east * frame[1, 0] + north * frame[1, 1] + up * frame[1, 2],
        east * frame[2, 0] + north * frame[2, 1] + up * frame[2, 2],
        east * frame[3, 0] + north * frame[3, 1] + up * frame[3, 2],
    )


def stretches(bands: Floats, room: Room) -> None:
    """Set where each shadow lies on the lines across each band of cells, and how many lie on it at all."""
    marks = room.marks
    for band in range(len(bands)):
        room.busy[band] = 0.0
        for n in range(len(room.corners)):
            box = room.boxes[n]
            if room.corners[n] == 0 or box[3] <= bands[band, 0] or box[1] >= bands[band, 1]:
                for line in range(LINES):
                    marks[band, line, n, 0], marks[band, line, n, 1] = 1.0, 0.0
                continue
            room.busy[band] += 1.0
            for line in range(LINES):
                height = bands[band, 0] + (line + 0.5) / LINES * (bands[band, 1] - bands[band, 0])
                first, last = stretch(room.shadows, n, int(room.corners[n]), height)
                marks[band, line, n, 0], marks[band, line, n, 1] = first, last


def in_shadow(cells: Floats, c: int, band: int, light: Floats, room: Room) -> float:
    """Share of a cell in shadow."""
    if room.busy[band] == 0.0 or clear_of_all(cells[c], room):
        return 0.0
    lost, left, right = 0.0, cells[c, 0], cells[c, 2]
    for line in range(LINES):
        lost += on_line(left, right, light, room.marks, band, line, room.ends)
    return lost / LINES


def clear_of_all(cell: Floats, room: Room) -> bool:
    """Whether no shadow comes near a cell."""
    near = False
    for n in range(len(room.corners)):
        near = near or (room.corners[n] > 0 and not apart(room.boxes[n], cell))
    return not near


def on_line(
    left: float, right: float, light: Floats, marks: Floats, band: int, line: int, ends: Floats
) -> float:
    """Share of a line across a cell that gets no light."""
    count, one = 0, 0
    for n in range(len(light)):
        first, last = max(marks[band, line, n, 0], left), min(marks[band, line, n, 1], right)
        if first < last:
            ends[count], ends[count + 1], one = first, last, n
            count += 2
    if count == 0:
        return 0.0
    if count == 2:
        return float((1.0 - light[one]) * (ends[1] - ends[0]) / (right - left))
    in_order(ends, count)
    lost = 0.0
    for k in range(count - 1):
        middle, left_over = 0.5 * (ends[k] + ends[k + 1]), 1.0
        for n in range(len(light)):
            if marks[band, line, n, 0] < middle < marks[band, line, n, 1]:
                left_over *= light[n]
        lost += (1.0 - left_over) * (ends[k + 1] - ends[k])
    return lost / (right - left)


def stretch(shadows: Floats, n: int, count: int, height: float) -> tuple[float, float]:
    """From where to where a shadow lies on a line; from 1 to 0 where it does not."""
    first, last = 1e300, -1e300
    for k in range(count):
        x, y = shadows[n, k, 0], shadows[n, k, 1]
        to = k + 1 if k + 1 < count else 0
        a, b = shadows[n, to, 0], shadows[n, to, 1]
        if (y <= height) != (b <= height):
            at = x + (a - x) * (height - y) / (b - y)
            first, last = min(first, at), max(last, at)
    return (first, last) if first <= last else (1.0, 0.0)


def in_order(numbers: Floats, count: int) -> None:
    """Put few numbers in rising order."""
    for k in range(1, count):
        one, j = numbers[k], k
        while j > 0 and numbers[j - 1] > one:
            numbers[j] = numbers[j - 1]
            j -= 1
        numbers[j] = one


def cast_many(
    suns: Floats,
    month: Floats,
    kinds: Floats,
    figures: Floats,
    light: Floats,
    frame: Floats,
    cells: Floats,
    bands: Floats,
    band: Floats,
    edge: Floats,
    room: Room,
    shares: Floats,
    row: Floats,
    rows: Floats,
) -> int:
    """Cast a panel's shadows at many suns; how many of them shade some cell, but not all of all.

    `light` has a row for each month. `row` gets the row of `rows` in which the shares of a sun's cells stand,
    or CLEAR or DARK; no more are written than there are rows.
    """
    found = 0
    for t in range(len(suns)):
        row[t] = CLEAR
        if not cast(
            suns[t], kinds, figures, light[int(month[t])], frame, cells, bands, band, edge, room, shares
        ):
            continue
        least = 1.0
        for c in range(len(cells)):
            least = min(least, shares[c])
        if least > 1.0 - _NOTHING:
            row[t] = DARK
            continue
        row[t] = float(found)
        if found < len(rows):
            for c in range(len(cells)):
                rows[found, c] = shares[c]
        found += 1
    return found
