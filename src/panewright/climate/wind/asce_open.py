"""Panels in the open by ASCE 7: a monoslope free roof up to 45 degrees, a freestanding sign beyond.

Middle: the figure for the frame of an open building, clear flow [F]; of each wind direction the worse case
and the fuller half, taken over the whole panel. These are also the numbers of zone 1 of the figure for
cladding [C]. Edge and corner: zones 2 and 3 of [C] at their smallest area, for a panel that is the edge of
a large free roof.

Direction 0 comes over the high edge and meets the back, direction 180 comes over the low edge and meets the
face: the signs of [F] say so. Past 45 degrees both end; the worse of the last row and of a sign [S] is
taken. The sign's 2.60 is that of the first part of a sign three times as wide as high (case C): no lone
panel is wider. Where that is more than the last row, a straight line from 45 to 60 degrees joins them.

As a whole, for what holds it: [F] gives each half of the roof its coefficient, and so the place of the
force. A sign is pushed at its middle or 0.2 of its width to a side (cases A and B); on one post any force
is taken so far to the side, at all tilts (a judgement: the free roof says nothing of slanting winds).

[F] ASCE 7-16 figure 27.3-4, in 7-10 27.4-4 (read: two public copies of the table).
[C] ASCE 7-16 figure 30.7-1, in 7-05 6-19A (read: a national code that reprints it).
[S] ASCE 7-16 figure 29.3-1 (read: the same).
True for a roof no higher above the ground than it is long (h/L 0.25 to 1 in both figures): a panel whose
middle stands higher, or much lower, lies outside that, and the check tells it. A sign alone, from 60 degrees
on, has no such range.
"""

from __future__ import annotations

import numpy as np

from panewright.check import Check
from panewright.climate.site import Zone
from panewright.climate.wind.net import Grip, Way

GUST = 0.85  #: G of a rigid structure, 26.11
TABLE_END_DEG, SIGN_DEG = 45.0, 60.0
HEIGHT_OVER_LENGTH = 0.25, 1.0  #: mean height over length in plan [F], [C]
SIGN = 2.60  #: Cf, case C of a sign of B/s 3, its first part [S]
SIGN_WHOLE = 1.95  #: Cf, the largest of cases A and B over all shapes [S]
SIGN_ACROSS = 0.2  #: of the width, case B [S]

_TILT = (0.0, 7.5, 15.0, 22.5, 30.0, 37.5, 45.0)
# C_NW, C_NL of the windward and the leeward half, cases A and B; plus presses on the face, minus lifts it.
_BACK = (
    ((1.2, 0.3), (-0.6, -1.0), (-0.9, -1.3), (-1.5, -1.6), (-1.8, -1.8), (-1.8, -1.8), (-1.6, -1.8)),
    ((-1.1, -0.1), (-1.4, 0.0), (-1.9, 0.0), (-2.4, -0.3), (-2.5, -0.5), (-2.4, -0.6), (-2.3, -0.7)),
)
_FACE = (
    ((1.2, 0.3), (0.9, 1.5), (1.3, 1.6), (1.7, 1.8), (2.1, 2.1), (2.1, 2.2), (2.2, 2.5)),
    ((-1.1, -0.1), (1.6, 0.3), (1.8, 0.6), (2.2, 0.7), (2.6, 1.0), (2.7, 1.1), (2.6, 1.4)),
)
_ZONE_TILT = (0.0, 7.5, 15.0, 30.0, 45.0)
_ZONES = {  # press, lift
    "edge": ((1.8, 2.4, 2.7, 3.9, 3.9), (1.7, 2.1, 2.9, 3.8, 3.5)),
    "corner": ((2.4, 3.2, 3.6, 5.2, 5.2), (3.3, 4.2, 3.8, 5.0, 4.6)),
}
_FROM_LOW, _FROM_HIGH = "wind on the face, over the low edge", "wind on the back, over the high edge"


def free_roof_coefficients(tilt_deg: float) -> tuple[float, float]:
    """Largest C_N that presses and largest that lifts, over directions, cases and halves. [-]  [F]

    Straight between the table's tilts; below 7.5 degrees no less than the figure's own note gives, which
    is the row of 0 degrees.

    >>> free_roof_coefficients(30)
    (2.6, 2.5)
    """
    face, back = free_roof_ways(tilt_deg)
    return max(face.down, back.down), max(face.up, back.up)


def free_roof_ways(tilt_deg: float) -> tuple[Way, Way]:
    """The same, wind on the face and wind on the back apart; up to 45 degrees, and its last row beyond."""
    return _way(_FROM_LOW, _FACE, tilt_deg), _way(_FROM_HIGH, _BACK, tilt_deg)


def open_ways(tilt_deg: float, zone: Zone) -> tuple[Way, Way]:
    """Coefficients without the gust factor at any tilt, by zone. [-]

    >>> [(way.down, way.up) for way in open_ways(30, "edge")]
    [(3.9, 0.0), (0.0, 3.8)]
    """
    face, back = free_roof_ways(tilt_deg) if zone == "middle" else _zone_ways(tilt_deg, zone)
    if tilt_deg <= TABLE_END_DEG:
        return face, back
    return Way(face.words, _joined(face.down, tilt_deg), face.up), Way(
        back.words, back.down, _joined(back.up, tilt_deg)
    )


def height_check(top_mm: float, rise_mm: float, reach_mm: float) -> Check:
    """Mean height over length in plan, against the range of [F] and [C]; too low is turned round.

    >>> height_check(2000.0, 1000.0, 1000.0).demand
    1.5
    """
    ratio = (top_mm - rise_mm / 2) / reach_mm
    least, most = HEIGHT_OVER_LENGTH
    demand, limit = (least, ratio) if ratio < least else (ratio, most)
    way = "Raise" if ratio < least else "Lower"
    fits_mm = rise_mm / 2 + reach_mm * (least if ratio < least else most)
    return Check(
        "height over length within the free-roof figure",
        demand,
        limit,
        "-",
        "ASCE 7-16 figures 27.3-4 and 30.7-1, h/L 0.25 to 1",
        f"{way} the panel's top to {fits_mm:.0f} mm above what it stands on, tilt it "
        f"{SIGN_DEG:g} degrees or more, or let an engineer find C_N for h/L {ratio:.2f} (wind "
        "tunnel, ASCE 7 chapter 31).",
        "climate",
    )


def open_grips(tilt_deg: float, *, one_post: bool) -> tuple[Grip, ...]:
    """How the wind takes hold of the whole panel, gust included."""
    sideways = SIGN_ACROSS if one_post else 0.0
    roofs = tuple(
        _grip(f"{words}, free roof, case {case}", halves, toward, sideways)
        for words, table, toward in ((_FROM_LOW, _FACE, -1.0), (_FROM_HIGH, _BACK, 1.0))
        for case, row in zip("AB", table, strict=True)
        for halves in _halves(row, tilt_deg)
    )
    signs = (
        Grip(f"{_FROM_LOW}, sign", GUST * SIGN_WHOLE, 0.0, SIGN_ACROSS),
        Grip(f"{_FROM_HIGH}, sign", -GUST * SIGN_WHOLE, 0.0, SIGN_ACROSS),
    )
    return roofs if tilt_deg <= TABLE_END_DEG else (*roofs, *signs)


def _way(words: str, table: tuple[tuple[tuple[float, float], ...], ...], tilt_deg: float) -> Way:
    columns = np.array(table).transpose(0, 2, 1).reshape(-1, len(_TILT))
    values = [float(np.interp(tilt_deg, _TILT, column)) for column in columns]
    if tilt_deg < _TILT[1]:
        values += [float(column[0]) for column in columns]
    return Way(words, max(0.0, *values), max(0.0, *(-value for value in values)))


def _zone_ways(tilt_deg: float, zone: Zone) -> tuple[Way, Way]:
    press, lift = (float(np.interp(tilt_deg, _ZONE_TILT, row)) for row in _ZONES[zone])
    return Way(_FROM_LOW, press, 0.0), Way(_FROM_HIGH, 0.0, lift)


def _joined(last_row: float, tilt_deg: float) -> float:
    """From the table's last row to the larger of it and a sign."""
    return float(np.interp(tilt_deg, (TABLE_END_DEG, SIGN_DEG), (last_row, max(last_row, SIGN))))


def _halves(row: tuple[tuple[float, float], ...], tilt_deg: float) -> tuple[tuple[float, float], ...]:
    """C_NW and C_NL at a tilt; below 7.5 degrees, where the sign turns, both rows as they are printed."""
    if tilt_deg < _TILT[1]:
        return row[0], row[1]
    windward, leeward = (float(np.interp(tilt_deg, _TILT, column)) for column in np.array(row).T)
    return ((windward, leeward),)


def _grip(words: str, halves: tuple[float, float], toward: float, sideways: float) -> Grip:
    """Two even halves as one force; each half's own lies a quarter of the length from the middle. Statics."""
    windward, leeward = halves
    share = 0.25 * (windward - leeward) / (windward + leeward)
    return Grip(words, GUST * (windward + leeward) / 2, toward * share + 0.0, sideways)  # never minus nothing
