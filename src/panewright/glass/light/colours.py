"""A sheet in sunlight, colour by colour: thrown back at its faces, swallowed on the way, let through.

For an outer face R, an inner face r and a share a = exp(-K t) kept on one way through, all bounces summed:

    through = (1 - R) (1 - r) a / (1 - R r a^2)         back = R + r (1 - R)^2 a^2 / (1 - R r a^2)

In air both faces are alike. Encapsulant on the inner face, of index m, leaves it r = ((n - m) / (n + m))^2,
which is next to nothing. A coat on the outer face lowers R. A sheet is known by one figure, its
transmittance in air: the strength of its tint is the one that gives it that figure. Glass is sold by its
solar transmittance. For plastics the trade states that of visible light: all of the sun's heat beyond 1700
nm is lost in them, and their solar figure is far lower. Where even a sheet without any tint would let less
through, its outer face must be coated, and R is what gives the figure with the usual tint: of low-iron
glass, or of acrylic. A figure that no coat explains is met with less tint, and past that with a face that
throws back nothing.

Straight on, without interference between the faces, with one index for all colours.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.glass.light.spectrum import AM15_GLOBAL, Array
from panewright.glass.light.through import (
    ACRYLIC_INDEX,
    GLASS_INDEX,
    faces_at,
    surface_reflectance,
    way_through,
)
from panewright.glass.light.tint import ACRYLIC, CLEAR_FLOAT, LOW_IRON, Tint
from panewright.glass.pane import Material, Sheet
from panewright.units import MM

AR_COAT = 0.015  #: thrown back by a coated outer face, mean over the colours a cell uses; from memory
INDEX: dict[Material, float] = {"glass": GLASS_INDEX, "acrylic": ACRYLIC_INDEX, "polycarbonate": 1.585}
"""Refractive index; polycarbonate from memory."""
_TINT: dict[Material, Tint] = {"glass": CLEAR_FLOAT, "acrylic": ACRYLIC, "polycarbonate": ACRYLIC}
_STATED_NM = {"glass": (0.0, np.inf), "acrylic": (400.0, 700.0), "polycarbonate": (400.0, 700.0)}
_MOST_TINT = 64.0  # times that of clear float: all but black
_HALVINGS = 44


@dataclass(frozen=True, slots=True, eq=False)
class SheetLight:
    """What a sheet's faces and its body do to each colour."""

    index: float
    outer: float  #: thrown back by the outer face [-]
    kept: Array  #: of each band, kept on one straight way through [-]

    def inner(self, behind_index: float) -> float:
        """Thrown back by the inner face against what lies behind it. [-]"""
        return surface_reflectance(self.index / behind_index)

    def faces_only(self, behind_index: float = 1.0) -> float:
        """Share let through if the sheet swallowed nothing. [-]"""
        inner = self.inner(behind_index)
        return (1 - self.outer) * (1 - inner) / (1 - self.outer * inner)

    def at_angle(self, angle_deg: float, behind_index: float = 1.0) -> Array:
        """The same of unpolarised light that falls in at an angle from straight on. [-]

        What a coat takes off the outer face straight on it is taken to take off, in proportion, at any angle.
        """
        coat = self.outer / surface_reflectance(self.index)
        kept = self.kept ** way_through(angle_deg, self.index)
        ways = faces_at(angle_deg, self.index, behind_index)
        across, along = (through(min(1.0, coat * outer), inner, kept) for outer, inner in ways)
        return np.asarray((across + along) / 2)

    def through(self, behind_index: float = 1.0) -> Array:
        """Share of each band that comes through, into what lies behind. [-]"""
        return through(self.outer, self.inner(behind_index), self.kept)


def through(outer: float, inner: float, kept: Array) -> Array:
    """Share of each band that a sheet with these faces lets through. [-]"""
    return np.asarray((1 - outer) * (1 - inner) * kept / (1 - outer * inner * kept**2))


def thrown_back(outer: float, inner: float, kept: Array) -> Array:
    """Share of each band that it throws back. [-]"""
    return np.asarray(outer + inner * (1 - outer) ** 2 * kept**2 / (1 - outer * inner * kept**2))


def tinted(
    material: Material, thickness_mm: float, strength: float, outer: float | None = None
) -> SheetLight:
    """A sheet with so many times the tint of clear float glass, or of acrylic; `outer` for a coated face.

    >>> low_iron = tinted("glass", 3.2, LOW_IRON)
    >>> round(AM15_GLOBAL.power_share(low_iron.through()), 3)
    0.905
    """
    index, tint = INDEX[material], _TINT[material]
    kept = np.exp(-tint.extinction_per_m(AM15_GLOBAL.middle_nm, strength) * thickness_mm * MM)
    return SheetLight(index, surface_reflectance(index) if outer is None else outer, kept)


@lru_cache(maxsize=64)
def known_sheet(sheet: Sheet) -> SheetLight:
    """A sheet as sold: its tint, or the coat on its face, is the one that gives its stated transmittance."""
    material, thick = sheet.material, sheet.nominal_mm
    usual = LOW_IRON if material == "glass" else 1.0
    bare = surface_reflectance(INDEX[material])
    ways: tuple[tuple[Callable[[float], SheetLight], float], ...] = (
        (lambda strength: tinted(material, thick, strength), _MOST_TINT),
        (lambda outer: tinted(material, thick, usual, outer), bare),
        (lambda strength: tinted(material, thick, strength, 0.0), usual),
    )
    wanted = sheet.solar_transmittance
    make, most = next((way for way in ways if stated(way[0](0.0), material) > wanted), ways[-1])
    return make(_meeting(lambda x: stated(make(x), material), wanted, most))


def _meeting(clear: Callable[[float], float], wanted: float, most: float) -> float:
    """Between 0 and `most`, where a falling figure is the wanted one; 0 where it is nowhere so high."""
    low, high = 0.0, most
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if clear(middle) > wanted else (low, middle)
    return low


def stated(light: SheetLight, material: Material) -> float:
    """The figure by which such a sheet is sold: glass by sunlight, plastics by visible light. [-]"""
    return AM15_GLOBAL.power_share(light.through(), *_STATED_NM[material])


def panes_through(panes: tuple[SheetLight, ...]) -> Array:
    """Share of each band that panes behind each other in air let through, as an old window does. [-]"""
    share, back = np.ones_like(panes[0].kept), np.zeros_like(panes[0].kept)
    for pane in panes:
        inner, own_back = pane.inner(1.0), thrown_back(pane.inner(1.0), pane.outer, pane.kept)
        share_of = through(pane.outer, inner, pane.kept)
        between = 1 / (1 - back * thrown_back(pane.outer, inner, pane.kept))
        back = own_back + share_of**2 * back * between
        share = share * share_of * between
    return np.asarray(share)
