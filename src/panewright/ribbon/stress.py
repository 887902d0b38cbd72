"""How hard soldered tabs pull at the wafer when they cool from the iron.

When the solder sets, copper and silicon are at rest with each other. Down to the shop's warmth the copper
wants to shorten by 17e-6 a kelvin, the silicon by 2.6e-6 only. Were all elastic, the tab's force would be
that of a strip of two metals after Timoshenko, here with a tab narrower than the wafer's strip it bends:

    F = de / (1/EcAc + 1/EsAs + e^2 / (EcIc + EsIs)),          one face;
    F = de / (1/EcAc + 2/EsAs),                                 tabs on both faces, opposite each other;

with e between the middles of tab and wafer. Soft copper yields long before: its force is at most yield
times section. So a ribbon's softness and section count, the drop in temperature hardly.

**Along a tab on one face** each tab bends the strip of wafer that is its own, a busbar pitch wide: far
from the ends a long plate bends along the tab by the same curvature everywhere. The far face is stretched
by bending less compression, F e / W - F / A. Tabs on both faces cancel the bending where they lie opposite:
the wafer is only compressed. A cell is like this at the bench when one face is done, and for good where
the tab in front and the one behind do not lie opposite each other.

**Across a tab** the copper shortens too, and only the wafer right under it can give way: a strip of two
metals of one width, both held straight along the tab. Copper that flows along the tab no longer resists being
bent across it. The far face is stretched by about as much whatever the tab: strain is given, not force.

**At a tab's end** the force and its moment about the wafer's middle, F t / 2, enter by a patch as wide as
the tab and as long as the solder needs, l = F / (tau w). Just ahead of the patch the face with the tab is
stretched by both: the plate's answers to a force in its plane and to a moment, spread evenly over the patch
(a = w / 2),

    m  = F t / (8 pi w l) [4 l atan(a/l) + (1 + nu) a ln(1 + l^2/a^2)],           stress 6 m / t^2,
    s  = F / (4 pi w l t) [4 l atan(a/l) + (3 + nu) a ln(1 + l^2/a^2)].

For a short patch both tend to half of what would cross a strip as wide as the tab. What the copper's own
height adds to the moment enters less sharply, as a pull on the solder, and is left out here.

**Strength.** Sawn silicon breaks at a flaw. A large stressed face holds a worse one: by Weibull's law the
stress at which the share p breaks goes as (-ln(1 - p) A0 / A)^(1/m). The peak at an end is as wide as the
tab and taken to be as long as the wafer is thick: nearer, the plate's law says nothing.

The copper counts as thin against its length, the wafer as one elastic plate far from its rim; creep of
the solder, busbar, back metal, texture and heat from the iron are left out. Solid elements with copper and
solder that yield (CalculiX; tabs of 1.6 x 0.2 and 1.6 x 0.3 mm on 0.2 mm) gave bow, stress along the tab and
stress ahead of its end within 4 %, stress across it within 7 %; at the two corners of an end a quarter more.

[T] S. Timoshenko, Analysis of bi-metal thermostats, J. Optical Society of America 11, 1925, p. 233 (memory).
[TG] S. Timoshenko, J. N. Goodier, Theory of Elasticity, 2nd ed. 1951, article 42: force in a plate (memory).
[TW] S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959: force on one (memory).
[HNK] M. A. Hopcroft, W. D. Nix, T. W. Kenny, What is the Young's modulus of silicon?, J. Microelectro-
      mechanical Systems 19, 2010, p. 229: 130 GPa and 0.28 along <100>, the softest way (memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, log, log1p, pi

from panewright.check import Check
from panewright.ribbon.strip import Strip
from panewright.units import MM

COPPER_PER_K, SILICON_PER_K = 17e-6, 2.6e-6  #: memory
COPPER_PA = 120e9  #: memory; a soft strip yields, so it hardly counts
SILICON_PA, SILICON_NU = 130e9, 0.28  #: [HNK]
SOLIDUS_C = 183.0  #: tin-lead, seen in public alloy tables
SHOP_C = 20.0
SOLDER_PA = 20e6  #: shear that tin-lead passes on while it cools and creeps; memory, 10 to 30 MPa
STRENGTH_PA = 150e6  #: 63 of 100 cells break at it in four-line bending; memory, 100 to 200 MPa
STRENGTH_MM2 = 40.0 * 156.0  #: face that such a test stretches; memory
WEIBULL = 10.0  #: modulus of cells; memory, 8 to 12
BROKEN = 0.03  #: share of cells that a bench loses in any case; common practice, no source

_MPA = 1e6  # pascal
SOURCE = "bimetal strip, Timoshenko 1925; strength from memory"


@dataclass(frozen=True, slots=True)
class Wafer:
    """A cell, or strip of a cell, as its tabs pull at it."""

    width_mm: float  #: across the tabs
    length_mm: float  #: along them
    thickness_mm: float
    tabs: int

    def __post_init__(self) -> None:
        if min(self.width_mm, self.length_mm, self.thickness_mm) <= 0 or self.tabs < 1:
            raise ValueError(f"a wafer has positive sizes and a tab or more, got {self}")

    @property
    def pitch_mm(self) -> float:
        """Width of wafer that each tab has for itself. [mm]"""
        return self.width_mm / self.tabs


@dataclass(frozen=True, slots=True)
class Pull:
    """What the cooled tabs of one face, or of both, do to a wafer."""

    force_n: float  #: of one tab
    yields: bool  #: whether the copper yields
    squeezed_mpa: float  #: compression all through the wafer
    bent_mpa: float  #: bending at its faces, 0 between tabs on both
    across_mpa: float  #: stretch of the far face right under a tab, across it; 0 between tabs on both
    bow_mm: float  #: of the whole length

    @property
    def stretched_mpa(self) -> float:
        """Stretch of the face away from the tabs; below zero it is compressed. [MPa]"""
        return self.bent_mpa - self.squeezed_mpa


def cooled_strain(from_c: float = SOLIDUS_C, to_c: float = SHOP_C) -> float:
    """By how much more copper than silicon would shorten. [-]

    >>> round(1e3 * cooled_strain(), 3)
    2.347
    """
    return (COPPER_PER_K - SILICON_PER_K) * (from_c - to_c)


def one_face(strip: Strip, wafer: Wafer, from_c: float = SOLIDUS_C, to_c: float = SHOP_C) -> Pull:
    """Tabs on one face only. [T]"""
    copper, silicon = _copper(strip), _silicon(wafer)
    arm = arm_mm(strip, wafer) * MM
    give = 1 / copper.stretch + 1 / silicon.stretch + arm**2 / (copper.bend + silicon.bend)
    force, yields = _force_n(strip, cooled_strain(from_c, to_c) / give)
    # yielded copper no longer helps to resist the bending
    curvature = force * arm / (silicon.bend + (0.0 if yields else copper.bend))
    bow_mm = curvature * (wafer.length_mm * MM) ** 2 / 8 / MM
    bent_mpa = SILICON_PA * curvature * wafer.thickness_mm * MM / 2 / _MPA
    across_mpa = _across_mpa(strip, wafer, cooled_strain(from_c, to_c), yields)
    return Pull(force, yields, _squeezed_mpa(force, wafer), bent_mpa, across_mpa, bow_mm)


def both_faces(strip: Strip, wafer: Wafer, from_c: float = SOLIDUS_C, to_c: float = SHOP_C) -> Pull:
    """Tabs on both faces, opposite each other."""
    give = 1 / _copper(strip).stretch + 2 / _silicon(wafer).stretch
    force, yields = _force_n(strip, cooled_strain(from_c, to_c) / give)
    return Pull(force, yields, 2 * _squeezed_mpa(force, wafer), 0.0, 0.0, 0.0)


def end_mpa(strip: Strip, wafer: Wafer, force_n: float) -> float:
    """Greatest stretch just ahead of the end of a tab that pulls so hard. [MPa] [TG] [TW]"""
    half, thick = strip.width_mm / 2, wafer.thickness_mm
    long = force_n / (SOLDER_PA / _MPA * strip.width_mm)
    straight, spread = 4 * long * atan(half / long), half * log1p((long / half) ** 2)
    patch = force_n / (4 * pi * strip.width_mm * long)  # N a mm2, so MPa below
    moment = patch * thick / 2 * (straight + (1 + SILICON_NU) * spread)
    return 6 * moment / thick**2 + patch / thick * (straight + (3 + SILICON_NU) * spread)


def strength_mpa(face_mm2: float, broken: float) -> float:
    """Stretch of a face of this size at which the share `broken` of cells breaks. [MPa]

    >>> round(strength_mpa(6240.0, 0.632))
    150
    """
    if not (face_mm2 > 0 and 0 < broken < 1):
        raise ValueError(
            f"a face has a size and a share breaks between none and all, got {face_mm2}, {broken}"
        )
    harder = float((-log(1 - broken) * STRENGTH_MM2 / face_mm2) ** (1 / WEIBULL))
    return STRENGTH_PA / _MPA * harder


def stress_checks(strip: Strip, wafer: Wafer) -> tuple[Check, Check]:
    """Tabs alone break no more cells than a bench loses in any case."""
    pull = one_face(strip, wafer)
    # of each tab one end in front and one behind stops short of the cell's edge
    ends, under_mm2 = 2 * wafer.tabs, wafer.tabs * strip.width_mm * wafer.length_mm
    patch_mm2 = strip.width_mm * wafer.thickness_mm
    return (
        _check(
            "wafer under tabs on one face",
            max(pull.stretched_mpa, pull.across_mpa),
            strength_mpa(under_mm2, BROKEN),
            "Take narrower, thinner or fewer tabs, or a solder that sets cooler.",
        ),
        _check(
            "wafer at the end of a tab",
            end_mpa(strip, wafer, pull.force_n),
            strength_mpa(patch_mm2, BROKEN / ends),
            "Take a thinner or a softer tab: cells crack at the ends of tabs that pull too hard.",
        ),
    )


def arm_mm(strip: Strip, wafer: Wafer) -> float:
    """From the middle of the wafer to that of the copper, solder between. [mm]"""
    return (wafer.thickness_mm + strip.thickness_mm) / 2 + strip.coat_mm


@dataclass(frozen=True, slots=True)
class _Stiff:
    """A rectangle of one metal: what resists stretch and bending."""

    stretch: float  #: E A [N]
    bend: float  #: E I [N m2]


def _stiff(young_pa: float, width_mm: float, thickness_mm: float) -> _Stiff:
    width, thick = width_mm * MM, thickness_mm * MM
    return _Stiff(young_pa * width * thick, young_pa * width * thick**3 / 12)


def _copper(strip: Strip) -> _Stiff:
    return _stiff(COPPER_PA, strip.width_mm, strip.thickness_mm)


def _silicon(wafer: Wafer) -> _Stiff:
    return _stiff(SILICON_PA, wafer.pitch_mm, wafer.thickness_mm)


def _force_n(strip: Strip, elastic_n: float) -> tuple[float, bool]:
    """Force of one tab, and whether its copper yields."""
    most = strip.yield_mpa * strip.width_mm * strip.thickness_mm
    return min(elastic_n, most), elastic_n >= most


def _across_mpa(strip: Strip, wafer: Wafer, strain: float, yields: bool) -> float:
    """Stretch of the far face across a tab. [MPa] [T]"""
    flat = 1 / (1 - SILICON_NU**2)  # held straight along the tab
    silicon = _stiff(flat * SILICON_PA, 1.0, wafer.thickness_mm)  # of one millimetre of tab
    copper = _stiff(COPPER_PA, 1.0, strip.thickness_mm)
    bend = silicon.bend + (0.0 if yields else copper.bend)
    arm = arm_mm(strip, wafer) * MM
    force = strain / (1 / copper.stretch + 1 / silicon.stretch + arm**2 / bend)
    bent_pa = flat * SILICON_PA * force * arm / bend * wafer.thickness_mm * MM / 2
    return (bent_pa - force / (wafer.thickness_mm * MM**2)) / _MPA


def _squeezed_mpa(force_n: float, wafer: Wafer) -> float:
    return force_n / (wafer.pitch_mm * wafer.thickness_mm)


def _check(rule: str, demand_mpa: float, limit_mpa: float, cure: str) -> Check:
    return Check(rule, demand_mpa, limit_mpa, "MPa", SOURCE, cure, "ribbon")
