"""How thick the foam is, and how much of it bears: stress-energy method.

    energy of the fall in the foam   e = static stress x height / thickness
    shock that reaches the panel     G = stress / static stress x e^(e / energy)

`stress` and `energy` are the foam's own. G is least where e = energy; there the thickness is C h / G with the
cushion factor C = 2.718 stress / energy, some 2.9 to 3.2. No cushion that springs evenly does better than
2 h / (G - 2), and none at all than h / (G - 1).

So little foam under so heavy a thing bottoms out, so much of it does not give way: area counts as much as
thickness. Of each thickness the area that serves best is taken between what there is room for and what
does not buckle, and the first thickness that does is taken.

[B] stress-energy method: Burgess (recalled). [K] a pad buckles where its area is under (1.33 thickness)^2:
    package-cushioning handbooks, such as MIL-HDBK-304 (recalled). [C] foam that creeps by more than a tenth
    no longer does (a foam supplier's guide, seen): a tenth of the thickness is taken off.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import product
from typing import Literal

from panewright.shelf.carriage import Foam
from panewright.units import GRAVITY_M_S2, MM

Side = Literal["face", "edge", "end"]

CREPT = 0.9  #: of the thickness is left [C]
BUCKLING = 1.33  #: [K]


@dataclass(frozen=True, slots=True)
class Bearing:
    """What one side of the stack asks of its foam."""

    side: Side
    mass_kg: float
    fall_mm: float
    fragile_g: float
    room_mm2: float  #: most that can bear on the stack
    pads: tuple[int, ...]  #: in how many pads it may lie, the best first


@dataclass(frozen=True, slots=True)
class Cushion:
    """The foam on one side of the stack; the same on the opposite one."""

    asked: Bearing
    foam: Foam
    thickness_mm: float
    area_mm2: float  #: of all pads of the side
    pads: int
    sides_mm: tuple[float, float] | None = None  #: of one pad, as it is cut; None where nobody asked yet

    @property
    def static_pa(self) -> float:
        """Stress while it lies still. [Pa]"""
        return self.asked.mass_kg * GRAVITY_M_S2 / (self.area_mm2 * MM**2)

    @property
    def energy_pa(self) -> float:
        """Energy of the fall by volume of foam that is left after creep. [J/m3]"""
        return energy_pa(self.static_pa, self.asked.fall_mm, CREPT * self.thickness_mm)

    @property
    def shock_g(self) -> float:
        """What reaches the panel. [g]"""
        return shock_g(self.foam, self.static_pa, self.asked.fall_mm, CREPT * self.thickness_mm)

    @property
    def slender_mm2(self) -> float:
        """Least area of all pads that does not buckle. [mm2]"""
        return slender_mm2(self.pads, self.thickness_mm)

    @property
    def does(self) -> bool:
        """Whether it keeps every rule."""
        return self.shock_g <= self.asked.fragile_g and self.bears

    @property
    def bears(self) -> bool:
        """Whether it keeps every rule but that of the shock."""
        return (
            self.static_pa <= self.foam.most_static_pa * _NEAR
            and self.energy_pa <= self.foam.most_energy_pa * _NEAR
            and self.slender_mm2 <= self.area_mm2 * _NEAR
        )


_NEAR = 1 + 1e-9


def energy_pa(static_pa: float, fall_mm: float, thickness_mm: float) -> float:
    """Energy of a fall in each volume of foam. [J/m3]"""
    return static_pa * fall_mm / thickness_mm


def shock_g(foam: Foam, static_pa: float, fall_mm: float, thickness_mm: float) -> float:
    """What the foam passes on. [g]  [B]"""
    power = energy_pa(static_pa, fall_mm, thickness_mm) / foam.energy_pa
    return foam.stress_pa / static_pa * math.exp(min(power, 500.0))


def cushion_factor(foam: Foam) -> float:
    """C in C h / G, the least thickness. [-]"""
    return math.e * foam.stress_pa / foam.energy_pa


def least_mm(fall_mm: float, fragile_g: float) -> float:
    """Thickness of an ideal spring that gives way by all of it. [mm]

    >>> round(least_mm(610.0, 40.0), 1)
    32.1
    """
    if fragile_g <= 2:
        raise ValueError(f"a spring passes on more than 2 G, got {fragile_g}")
    return 2 * fall_mm / (fragile_g - 2)


def slender_mm2(pads: int, thickness_mm: float) -> float:
    """Least area of so many pads that does not buckle. [mm2]  [K]"""
    return pads * (BUCKLING * thickness_mm) ** 2


def best_area(foam: Foam, asked: Bearing, thickness_mm: float, pads: int) -> Cushion | None:
    """So many pads of one thickness that pass on least; None where no area keeps the foam's own limits."""
    weight_n = asked.mass_kg * GRAVITY_M_S2
    ratio = asked.fall_mm / (CREPT * thickness_mm)
    most_pa = min(foam.most_static_pa, foam.most_energy_pa / ratio)
    least_mm2 = max(slender_mm2(pads, thickness_mm), weight_n / most_pa / MM**2)
    if least_mm2 > asked.room_mm2:
        return None
    wanted_mm2 = weight_n * ratio / foam.energy_pa / MM**2
    return Cushion(asked, foam, thickness_mm, min(max(wanted_mm2, least_mm2), asked.room_mm2), pads)


Cut = Callable[[Cushion], Iterable[Cushion]]  #: pads to the sides that can be cut, the nearest first


def as_it_is(made: Cushion) -> Iterable[Cushion]:
    """Pads of any size, to a hair."""
    return (made,)


def choose_cushion(
    foams: Iterable[Foam], asked: Bearing, thick_mm: tuple[float, ...], cut: Cut = as_it_is
) -> Cushion:
    """The thinnest that does, of the first foam where several do; where none does, the gentlest there is.

    Pads are proved as they are cut.
    """
    foams = tuple(foams)
    if not foams:
        raise ValueError("no foam to choose from")
    ways = tuple(product(thick_mm, foams, asked.pads))
    gentle = (way for way in ways if gentlest_g(way[1], asked, way[0]) <= asked.fragile_g * _NEAR)
    found = next((made for made in _cut_of(gentle, asked, cut) if made.does), None)
    if found:
        return found
    most = Cushion(asked, foams[-1], thick_mm[-1], asked.room_mm2, asked.pads[-1])
    return _gentlest(_cut_of(ways, asked, cut), most, cut)


def gentlest_g(foam: Foam, asked: Bearing, thickness_mm: float) -> float:
    """What such foam passes on at least, whatever its area. [g]

    Where the fall's energy is the foam's own, there the curve of the shock over the area is lowest. [B]
    """
    return cushion_factor(foam) * asked.fall_mm / (CREPT * thickness_mm)


def _cut_of(ways: Iterable[tuple[float, Foam, int]], asked: Bearing, cut: Cut) -> Iterator[Cushion]:
    """Pads of every way that has an area at all, as they can be cut."""
    for thick, foam, pads in ways:
        ideal = best_area(foam, asked, thick, pads)
        yield from cut(ideal) if ideal else ()


def _gentlest(made: Iterable[Cushion], most: Cushion, cut: Cut) -> Cushion:
    """The gentlest where none does; where none has room, as much foam as there is room for."""
    gentle = min(made, key=lambda each: (not each.bears, each.shock_g), default=None)
    return gentle or next(iter(cut(most)))
