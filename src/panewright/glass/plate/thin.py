"""How hard a thin plate is pulled, were it never to hang in its own skin: quick, and rarely too little.

Thin-plate theory answers every load with the same fields, so they are kept for a shape and added up. A plate
on four sides that bends far is stiffer than this says: what is reckoned in full is less by the skin's share,
from nothing in thick panes to a half in slack ones. Only the skin's own small pull in a stiff plate is left
out, up to 2.5 % (a/b from 1 to 5, 300 to 1000 mm, 3 to 6 mm thick, 0.75 and 1.8 kN on 100 mm; see the tests).
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np

from panewright.glass.plate.basis import Array
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import Field, shape_of
from panewright.glass.plate.held_path import held_path
from panewright.glass.plate.holding import Pressing, Supported
from panewright.glass.plate.path import scale
from panewright.glass.plate.shape import Shape
from panewright.glass.plate.stretch import State
from panewright.units import MM

LEAVES_OUT = 0.025  #: of the stress, at most


def thin_peak_mpa(supported: Supported, pressing: Pressing) -> float:
    """Largest stress on either face of a plate by thin-plate theory. [MPa]

    >>> from panewright.glass.plate.holding import Patch
    >>> pane = Plate(1600, 1000, 5.0, Elastic(70e9, 0.23))
    >>> round(thin_peak_mpa(Supported(pane), Pressing(patches=(Patch(1000),))))
    73
    """
    plate = supported.plate
    whole_n, shape = shape_of(supported, pressing)
    unit_n = plate.load_unit_pa * (plate.short_mm * MM) ** 2 * scale(plate.elastic.poisson) ** 3
    even, *patches = _fields(shape.bare)
    bent = shape.pressure * even
    for (share, _), field in zip(shape.patches, patches, strict=True):
        bent = bent + share * field
    long, short, shear = bent
    most = np.abs((long + short) / 2) + np.hypot((long - short) / 2, shear)
    return float(most.max()) * plate.stress_unit_mpa * whole_n / unit_n


@lru_cache(maxsize=32)
def _fields(bare: Shape) -> tuple[Array, ...]:
    """Stress along, across and in shear for an even load of 1 and for a force of 1 on each patch."""
    none = tuple((0.0, spot) for _, spot in bare.patches)
    units = [replace(bare, patches=none, pressure=1.0)]
    for number, (_, spot) in enumerate(bare.patches):
        alone = (*none[:number], (1.0, spot), *none[number + 1 :])
        units.append(replace(bare, patches=alone, pressure=0.0))
    return tuple(_field(unit) for unit in units)


def _field(unit: Shape) -> Array:
    path = held_path(unit)
    equations = path.equations
    state = State(1.0, equations.at_rest(equations.push), np.zeros(int(np.prod(equations.pulled_counts))))
    plate = Plate(unit.aspect, 1.0, 1.0, Elastic(1e6, unit.poisson))  # stress unit 1 MPa
    field = Field(plate, path, state, np.array([share for share, _ in unit.patches]), known=True)
    return field.at(*field.lines).bending_mpa
