"""One post under the panel: bent, twisted, swaying; and the ground it stands in.

Metal: bending and shear limits of its family; together by the family's rule, ASCE s/S + (t/T)^2 <= 1 (AISC
360 H3.2, Aluminum Design Manual H, recalled), EN sqrt(s^2 + 3 t^2) <= f (EN 1993-1-1 6.2.1, EN 1999-1-1
6.2.1, recalled). Timber: EN 1995-1-1 6.1.6 to 6.1.8 (recalled); the NDS has no rule for a twisted timber,
so that check has no limit.

Walls stay clear of local buckling: round D/t 48 (AISC 360 table B4.1b, 0.07 E/Fy at 290 MPa), square flat/t
29 in ASCE; EN class 3, 90 and 42 for S235. Aluminium: 30 and 20, common practice, no source.

Sway: a fiftieth of the height, common practice, no source.

Not looked at: the head that carries the brackets, frost heave, water in the ground, slopes, the concrete
itself.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from panewright.check import Check
from panewright.climate.site import Family
from panewright.frame.metals import metal
from panewright.frame.support.post import Post
from panewright.frame.support.timber import timber
from panewright.structure.mounting.forces import HOLDING, PRESSING, Panel
from panewright.structure.mounting.ground import embedment
from panewright.structure.mounting.ground.post_loads import (
    PostLoads,
    bending_mpa,
    critical_n,
    post_loads,
    shear_mpa,
    sway_factor,
    sway_mm,
)
from panewright.structure.mounting.ground.soil import Ground, soil
from panewright.structure.mounting.timber import withdrawal
from panewright.units import GRAVITY_M_S2, MM

CONCRETE_KG_M3 = 2300.0  #: plain concrete, EN 1991-1-1 table A.1 24 kN/m3 less a little; common practice
_SWAY = 50.0
_STEP_MM, _LEAST_MM = 50.0, 300.0
_CLEAR_MM = 100.0  # least from the ground to the low edge; common practice
_CURE = "Take a larger post, a lower panel or less tilt."


@dataclass(frozen=True, slots=True)
class Standing:
    """A post with its panel and its foot."""

    panel: Panel
    post: Post
    height_mm: float  #: ground to the panel's middle
    collar_mm: float
    embedment_mm: float
    ground: Ground
    bearing_pa: float | None = None  #: stated by the order

    @property
    def family(self) -> Family:
        """The rule book."""
        return self.panel.family

    @property
    def winds(self) -> tuple[PostLoads, ...]:
        """At the ground, each wind."""
        return post_loads(self.panel, self.post, self.height_mm)

    @property
    def loads(self) -> PostLoads:
        """Of the wind with the largest moment."""
        return max(self.winds, key=lambda loads: math.hypot(loads.moment_nm, loads.sideways_nm))

    @property
    def lift_n(self) -> float:
        """The most that lifts the foot. [N]"""
        return max(0.0, *(loads.lift_n for loads in self.winds))

    @property
    def press_n(self) -> float:
        """The most that presses on the foot, its concrete not counted. [N]"""
        return max(loads.press_n for loads in self.winds)

    @property
    def young_mpa(self) -> float:
        """Stiffness of the post. [MPa]"""
        if self.post.species:
            return timber(self.post.species).young_mpa
        return metal.young_pa(self.post.metal, self.family) * 1e-6 if self.post.metal else math.nan

    @property
    def foot_n(self) -> float:
        """Weight of concrete round the post and of the post in it, no factor. [N]"""
        round_m2 = math.pi / 4 * (self.collar_mm * MM) ** 2
        concrete = max(0.0, round_m2 - self.post.outer_mm**2 * 1e-6) * CONCRETE_KG_M3
        return (concrete + self.post.kg_m) * self.embedment_mm * MM * GRAVITY_M_S2

    @property
    def length_mm(self) -> float:
        """Of the post, foot to the panel's middle. [mm]"""
        return self.height_mm + self.embedment_mm


def needed_depth_mm(standing: Standing) -> float:
    """Depth against turning out. [mm]"""
    across, ground = standing.collar_mm * MM, soil(standing.ground)
    law = embedment.asce_depth_m if standing.family == "ASCE" else embedment.en_depth_m
    return max(law(loads.level_n, loads.arm_m, across, ground) for loads in standing.winds) / MM


def with_depth(standing: Standing) -> Standing:
    """The post set as deep as turning and lifting ask, in steps of 50 mm."""
    needed = max(_LEAST_MM, needed_depth_mm(standing))
    deep = replace(standing, embedment_mm=_STEP_MM * math.ceil(needed / _STEP_MM - 1e-9))
    per_mm = deep.foot_n / deep.embedment_mm * HOLDING[deep.family]
    for_lift = deep.lift_n / per_mm
    most = max(deep.embedment_mm, for_lift)
    return replace(deep, embedment_mm=_STEP_MM * math.ceil(most / _STEP_MM - 1e-9))


def judge_post(standing: Standing) -> tuple[Check, ...]:
    """Every rule of the post and of its ground."""
    return (*_strength(standing), _sway(standing), *_sizes(standing), *_ground(standing))


def _strength(standing: Standing) -> Iterator[Check]:
    post, winds = standing.post, standing.winds
    bending, shear, source = _limits(standing)
    bent = max(_bent_mpa(standing, loads) for loads in winds)
    yield Check("post bending at the ground", bent, bending, "MPa", source, _CURE, "structure")
    least = critical_n(post, standing.young_mpa, standing.height_mm)
    euler = "Euler's load of a cantilever"
    yield Check("post stands under its load", standing.press_n, least, "N", euler, _CURE, "structure")
    plain = max(shear_mpa(post, 0.0, loads.level_n) for loads in winds)
    yield Check("post shear at the ground", plain, shear, "MPa", source, _CURE, "structure")
    twisted = [(_bent_mpa(standing, one), shear_mpa(post, one.torque_nm, one.level_n)) for one in winds]
    yield max((_twisted(standing, *pair) for pair in twisted), key=lambda check: check.demand)


def _bent_mpa(standing: Standing, loads: PostLoads) -> float:
    """Bending made larger by the weight on top."""
    grown = sway_factor(standing.post, standing.young_mpa, standing.height_mm, loads.press_n)
    if not math.isfinite(grown):  # it does not stand at all, which has a check of its own
        grown = 1.0
    return bending_mpa(standing.post, grown * loads.moment_nm, grown * loads.sideways_nm, loads.press_n)


def _limits(standing: Standing) -> tuple[float | None, float | None, str]:
    """Bending and shear [MPa], and where they come from."""
    post, family = standing.post, standing.family
    if post.metal:
        wall = post.wall_mm
        limits = (
            metal.bending_limit_mpa(post.metal, family, wall),
            metal.shear_limit_mpa(post.metal, family, wall),
        )
        return (*limits, metal.bending_source(post.metal, family))
    wood = timber(post.species or "C24")
    if wood.family != family:
        return None, None, f"{wood.name} is no timber of the {family} rules"
    if family == "ASCE":
        factor = withdrawal.C_D["wind"]
        return wood.bending_mpa * factor, wood.shear_mpa * factor, "NDS 2018, No. 2 posts, C_D 1.6 (recalled)"
    factor = withdrawal.en_factor("wind", wet=True)
    return wood.bending_mpa * factor, wood.shear_mpa * factor, "EN 1995-1-1 6.1, service class 3"


def _twisted(standing: Standing, bent_mpa: float, twisted_mpa: float) -> Check:
    """Bending and twisting together where the wind acts off to a side."""
    bending, shear, source = _limits(standing)
    rule = "post twisted and bent"
    if bending is None or shear is None:
        return Check(rule, twisted_mpa, None, "MPa", source, _CURE, "structure")
    if standing.post.metal:
        american = standing.family == "ASCE"
        used = (
            bent_mpa / bending + (twisted_mpa / shear) ** 2
            if american
            else math.hypot(bent_mpa / bending, twisted_mpa / shear)
        )
        by = "AISC 360 H3.2, Aluminum Design Manual H" if american else "EN 1993-1-1, EN 1999-1-1 6.2.1"
        return Check(rule, used, 1.0, "-", by, _CURE, "structure")
    if standing.family == "ASCE":
        cure = "Take a metal post, or two posts: the rules have nothing on twisted timber."
        return Check(
            rule, twisted_mpa, None, "MPa", "NDS 2018 has no rule for twisted timber", cure, "structure"
        )
    return Check(
        rule, twisted_mpa / (1.15 * shear), 1.0, "-", "EN 1995-1-1 6.1.8, k_shape 1.15", _CURE, "structure"
    )


def _sway(standing: Standing) -> Check:
    sway = sway_mm(standing.post, standing.young_mpa, standing.panel, standing.height_mm)
    limit = standing.height_mm / _SWAY
    return Check(
        "post sway in the wind",
        sway,
        limit,
        "mm",
        "height/50, common practice, no source",
        _CURE,
        "structure",
    )


def _sizes(standing: Standing) -> Iterator[Check]:
    post, panel = standing.post, standing.panel
    cure = "Take a longer post, or set the panel lower."
    yield Check(
        "post out of one length",
        standing.length_mm,
        post.length_mm,
        "mm",
        "the post as sold",
        cure,
        "structure",
    )
    low = panel.rise_mm / 2 + _CLEAR_MM
    cure = "Set the panel higher."
    yield Check(
        "panel clear of the ground",
        low,
        standing.height_mm,
        "mm",
        "geometry, 100 mm; common practice",
        cure,
        "structure",
    )
    if post.metal:
        yield _wall(post, standing.family)


def _wall(post: Post, family: Family) -> Check:
    steel = metal.is_steel(post.metal) if post.metal else False
    flat = post.outer_mm if post.shape == "round" else post.inner_mm
    limits = {"ASCE": (48.0, 29.0), "EN": (90.0, 42.0)}[family] if steel else (30.0, 20.0)
    source = (
        ("AISC 360 table B4.1b" if family == "ASCE" else "EN 1993-1-1 table 5.2, class 3")
        if steel
        else "common practice, no source"
    )
    limit = limits[0] if post.shape == "round" else limits[1]
    cure = "Take a thicker wall."
    return Check(
        "post wall thick enough",
        flat / post.wall_mm,
        limit,
        "-",
        f"{source}, width over wall",
        cure,
        "structure",
    )


def _ground(standing: Standing) -> Iterator[Check]:
    american = standing.family == "ASCE"
    source = (
        "IBC 2018 1807.3.2.1, table 1806.2"
        if american
        else "own reckoning, rigid short pile, factors of EN 1997-1 DA1; EN 1997-1 gives no closed rule"
    )
    cure = "Set the post deeper, take a wider collar of concrete, or another ground."
    yield Check(
        "post deep enough in the ground",
        needed_depth_mm(standing),
        standing.embedment_mm,
        "mm",
        source,
        cure,
        "structure",
    )
    hold = HOLDING[standing.family] * standing.foot_n
    source = "ASCE 7 2.4.1, 0.6 D + 0.6 W" if american else "EN 1997-1 2.4.7.4, 0.9 G, 1.5 Q"
    cure = "Take a wider or deeper collar of concrete."
    yield Check("post held down by its foot", standing.lift_n, hold, "N", source, cure, "structure")
    yield _bearing(standing)


def _bearing(standing: Standing) -> Check:
    ground, american = soil(standing.ground), standing.family == "ASCE"
    foot = math.pi / 4 * (standing.collar_mm * MM) ** 2
    press = (standing.press_n + PRESSING[standing.family] * standing.foot_n) / foot
    usual = ground.asce_bearing_pa if american else ground.en_bearing_pa
    source = "IBC table 1806.2" if american else "common practice, no source; EN 1997-1 has no table"
    if standing.bearing_pa is not None:
        usual, source = standing.bearing_pa, "stated by the order"
    cure = "Take a wider collar of concrete, or another ground."
    return Check("ground under the post", press, usual, "Pa", source, cure, "structure")
