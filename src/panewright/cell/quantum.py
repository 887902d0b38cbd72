"""Quantum efficiency: of the photons of one colour that fall on a cell, the share that gives an electron.

    EQE = scale (1 - R) (1 - lost in the front skin) Z a W / (1 + Z a W)

R is what the face throws back. It has a quarter-wave coat; on pyramids light meets the silicon twice, on a
face etched by acid about one and a half times, so R is the flat face's to that power (a plain rule, from
memory). Blue light is absorbed in the skin of the front, which gives up only part of it. The last factor is
absorption in W of silicon with absorption coefficient a, light going to and fro (after Tiedje et al.,
1984). Z, what the skin gives up and its depth are fitted by eye to a measured cell [D]; Z also holds what
recombines in the depth, and is therefore small.

    R = |r1 + r2 e^(-2 i d)|^2 / |1 + r1 r2 e^(-2 i d)|^2,     d = 2 pi n t / wavelength     (straight on)

The scale is the one figure that brings the cell's own Isc out of the sun's spectrum: printed fingers and
busbars, and whatever the model gets wrong. A measured cell stands in air; under encapsulant its face throws
back less, by the same formula with the encapsulant's index before the coat.

[D] A. Driesse, J. Stein, Global normal spectral irradiance in Albuquerque, 2020, DOI 10.2172/1814068:
    measured response of a crystalline cell, as in the example of pvlib (seen).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.cell.silicon import absorption_per_m, extinction, refractive_index

PYRAMIDS, ACID, FLAT = 2.0, 1.5, 1.0  #: how many times light meets the silicon; from memory


@dataclass(frozen=True, slots=True)
class Optics:
    """What a crystalline cell's quantum efficiency depends on; the defaults are those of a usual cell."""

    meets: float = PYRAMIDS  #: times that light meets the face
    coat_index: float = 2.05  #: silicon nitride; from memory
    coat_nm: float = 75.0  #: usual blue coat; from memory
    wafer_mm: float = 0.18
    paths: float = 4.0  #: Z: to and fro through the wafer, less what recombines; fitted to [D]
    skin_um: float = 0.3  #: fitted to [D]
    skin_gives: float = 0.85  #: share that the front skin gives up; fitted to [D]

    def __post_init__(self) -> None:
        if min(self.meets, self.coat_index, self.wafer_mm, self.paths) <= 0 or self.coat_nm < 0:
            raise ValueError(f"a cell's optics are figures above zero, got {self}")


def reflectance(nm: Array, optics: Optics, before_index: float = 1.0) -> Array:
    """Share of each colour that the face throws back into air, or into an encapsulant of that index. [-]"""
    silicon = refractive_index(nm) - 1j * extinction(nm)
    turn = np.exp(-4j * np.pi * optics.coat_index * optics.coat_nm / nm)
    first = (before_index - optics.coat_index) / (before_index + optics.coat_index)
    second = (optics.coat_index - silicon) / (optics.coat_index + silicon)
    flat = np.abs((first + second * turn) / (1 + first * second * turn)) ** 2
    return np.asarray(flat**optics.meets)


def collected(nm: Array, optics: Optics) -> Array:
    """Of what enters, the share that becomes current. [-]"""
    absorbs = absorption_per_m(nm)
    depth = optics.paths * absorbs * optics.wafer_mm * 1e-3
    skin = (1 - optics.skin_gives) * (1 - np.exp(-absorbs * optics.skin_um * 1e-6))
    return np.asarray((1 - skin) * depth / (1 + depth))


def quantum_efficiency(nm: Array, optics: Optics, before_index: float = 1.0) -> Array:
    """EQE without its scale, in air or under an encapsulant of that index. [-]"""
    return np.asarray((1 - reflectance(nm, optics, before_index)) * collected(nm, optics))


def scale(isc_a_m2: float, photons_a_m2: Array, efficiency: Array) -> float:
    """What brings a cell's own Isc, for each m2 of it, out of the light it was measured in. [-]

    `photons_a_m2` is the current of each band of that light, one electron for each photon.
    """
    return isc_a_m2 / float((photons_a_m2 * efficiency).sum())
