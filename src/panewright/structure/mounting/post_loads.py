"""What wind does to one post under the middle of a panel.

    H = N sin tilt at the panel's middle, V = N cos tilt;  the wind acts off the middle, up or down the
    slope, or to a side

Off the slope: M = H h + N e. Off to a side: the level part twists the post, the upright part bends it the
other way. Wind on the post itself acts halfway up (force coefficient 1.2 of a round, 2.0 of a square one:
ASCE 7-16 figure 29.4-1, EN 1991-1-4 7.6 and 7.9, recalled, both no less).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from panewright.frame.post import Post
from panewright.structure.loads import GRAVITY_M_S2
from panewright.structure.mounting.forces import HOLDING, PRESSING, Panel
from panewright.units import MM

_DRAG = {"round": 1.2, "square": 2.0, "timber": 2.0}


@dataclass(frozen=True, slots=True)
class PostLoads:
    """At the ground, level of design."""

    level_n: float
    moment_nm: float  #: in the wind's plane, wind off the middle along the slope
    straight_nm: float  #: the same with the wind off to a side
    sideways_nm: float  #: then across the wind's plane
    torque_nm: float  #: then about the post
    press_n: float  #: down, on the post's foot without its own concrete
    lift_n: float  #: up, less what holds down; negative where nothing lifts

    @property
    def arm_m(self) -> float:
        """Height at which the level force alone makes the largest moment. [m]"""
        return self.moment_nm / self.level_n if self.level_n > 0 else 0.0


def post_loads(panel: Panel, post: Post, height_mm: float) -> PostLoads:
    """The worse of pressing and lifting, on a post whose panel stands `height_mm` high at its middle."""
    worst = max(panel.down_n, panel.up_n)
    height = height_mm * MM
    wind_on_post = panel.wind_on_post_pa * _DRAG[post.shape] * post.outer_mm * MM * height
    level = panel.level_n(worst)
    straight = level * height + wind_on_post * height / 2
    weight = panel.weight_n + post.kg_m * height * GRAVITY_M_S2
    snow = panel.snow_n
    return PostLoads(
        level_n=level + wind_on_post,
        moment_nm=straight + worst * panel.off_slope_mm * MM,
        straight_nm=straight,
        sideways_nm=panel.upright_n(worst) * panel.off_side_mm * MM,
        torque_nm=level * panel.off_side_mm * MM,
        press_n=panel.upright_n(panel.down_n) + PRESSING[panel.family] * weight + snow,
        lift_n=panel.upright_n(panel.up_n) - HOLDING[panel.family] * weight,
    )


def bending_mpa(post: Post, moment_nm: float, sideways_nm: float, press_n: float) -> float:
    """Bending and pressing stress at the ground; a square post has corners. [MPa]"""
    corners = post.shape != "round"
    both = moment_nm + sideways_nm if corners else math.hypot(moment_nm, sideways_nm)
    return both / MM / post.modulus_mm3 + max(0.0, press_n) / post.area_mm2


def shear_mpa(post: Post, torque_nm: float, level_n: float) -> float:
    """Twisting and shear stress at the ground. [MPa]"""
    return torque_nm / MM / post.torsion_mm3 + level_n / post.shear_mm2


def sway_factor(post: Post, young_mpa: float, height_mm: float, press_n: float) -> float:
    """By how much weight on top makes the moment larger: 1 / (1 - V / Pcr), a cantilever. [-]"""
    critical = math.pi**2 * young_mpa * post.inertia_mm4 / (2 * height_mm) ** 2
    return 1 / (1 - press_n / critical) if press_n < critical else math.inf


def sway_mm(post: Post, young_mpa: float, panel: Panel, height_mm: float) -> float:
    """How far the panel's middle moves in the service wind, the foot held still. [mm]  Cantilever

    H h^3 / 3 E I and M h^2 / 2 E I.
    """
    across = panel.service_wind_pa * panel.area_m2
    bend = young_mpa * post.inertia_mm4
    level = panel.level_n(across) * height_mm**3 / (3 * bend)
    return level + across * panel.off_slope_mm * height_mm**2 / (2 * bend)
