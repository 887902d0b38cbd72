"""Deflection and stress all over a plate in any holding, under pressure and patches.

`bend_supported` is for other holdings and loads what `bending` is for four held sides and an even pressure.
Past a deflection of a tenth of the short side, or the end of the path, the figures are not known: rotations
are then no longer small.

Held against more functions (half as many again): deflection 0.1 %, stress away from clips and patches
0.3 %, under a patch of a twentieth of the short side 1.5 %, over a clip of 40 x 15 mm 2 %, at a/b = 4 5 %.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from panewright.glass.plate.at_once import state_at
from panewright.glass.plate.basis import Array, Basis
from panewright.glass.plate.bending import Plate
from panewright.glass.plate.held_path import HeldPath, held_path
from panewright.glass.plate.holding import Place, Pressing, Supported
from panewright.glass.plate.path import WIDEST, scale
from panewright.glass.plate.rough import products
from panewright.glass.plate.shape import Shape, Spot
from panewright.glass.plate.stretch import State
from panewright.units import MM

STEEPEST = 0.1  #: deflection over the short side that plate theory of small rotations is taken to bear
_HALF = np.sin(np.linspace(0, np.pi / 2, 49))
_NEAR = np.linspace(-1.75, 1.75, 15)  # lines beside the middle of a patch, in halves of its size


@dataclass(frozen=True, slots=True)
class Surfaces:
    """Stresses on a grid of places, long and short and shear, and the deflection."""

    deflection_mm: Array
    membrane_mpa: Array
    bending_mpa: Array  #: at the face away from the pressure

    def principal(self, side: float) -> tuple[Array, Array]:
        """Larger and smaller principal stress: side 1 away from the pressure, -1 pressed. [MPa]"""
        long, short, shear = self.membrane_mpa + side * self.bending_mpa
        mean, radius = (long + short) / 2, np.sqrt(((long - short) / 2) ** 2 + shear**2)
        return mean + radius, mean - radius


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """One state of a plate, to be asked anywhere; places as shares of the half sides, -1 to 1."""

    plate: Plate
    path: HeldPath
    state: State
    forces: Array  #: on clips and patches, scaled as the load
    known: bool

    @property
    def shape(self) -> Shape:
        """What the plate's path hangs on."""
        return self.path.equations.shape

    def at(self, x: Array, y: Array) -> Surfaces:
        """All of the grid of lines x and y."""
        plate, equations = self.plate, self.path.equations
        tables = equations.x.tables(x), equations.y.tables(y)
        rough = equations.refinement
        share = self.state.w.reshape(equations.bent_counts) - rough.blunt(self.forces)
        bent = products((tables[0][0], tables[1][0]), share) + rough.sharp(self.forces, x, y)
        bent = bent * scale(plate.elastic.poisson)
        return Surfaces(
            bent[0] * plate.thickness_mm,
            self._membrane(tables[0][1], tables[1][1]) * plate.stress_unit_mpa,
            self._bending(bent),
        )

    def _membrane(self, gx: Basis, gy: Basis) -> Array:
        f = self.state.f.reshape(self.path.equations.pulled_counts) * scale(self.plate.elastic.poisson) ** 2
        return np.stack((gx[0] @ f @ gy[2].T, gx[2] @ f @ gy[0].T, -gx[1] @ f @ gy[1].T))

    def _bending(self, bent: Array) -> Array:
        nu = self.plate.elastic.poisson
        _, long, short, twist = bent
        stiff = -self.plate.stress_unit_mpa / (2 * (1 - nu**2))
        return np.asarray(stiff * np.stack((long + nu * short, short + nu * long, (1 - nu) * twist)))

    @property
    def lines(self) -> tuple[Array, Array]:
        """Places where it is worth looking: closer at the edges, at patches and at clips."""
        shape = self.shape
        spots = [*shape.clips, *(spot for _, spot in shape.patches)]
        x = _lines([(spot[0], spot[2] / shape.aspect) for spot in spots], even=shape.even[0])
        return x, _lines([(spot[1], spot[3]) for spot in spots], even=shape.even[1])


def _lines(spots: list[tuple[float, float]], *, even: bool) -> Array:
    """Lines over one way: (middle, half a size) of each patch, as shares of the half side."""
    near = [middle + half * _NEAR for middle, half in spots]
    found = np.sort(np.round(np.concatenate((_HALF, -_HALF, *near)), 9))
    found = found[np.append(True, np.diff(found) > 0)]  # np.unique would open numpy's masked arrays for it
    return np.asarray(found[(found >= (0 if even else -1)) & (found <= 1)])


@dataclass(frozen=True, slots=True)
class Peak:
    """A largest value and its place from the middle of the plate."""

    value: float
    along_mm: float
    across_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class SupportedBent:
    """How far a plate goes and how hard it is pulled."""

    supported: Supported
    pressing: Pressing
    field: Field
    deflection: Peak  #: farthest either way [mm]
    away: Peak  #: largest principal stress on the face away from the pressure [MPa]
    pressed: Peak  #: on the pressed face
    edge_mpa: float  #: largest principal stress along sides that are not held, either face
    clip_n: tuple[float, ...]  #: push of each distinct clip, mirror images not repeated
    known: bool  #: whether this state is inside the theory's range; else the figures are of the range's end

    @property
    def worst_mpa(self) -> float:
        """Largest tension on either face. [MPa]"""
        return max(self.away.value, self.pressed.value)


@lru_cache(maxsize=256)
def bend_supported(supported: Supported, pressing: Pressing) -> SupportedBent:
    """Deflection and stresses of a plate in its holding.

    A knee, 1 kN on 100 x 100 mm in the middle of a pane held on four sides:

    >>> from panewright.glass.plate.bending import Elastic
    >>> from panewright.glass.plate.holding import Patch
    >>> pane = Plate(1600, 1000, 5.0, Elastic(70e9, 0.23))
    >>> bent = bend_supported(Supported(pane), Pressing(patches=(Patch(1000),)))
    >>> round(bent.deflection.value, 1), round(bent.away.value)
    (11.8, 55)
    """
    field = bent_field(supported, pressing)
    x, y = field.lines
    surfaces, plate = field.at(x, y), supported.plate
    places = x * plate.long_mm / 2, y * plate.short_mm / 2
    away, pressed = surfaces.principal(1.0)[0], surfaces.principal(-1.0)[0]
    deflection = _peak(np.abs(surfaces.deflection_mm), places)
    return SupportedBent(
        supported,
        pressing,
        field,
        deflection,
        _peak(away, places),
        _peak(pressed, places),
        _edge_mpa(np.maximum(away, pressed), supported),
        _clip_forces(field, supported),
        field.known and deflection.value <= STEEPEST * plate.short_mm,
    )


def bent_field(supported: Supported, pressing: Pressing) -> Field:
    """The state of a plate, nothing looked for in it yet."""
    plate = supported.plate
    if not all(patch.within(plate) for patch in pressing.patches):
        raise ValueError(f"patches lie on the plate, got {pressing.patches} on {plate}")
    whole_n, shape = shape_of(supported, pressing)
    path = held_path(shape)
    unit_n = plate.load_unit_pa * (plate.short_mm * MM) ** 2 * scale(plate.elastic.poisson) ** 3
    load = whole_n / unit_n
    farthest = STEEPEST * plate.short_mm / plate.thickness_mm / scale(plate.elastic.poisson)
    settled = state_at(path, load, farthest)
    state, reached = path.at_load(load, farthest) if settled is None else (settled, True)
    pushed_back = -path.equations.clip_forces(state.load, state.w)
    pressed = state.load * np.array([share for share, _ in shape.patches])
    known = reached and plate.aspect <= WIDEST
    return Field(plate, path, state, np.concatenate((pushed_back, pressed)), known)


def shape_of(supported: Supported, pressing: Pressing) -> tuple[float, Shape]:
    """Whole load [N], the pressure counted over b^2, and the shape of plate and load without sizes."""
    plate = supported.plate
    pressure_n = pressing.pressure_pa * (plate.short_mm * MM) ** 2
    whole = pressure_n + sum(patch.force_n for patch in pressing.patches)
    patches = tuple(
        (
            patch.force_n / whole,
            _spot(plate, (patch.along_mm, patch.across_mm, patch.long_mm, patch.short_mm)),
        )
        for patch in pressing.patches
        if patch.force_n > 0
    )
    clips = tuple(_spot(plate, place) for place in supported.clip_places)
    pressure = pressure_n / whole if whole > 0 else 1.0
    return whole, Shape(plate.aspect, plate.elastic.poisson, supported.held, clips, patches, pressure)


def _spot(plate: Plate, place: Place) -> Spot:
    along, across, wide, deep = place
    a, b = plate.long_mm, plate.short_mm
    along, across = (round(each, 12) for each in (2 * along / a, 2 * across / b))  # mirror images alike
    return along, across, wide / b, deep / b


def _peak(values: Array, places: tuple[Array, Array]) -> Peak:
    i, j = (int(k) for k in np.unravel_index(values.argmax(), values.shape))
    return Peak(float(values[i, j]), float(places[0][i]), float(places[1][j]))


def _edge_mpa(worst: Array, supported: Supported) -> float:
    """Largest stress along free sides: the grid's last lines, and its first, edges too or a middle line."""
    held_x, held_y = supported.held
    x = [] if held_x else [worst[0].max(), worst[-1].max()]
    y = [] if held_y else [worst[:, 0].max(), worst[:, -1].max()]
    return float(max((*x, *y), default=0.0))


def _clip_forces(field: Field, supported: Supported) -> tuple[float, ...]:
    """Push of one clip of each mirrored set. [N]"""
    shape, plate = field.shape, supported.plate
    unit_n = plate.load_unit_pa * (plate.short_mm * MM) ** 2 * scale(plate.elastic.poisson) ** 3
    even_x, even_y = shape.even
    images = [
        (2 if even_x and spot[0] else 1) * (2 if even_y and spot[1] else 1) for spot in shape.distinct_clips
    ]
    return tuple(-float(force) * unit_n / number for force, number in zip(field.forces, images, strict=False))
