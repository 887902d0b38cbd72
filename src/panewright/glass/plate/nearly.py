"""What a touch does to a pane on four sides, nearly and at once: the almanac's figure with sizes put back."""

from __future__ import annotations

from panewright.glass.plate.almanac.touches import Touched, stresses
from panewright.glass.plate.bending import Plate
from panewright.glass.plate.field import STEEPEST
from panewright.units import MM

_LINEAR, _SKIN = 0.19, 2.0  # w/t is less than this times the force, and than that times its third root


def touched_mpa(
    plate: Plate, force_n: float, side_mm: float, pressure_pa: float = 0.0
) -> tuple[float, float] | None:
    """Largest stress under a square in the middle, and one and a half of its sides from the long edge. [MPa]

    Within `OFF` of the almanac; None for what it has not, and for a plate that may bend too far.

    >>> from panewright.glass.plate.bending import Elastic
    >>> pane = Plate(1600, 1000, 5.0, Elastic(70e9, 0.23))
    >>> [round(stress) for stress in touched_mpa(pane, 1000, 100)]
    [55, 55]
    """
    if not force_n > 0:
        return None
    short_m = plate.short_mm * MM
    force = force_n / (plate.load_unit_pa * short_m**2)
    touched = Touched(plate.aspect, side_mm / plate.short_mm, pressure_pa * short_m**2 / force_n, force)
    if min(_LINEAR * force, _SKIN * force ** (1 / 3)) > STEEPEST * plate.short_mm / plate.thickness_mm:
        return None
    found = stresses(touched, plate.elastic.poisson)
    return None if found is None else (found[0] * plate.stress_unit_mpa, found[1] * plate.stress_unit_mpa)
