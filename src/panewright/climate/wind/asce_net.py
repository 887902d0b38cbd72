"""How much of the velocity pressure stays on the panel, by ASCE 7: net coefficients of five mountings.

Free-standing and on a pole: see `asce_open`. On a flat roof: `asce_roof`, in 7-16 and 7-22; older editions
have no rule, and the open ground's figures stand beside a check that never passes.

All coefficients are those of 7-16; under another edition each line of the reckoning says so.

Roof-parallel: external GCp of gable roofs [R] for 10 ft2 by zone: away from all edges, along them and the
ridge, in the corners; times gamma_E gamma_a = 1.5 x 0.8 = 1.2 of 29.4.4 [A16]: one panel is all edge, and
its small area earns little equalisation. The rule is for panels no more than 10 in above the roof and at
least twice that gap from its edges and ridge. No relief is taken for the gap in editions without it either.

Wall: external GCp of walls [W], zone 4 or 5, no relief for the gap behind. Walls have no corner zone of
their own: zone 5 is taken.

[R] ASCE 7-16 figures 30.3-2A to D at 10 ft2, zones 2 (recalled; the larger where memory wavers); zones 1
    and 3 to 27 degrees as in 7-22 (read in a public copy), beyond recalled.
[W] ASCE 7-16 figure 30.3-1 at 10 ft2, zones 4 and 5 (read in a public copy).
[A16] ASCE 7-16 29.4.4 (that gamma_E is 1.5 or 1, that the product runs from 0.4 to 1.2 and that the gap is
    10 in at most was read; the distance from edges is recalled), 30.2.2.
"""

from __future__ import annotations

from dataclasses import replace

from panewright.check import Check
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Edition, Site, Size
from panewright.climate.wind.asce_open import (
    GUST,
    SIGN_DEG,
    TABLE_END_DEG,
    height_check,
    open_grips,
    open_ways,
)
from panewright.climate.wind.asce_roof import roof_stand
from panewright.climate.wind.net import Net, Way, lean_check, roof_unruled, tilt_check, two_ways
from panewright.units import PSF_PA

OF_EDITION = "ASCE 7-16"  #: whose coefficients these are
# Up to this tilt: lift (minus) by zone, and press (plus), GCp.
_GABLE = (
    (7.0, {"middle": -1.7, "edge": -2.3, "corner": -3.2}, 0.3),
    (20.0, {"middle": -2.0, "edge": -3.0, "corner": -3.6}, 0.7),
    (27.0, {"middle": -1.5, "edge": -2.5, "corner": -3.6}, 0.7),
    (45.0, {"middle": -1.8, "edge": -2.0, "corner": -3.2}, 0.9),
)
_WALL_LIFT, _WALL_PRESS = {"middle": -1.1, "edge": -1.4, "corner": -1.4}, 1.0
_ONE_PANEL = 1.5 * 0.8  # gamma_E of an exposed edge, gamma_a of a small area
_LOW_RISE_M = 18.288  # 60 ft: the cladding figures end
_MOST_GAP_MM = 254.0  # 10 in
_EDGE_GAPS = 2.0  # panels lie at least so many gaps from the roof's edges and ridge
_ONTO, _OVER = "wind onto it", "wind over or past it"


def least_pressure_pa(edition: Edition) -> float:
    """No piece of cladding is designed for less, either way: 16 psf, 10 psf in 2005. [Pa]  30.2.2."""
    return (10 if edition == "ASCE 7-05" else 16) * PSF_PA


def net_coefficients(site: Site, size: Size | None = None) -> Net:
    """Net coefficients of a site's mounting, tilt and zone with the gust factor in them."""
    net = _of_mounting(site, size)
    return net if site.wind.edition == OF_EDITION else replace(net, words=net.words + _of_edition(site))


def _of_edition(site: Site) -> str:
    """The coefficients' own edition, where the order's is another. [words]"""
    return f"; coefficient of {OF_EDITION}, taken under {site.wind.edition}"


def _of_mounting(site: Site, size: Size | None) -> Net:
    if site.by_roof_rule:
        return roof_stand(site, size)
    if site.in_the_open:
        return _open(site)
    return _wall(site) if site.mounting == "wall" else _roof(site)


def _open(site: Site) -> Net:
    ways = tuple(
        Way(way.words, GUST * way.down, GUST * way.up) for way in open_ways(site.tilt_deg, site.wind_zone)
    )
    zone = {"middle": "C_N", "edge": "C_N of zone 2", "corner": "C_N of zone 3"}[site.wind_zone]
    words = f"{zone} of a monoslope free roof, clear flow, worst of cases and halves, times G"
    if site.tilt_deg > TABLE_END_DEG:
        words = (
            f"larger of {zone} of a free roof at 45 degrees and a freestanding sign's C_f, joined up to "
            f"{SIGN_DEG:g} degrees (a judgement), times G"
        )
    grips = open_grips(site.tilt_deg, one_post=site.mounting == "pole")
    return Net(ways, words, roof_unruled(site), grips, notes=_open_notes(site))


def _open_notes(site: Site) -> tuple[Reckoning, ...]:
    """Which rule was taken, and what it was measured for."""
    figures = "27.3-4" if site.wind_zone == "middle" else "30.7-1"
    rows = [Reckoning(f"free roof of ASCE 7-16 figure {figures}, tilts up to", TABLE_END_DEG, "deg")]
    if site.tilt_deg > TABLE_END_DEG:
        rows.append(
            Reckoning("steeper: freestanding sign of figure 29.3-1 from (a judgement)", SIGN_DEG, "deg")
        )
    return tuple(rows)


def height_checks(site: Site, rise_mm: float, reach_mm: float) -> tuple[Check, ...]:
    """A panel in the open against the range of the free roof's figure; none where a sign alone is taken."""
    ruled = site.family == "ASCE" and site.in_the_open and not site.by_roof_rule
    if not ruled or site.tilt_deg >= SIGN_DEG:
        return ()
    return (height_check(1000 * site.height_m, rise_mm, reach_mm),)


def _wall(site: Site) -> Net:
    lift = _WALL_LIFT[site.wind_zone]
    zone = 4 if site.wind_zone == "middle" else 5
    leans = lean_check(site.tilt_deg, "walls are within 15 degrees of upright (common practice)")
    words = f"GCp of a wall's zone {zone}, gap not counted"
    return Net(two_ways(_WALL_PRESS, -lift, _ONTO, _OVER), words, (_low(site), leans))


def _roof(site: Site) -> Net:
    _, lifts, press = next((row for row in _GABLE if site.tilt_deg <= row[0]), _GABLE[-1])
    lift = lifts[site.wind_zone]
    zone = {"middle": 1, "edge": 2, "corner": 3}[site.wind_zone]
    words = f"GCp of a gable roof's zone {zone} times 1.5 x 0.8 for one panel over a gap"
    ways = two_ways(press * _ONE_PANEL, -lift * _ONE_PANEL, _ONTO, _OVER)
    steep = tilt_check(site.tilt_deg, 45.0, "ASCE 7-16 figure 30.3-2")
    return Net(ways, words, (_low(site), steep, *_gap_checks(site)))


def _low(site: Site) -> Check:
    return Check(
        "height under the cladding figures",
        site.height_m,
        _LOW_RISE_M,
        "m",
        "ASCE 7-16 figures 30.3-1 and 30.3-2",
        "Let an engineer find the wind on a building this high.",
        "climate",
    )


def _gap_checks(site: Site) -> tuple[Check, Check]:
    """The scope of 29.4.4: low over the roof, and clear of its edges."""
    needed = _EDGE_GAPS * site.roof_gap_mm
    away = "Move the panel away from eave, verge and ridge, or lower it towards the roof."
    return (
        Check(
            "gap between roof and panel within the rule",
            site.roof_gap_mm,
            _MOST_GAP_MM,
            "mm",
            "ASCE 7-16 29.4.4: 10 in",
            "Mount the panel closer to the roof, or let an engineer find the wind on it.",
            "climate",
        ),
        Check(
            "panel clear of the roof's edges and ridge",
            needed,
            site.roof_edge_mm,
            "mm",
            "ASCE 7-16 29.4.4: twice the gap; from memory",
            away,
            "climate",
        ),
    )
