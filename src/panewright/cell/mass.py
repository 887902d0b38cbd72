"""What a cell weighs: silicon of the wafer, its printed metal left out."""

from __future__ import annotations

from panewright.cell.shape import Shape, area_mm2
from panewright.units import MM

SILICON_KG_M3 = 2329.0  #: solid-state handbooks, from memory


def mass_kg(shape: Shape) -> float:
    """Mass of one cell or strip. [kg]

    >>> round(mass_kg(Shape(156, 156, thickness_mm=0.2)) * 1000, 1)
    11.3
    """
    return area_mm2(shape) * MM**2 * shape.thickness_mm * MM * SILICON_KG_M3
