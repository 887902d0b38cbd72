"""What a cell weighs: silicon of the wafer, its printed metal left out."""

from __future__ import annotations

from collections.abc import Iterable

from panewright.cell.shape import Shape, area_mm2
from panewright.units import MM

SILICON_KG_M3 = 2329.0  #: solid-state handbooks, from memory


def mass_kg(shape: Shape) -> float:
    """Mass of one cell or strip. [kg]

    >>> round(mass_kg(Shape(156, 156, thickness_mm=0.2)) * 1000, 1)
    11.3
    """
    return area_mm2(shape) * MM**2 * shape.thickness_mm * MM * SILICON_KG_M3


def all_kg(shapes: Iterable[Shape]) -> float:
    """Mass of many cells, of which most have one and the same shape. [kg]"""
    last, each, whole = None, 0.0, 0.0
    for shape in shapes:
        if shape is not last:
            last, each = shape, mass_kg(shape)
        whole += each
    return whole
