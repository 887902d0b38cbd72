"""What wind does to one post under the middle of a panel.

    N square to the panel, s up its slope and e to a side of its middle, h over the ground:
    level N sin tilt,  moment N (h sin tilt + s),  across it N cos tilt e,  twist N sin tilt e

Wind on the post itself acts halfway up (force coefficient 1.2 of a round, 2.0 of a square one: ASCE 7-16
figure 29.4-1, EN 1991-1-4 7.6 and 7.9, recalled, both no less).

Snow lies with every wind; what piles up over the low edge also turns the panel that way, and is added to
whichever wind turns it: the safe side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.frame.support.post import Post
from panewright.structure.mounting.forces import HOLDING, PRESSING, Panel, Wind
from panewright.units import GRAVITY_M_S2, MM

_DRAG = {"round": 1.2, "square": 2.0, "timber": 2.0}


@dataclass(frozen=True, slots=True)
class PostLoads:
    """What one wind does at the ground, level of design; all figures positive but the lift."""

    level_n: float
    moment_nm: float  #: in the wind's plane
    sideways_nm: float  #: across it
    torque_nm: float  #: about the post
    press_n: float  #: down, on the post's foot without its own concrete
    lift_n: float  #: up, less what holds down; negative where nothing lifts

    @property
    def arm_m(self) -> float:
        """Height at which the level force alone makes the whole moment. [m]"""
        return math.hypot(self.moment_nm, self.sideways_nm) / self.level_n if self.level_n > 0 else 0.0


def post_loads(panel: Panel, post: Post, height_mm: float) -> tuple[PostLoads, ...]:
    """Every wind on a post whose panel stands `height_mm` high at its middle; still air comes last."""
    still = Wind(0.0, 0.0, 0.0, 0.0)
    return tuple(_one(panel, post, height_mm, wind) for wind in (*panel.winds, still))


def _one(panel: Panel, post: Post, height_mm: float, wind: Wind) -> PostLoads:
    across, height = panel.across_n(wind), height_mm * MM
    on_post = panel.wind_on_post_pa * _DRAG[post.shape] * post.outer_mm * MM * height if across else 0.0
    off = wind.across_share * panel.width_mm * MM
    weight = panel.weight_n + post.kg_m * height * GRAVITY_M_S2
    pressed = panel.upright_n(max(0.0, across)) + PRESSING[panel.family] * weight
    return PostLoads(
        level_n=panel.level_n(abs(across)) + on_post,
        moment_nm=abs(panel.turning_nm(wind, height_mm)) + on_post * height / 2 + panel.drift_nm,
        sideways_nm=panel.upright_n(abs(across)) * off,
        torque_nm=panel.level_n(abs(across)) * off,
        press_n=pressed + panel.snow_n + panel.drift_n,
        lift_n=panel.upright_n(max(0.0, -across)) - HOLDING[panel.family] * weight,
    )


def bending_mpa(post: Post, moment_nm: float, sideways_nm: float, press_n: float) -> float:
    """Bending and pressing stress at the ground; a square post has corners. [MPa]"""
    corners = post.shape != "round"
    both = moment_nm + sideways_nm if corners else math.hypot(moment_nm, sideways_nm)
    return both / MM / post.modulus_mm3 + max(0.0, press_n) / post.area_mm2


def shear_mpa(post: Post, torque_nm: float, level_n: float) -> float:
    """Twisting and shear stress at the ground. [MPa]"""
    return torque_nm / MM / post.torsion_mm3 + level_n / post.shear_mm2


def critical_n(post: Post, young_mpa: float, height_mm: float) -> float:
    """Weight on top under which a post held in the ground goes aside by itself. [N]  Euler, a cantilever"""
    return float(math.pi**2 * young_mpa * post.inertia_mm4 / (2 * height_mm) ** 2)


def sway_factor(post: Post, young_mpa: float, height_mm: float, press_n: float) -> float:
    """By how much weight on top makes the moment larger: 1 / (1 - V / Pcr), a cantilever. [-]"""
    critical = critical_n(post, young_mpa, height_mm)
    return 1 / (1 - press_n / critical) if press_n < critical else math.inf


def sway_mm(post: Post, young_mpa: float, panel: Panel, height_mm: float) -> float:
    """How far the panel's middle moves in the worst service wind, the foot held still. [mm]  Cantilever

    H h^3 / 3 E I and N s h^2 / 2 E I.
    """
    bend = young_mpa * post.inertia_mm4
    return max((_sway_mm(panel, wind, height_mm) / bend for wind in panel.winds), default=0.0)


def _sway_mm(panel: Panel, wind: Wind, height_mm: float) -> float:
    across = wind.service_pa * panel.area_m2
    level = panel.level_n(across) * height_mm**3 / 3
    return abs(level + across * wind.along_share * panel.slope_mm * height_mm**2 / 2)
