"""Which metals touch on a panel, by how much of each the same water wets.

Water that bridges a joint wets the rail for about 150 mm on either side, of a corner past both ends of its
clip (common practice, no source).
Copper ribbons lie inside silicone or film, a creepage away from the frame: they touch no aluminium.
"""

from __future__ import annotations

from typing import Literal

from panewright.check import Check
from panewright.climate.site import Site
from panewright.frame.metals.galvanic import Air, Metal, Pair, judge_pair
from panewright.frame.rail import Rail
from panewright.frame.support.clip import Clip
from panewright.structure.corners.corner import APART_MM, TOE_MM
from panewright.structure.drilling.fixing import Joint

Isolate = Literal["as needed", "always", "never"]
_REACH_MM = 150.0  # of a film of water along a rail, either side
_BOLT_MM2 = 500.0  # M6: both washers, head and nut, from their sizes
_SCREW_MM2 = 320.0  # M5: the same
_LUG_MM2 = 500.0  # a lug of 8 x 20 mm on both faces, with its washer


def air_of(site: Site) -> Air:
    """Salt on open coast, EN terrain 0 and ASCE exposure D; else damp, as everywhere out of doors."""
    return "salt" if site.wind.ground in ("0", "D") else "damp"


def kept_apart(isolate: Isolate, air: Air) -> bool:
    """Whether washers and paste go under every stainless fastener."""
    return isolate == "always" or (isolate == "as needed" and air == "salt")


def pairs(rail: Rail, joint: Joint | None, *, apart: bool) -> tuple[Pair, ...]:
    """Every pair of unlike metals on the outside of a panel."""
    round_mm = 2 * (rail.seat_mm + rail.upright_mm)
    leg = _leg_mm(joint.clip) if joint else 0.0
    wet, at_corner = 2 * _REACH_MM * round_mm, 2 * (_REACH_MM + leg) * round_mm
    bolt = Pair("bracket bolts", "stainless", "aluminium", _BOLT_MM2, wet, apart)
    lug = Pair("tinned earth lug", "tin", "aluminium", _LUG_MM2, wet, apart)
    return bolt, lug, *(_at_corner(joint, at_corner, apart) if joint else ())


def _at_corner(joint: Joint, wet_mm2: float, apart: bool) -> tuple[Pair, ...]:
    """The clip with all four of its fasteners, by what is stainless of them."""
    stainless = 4 * _SCREW_MM2 if joint.metal == "stainless" else 0.0
    stainless += _clip_mm2(joint.clip) if joint.clip.metal == "stainless" else 0.0
    metal: Metal = "stainless"
    if not stainless:
        return ()
    return (Pair("corner clips and fasteners", metal, "aluminium", stainless, wet_mm2, apart),)


def _leg_mm(clip: Clip) -> float:
    return clip.from_end_mm + APART_MM + TOE_MM


def _clip_mm2(clip: Clip) -> float:
    """One face and the rims of both legs; the other face lies on the rail."""
    leg = _leg_mm(clip)
    return 2 * (leg * clip.wide_mm + 2 * (leg + 2 * clip.wide_mm) * clip.wall_mm)


def contact_checks(rail: Rail, joint: Joint | None, air: Air, *, apart: bool) -> tuple[Check, ...]:
    """Every pair in the air of the site."""
    return tuple(judge_pair(pair, air) for pair in pairs(rail, joint, apart=apart))
