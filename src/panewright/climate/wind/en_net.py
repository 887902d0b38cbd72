"""How much of the peak pressure stays on the panel, by EN 1991-1-4: net coefficients of five mountings.

Free-standing and on a pole: monopitch canopy [C], blockage 0 or 1, whichever is worse. Middle: zone A over
the whole pane; it lies well above the overall force coefficient. The edge strips B and C, a tenth of the
panel wide and higher still, lie by the rails of a pane held all round: they add to the line load on rails and
bead (`edge_factors`), not to the pane, unless the order says that the panel is the edge or the corner of a
large canopy: then the worse of both counts everywhere. Past 30 degrees the
table ends: the larger of its last row and of a signboard [S] is taken, a judgement between two rules.

As a whole, for what holds it: the canopy's force coefficient c_f, its force a quarter of the length from
either edge [C]; past 30 degrees the signboard's 1.8 as well. On one post any force is taken 0.25 of the
width to a side, the signboard's own step [S].

Roof-parallel: local external coefficients cpe,1 of duopitch and monopitch roofs [D], worst wind direction,
by zone, no relief for the gap: 7.2.10 has none for skins that are open at their edges. A monopitch roof is
worse; where the order does not say which, the worse of both counts. Along the ridge lies zone J, 1.5 at
most: it is within zone G's 2.0, so a panel by the ridge belongs to the edge. Where a table has no cpe,1,
cpe,10 is meant. Wall: cpe,1 of zone B or A [W].

On a flat roof the open ground's figures stand beside a check that never passes: EN has no rule for it.

[C] EN 1991-1-4:2005+A1 table 7.6 (read in a public copy) and figure 7.16 (recalled).
[S] EN 1991-1-4 7.4.3, c_f 1.80, 0.25 b (recalled).
[D] EN 1991-1-4 tables 7.2, 7.3a, 7.3b, 7.4a and 7.4b, zones F, G, H and J (read in public copies).
[W] EN 1991-1-4 table 7.1, zones A, B and D, cpe,1 (recalled).
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Roof, Site, Zone
from panewright.climate.wind.net import Grip, Net, Way, lean_check, roof_unruled, tilt_check, two_ways

TABLE_END_DEG = 30.0
BOARD, BOARD_ACROSS = 1.8, 0.25  #: c_f, and the step to a side, of the width [S]
STRIP = 0.1  #: of the side, zones B and C [C]
CANOPY_ALONG = 0.25  #: of the length, from the middle to either edge [C]

_TILT = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
_ZONE_A = (  # press; lift with nothing under the panel; lift blocked to the downwind edge
    (0.5, 0.8, 1.2, 1.4, 1.7, 2.0, 2.2),
    (0.6, 1.1, 1.5, 1.8, 2.2, 2.6, 3.0),
    (1.5, 1.6, 2.1, 1.6, 1.6, 1.5, 1.5),
)
_ZONE_B = (
    (1.8, 2.1, 2.4, 2.7, 2.9, 3.1, 3.2),
    (1.3, 1.7, 2.0, 2.4, 2.8, 3.2, 3.8),
    (1.8, 2.2, 2.6, 2.9, 2.9, 2.5, 2.2),
)
_ZONE_C = (
    (1.1, 1.3, 1.6, 1.8, 2.1, 2.3, 2.4),
    (1.4, 1.8, 2.1, 2.5, 2.9, 3.2, 3.6),
    (2.2, 2.5, 2.7, 3.0, 3.0, 2.8, 2.7),
)
_WHOLE = (
    (0.2, 0.4, 0.5, 0.7, 0.8, 1.0, 1.2),
    (0.5, 0.7, 0.9, 1.1, 1.3, 1.6, 1.8),
    (1.3, 1.4, 1.4, 1.4, 1.4, 1.4, 1.4),
)
_DUOPITCH_LIFT = {"middle": 1.2, "edge": 2.0, "corner": 2.5}  # the largest over all tilts
_MONOPITCH_TILT = (0.0, 5.0, 15.0, 30.0, 45.0, 60.0, 75.0)
_MONOPITCH_LIFT = {  # the largest of all directions; flat roofs at 0
    "middle": (1.2, 1.2, 1.2, 1.3, 1.3, 1.3, 1.3),
    "edge": (2.0, 2.0, 2.5, 2.0, 2.0, 2.0, 2.0),
    "corner": (2.5, 2.6, 2.9, 2.9, 2.4, 2.0, 2.0),
}
_ROOF_TILT = (0.0, 15.0, 30.0, 45.0, 60.0, 75.0)
_ROOF_PRESS = {
    "middle": (0.2, 0.2, 0.4, 0.6, 0.7, 0.8),
    "edge": (0.2, 0.2, 0.7, 0.7, 0.7, 0.8),
    "corner": (0.2, 0.2, 0.7, 0.7, 0.7, 0.8),
}
_WALL_LIFT, _WALL_PRESS = {"middle": -1.1, "edge": -1.4, "corner": -1.4}, 1.0
_FACE, _BACK = "wind on the face", "wind on the back"
_ONTO, _OVER = "wind onto it", "wind over or past it"


def canopy_coefficients(tilt_deg: float, zone: Zone = "middle") -> tuple[float, float]:
    """Largest net coefficient that presses and largest that lifts. [-]  [C], past 30 degrees [S].

    >>> canopy_coefficients(20), canopy_coefficients(20, "edge")
    ((1.7, 2.2), (2.9, 3.0))
    """
    tables = (_ZONE_A,) if zone == "middle" else (_ZONE_B, _ZONE_C)
    pairs = [_pair(table, tilt_deg) for table in tables]
    press, lift = max(pair[0] for pair in pairs), max(pair[1] for pair in pairs)
    if tilt_deg > TABLE_END_DEG:
        return max(press, BOARD), max(lift, BOARD)
    return press, lift


def net_coefficients(site: Site) -> Net:
    """Net coefficients of a site's mounting, tilt and zone, and the tilts they hold for."""
    if site.in_the_open:
        return _open(site)
    return _wall(site) if site.mounting == "wall" else _roof(site)


def open_grips(tilt_deg: float, *, one_post: bool) -> tuple[Grip, ...]:
    """How the wind takes hold of the whole panel."""
    press, lift = _pair(_WHOLE, tilt_deg)
    sideways = BOARD_ACROSS if one_post else 0.0
    canopies = tuple(
        Grip(f"{words}, canopy, towards the {edge} edge", coefficient, along, sideways)
        for words, coefficient in ((_FACE, press), (_BACK, -lift))
        for edge, along in (("low", -CANOPY_ALONG), ("high", CANOPY_ALONG))
    )
    boards = (
        Grip(f"{_FACE}, signboard", BOARD, 0.0, BOARD_ACROSS),
        Grip(f"{_BACK}, signboard", -BOARD, 0.0, BOARD_ACROSS),
    )
    return canopies if tilt_deg <= TABLE_END_DEG else (*canopies, *boards)


def _pair(table: tuple[tuple[float, ...], ...], tilt_deg: float) -> tuple[float, float]:
    """Press, and the worse lift of both blockages."""
    press, empty, blocked = (float(np.interp(tilt_deg, _TILT, row)) for row in table)
    return press, max(empty, blocked)


def _open(site: Site) -> Net:
    net, checks = _canopy(site.tilt_deg, site.wind_zone, site.mounting == "pole"), roof_unruled(site)
    return replace(net, checks=checks) if checks else net


@lru_cache(maxsize=64)
def _canopy(tilt_deg: float, zone: Zone, one_post: bool) -> Net:
    """Of a panel in open ground; kept, for whoever looks for a safe speed asks again at every speed."""
    down, up = canopy_coefficients(tilt_deg, zone)
    name = "zone A" if zone == "middle" else "worse of zones B and C"
    if tilt_deg <= TABLE_END_DEG:
        words = f"c_p,net of a monopitch canopy, {name}, worse blockage, all directions"
    else:
        words = f"larger of a canopy's c_p,net at 30 degrees, {name}, and a signboard's c_f (a judgement)"
    grips = open_grips(tilt_deg, one_post=one_post)
    edges = edge_factors(tilt_deg) if zone == "middle" else (1.0, 1.0)
    return Net(two_ways(down, up, _FACE, _BACK), words, (), grips, *edges, _open_notes(tilt_deg, edges))


def edge_factors(tilt_deg: float) -> tuple[float, float]:
    """What a pane's edges bear over what zone A alone would bring them, pressing and lifting. [-]

    A strip across the pane between two edges: (A a / 2 + (R - A) a / 10) / (A a / 2), R the worse of zones B
    and C on the tenth at either end. Statics.

    >>> [round(factor, 3) for factor in edge_factors(20)]
    [1.141, 1.073]
    """
    inner, rim = canopy_coefficients(tilt_deg), canopy_coefficients(tilt_deg, "edge")
    down, up = (1 + 2 * STRIP * (outer / middle - 1) for middle, outer in zip(inner, rim, strict=True))
    return down, up


def _open_notes(tilt_deg: float, edges: tuple[float, float]) -> tuple[Reckoning, ...]:
    """Which rule was taken, where its table ends, and what its edge strips add."""
    rows = (
        Reckoning("canopy of EN 1991-1-4 table 7.6, tilts up to", TABLE_END_DEG, "deg"),
        Reckoning("strips B and C along the edges, line load on rails and bead, pressing", edges[0], "-"),
        Reckoning("the same, lifting", edges[1], "-"),
    )
    if tilt_deg <= TABLE_END_DEG:
        return rows
    return *rows, Reckoning("steeper: signboard of 7.4.3 or the last row, c_f (a judgement)", BOARD, "-")


def _wall(site: Site) -> Net:
    lift = _WALL_LIFT[site.wind_zone]
    zone = "B" if site.wind_zone == "middle" else "A"
    leans = lean_check(site.tilt_deg, "EN 13830 scope: walls are within 15 degrees of upright")
    words = f"c_pe,1 of a wall's zones D and {zone}, gap not counted"
    return Net(two_ways(_WALL_PRESS, -lift, _ONTO, _OVER), words, (leans,))


def _roof(site: Site) -> Net:
    zone = site.wind_zone
    press = float(np.interp(site.tilt_deg, _ROOF_TILT, _ROOF_PRESS[zone]))
    name = {"middle": "H", "edge": "G and J", "corner": "F"}[zone]
    shape = (
        f"a {site.roof} roof's zone" if site.roof else "the worse of a duopitch and a monopitch roof's zone"
    )
    words = f"c_pe,1 of {shape} {name}, gap not counted"
    steep = tilt_check(site.tilt_deg, 75.0, "EN 1991-1-4 tables 7.3 and 7.4")
    ways = Way(_ONTO, press, 0.0), Way(_OVER, 0.0, roof_lift(site.tilt_deg, zone, site.roof))
    return Net(ways, words, (steep, *_clear_of_the_edge(site)))


def roof_lift(tilt_deg: float, zone: Zone, roof: Roof | None) -> float:
    """Largest c_pe,1 that lifts, over all directions; the worse of both shapes where none is named. [-]  [D]

    >>> roof_lift(15, "edge", "duopitch"), roof_lift(15, "edge", "monopitch"), roof_lift(45, "corner", None)
    (2.0, 2.5, 2.5)
    """
    lifts = {
        "duopitch": _DUOPITCH_LIFT[zone],
        "monopitch": float(np.interp(tilt_deg, _MONOPITCH_TILT, _MONOPITCH_LIFT[zone])),
    }
    return lifts[roof] if roof else max(lifts.values())


def _clear_of_the_edge(site: Site) -> tuple[Check, ...]:
    """Zone H begins a tenth of e from the roof's edges, e no more than twice the height."""
    if site.wind_zone != "middle":
        return ()
    return (
        Check(
            "panel clear of the roof's edge zones",
            0.1 * 2 * site.height_m * 1000,
            site.roof_edge_mm,
            "mm",
            "EN 1991-1-4 7.2.4 and 7.2.5: e/10, e at most 2 h",
            'Write zone = "edge" or "corner", or move the panel further from eave, verge and ridge.',
            "climate",
        ),
    )
