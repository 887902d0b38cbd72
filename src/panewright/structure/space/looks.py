"""What is read off runs that stand, as loops: for where thousands of frames are asked (space/compiled.py).

What `figures` does with whole tables is done here member by member. Every function is plain enough to be
compiled.
"""

from __future__ import annotations

from math import inf

from panewright.structure.space.member import Array

SAG, SIDEWAYS, TWIST, STRESS, TORSION, SHEAR = range(6)  #: of the figures


def cubic(shape: Array, look: int, first: float, first_slope: float, last: float, last_slope: float) -> float:
    """A cubic by its ends and the slopes there, in one look."""
    found: float = shape[look, 0] * first + shape[look, 1] * first_slope
    found += shape[look, 2] * last + shape[look, 3] * last_slope
    return found


def sagged(
    place: Array,
    moved: Array,
    ends: Array,
    seat: Array,
    under: tuple[float, float],
    bead: Array,
    gj: float,
    shape: Array,
    told: Array,
) -> None:
    """Sag and twist of one run; `under` are the first and the last place of its load."""
    high, low, twisted = -inf, inf, 0.0
    for m in range(ends.shape[0]):
        length = place[m + 1] - place[m]
        pace = length / (gj * seat[m])
        for look in range(shape.shape[0]):
            twist = cubic(shape, look, moved[m, 3], -ends[m, 3] * pace, moved[m + 1, 3], ends[m, 9] * pace)
            twisted = max(twisted, abs(twist))
            at = place[m] + length * (0.25 * look)
            if under[0] < at < under[1]:
                falls, more = -moved[m, 4] * length, -moved[m + 1, 4] * length
                edge = cubic(shape, look, moved[m, 2], falls, moved[m + 1, 2], more) + bead[0] * twist
                high, low = max(high, edge), min(low, edge)
    told[SAG], told[TWIST] = high - low, twisted


def stressed(
    place: Array, ends: Array, centroid: Array, rows: Array, mixed: float, shape: Array, told: Array
) -> None:
    """Largest stress of one run; where `mixed` is a number, a line held rigid tells the moment sideways."""
    most, (inward, up) = 0.0, (centroid[0], centroid[1])
    for m in range(ends.shape[0]):
        e, length = ends[m], place[m + 1] - place[m]
        pull = e[6]
        for look in range(shape.shape[0]):
            across = cubic(shape, look, e[4] - up * e[0], e[2] * length, up * pull - e[10], -e[8] * length)
            first, last = -e[5] - inward * e[0], inward * pull + e[11]
            beside = cubic(shape, look, first, e[1] * length, last, -e[7] * length)
            if mixed == mixed:
                beside = across * mixed
            for fibre in range(rows.shape[0]):
                stress = rows[fibre, 0] * pull + rows[fibre, 1] * beside + rows[fibre, 2] * across
                most = max(most, abs(stress))
    told[STRESS] = most


def forced(moved: Array, ends: Array, bead: Array, torsion: float, area: Array, told: Array) -> None:
    """Largest movement sideways of one run, and shear of twisting and of forces."""
    sideways, torque, shear = 0.0, 0.0, 0.0
    for n in range(moved.shape[0]):
        sideways = max(sideways, abs(moved[n, 1] - bead[1] * moved[n, 3]))
    for m in range(ends.shape[0]):
        torque = max(torque, abs(ends[m, 3]), abs(ends[m, 9]))
        for way in range(2):
            force = max(abs(ends[m, 1 + way]), abs(ends[m, 7 + way]))
            shear = max(shear, 1.25 * force / area[way])
    told[SIDEWAYS], told[TORSION], told[SHEAR] = sideways, torque / torsion, shear
