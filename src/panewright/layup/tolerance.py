"""Cells are not all of one size: the largest and the smallest each place must take.

A side may be longer or shorter by the tolerance of its kind. Laid on its own mark a cell grows by half
of it at each edge; soldered into a column before it is laid, the column grows by all of them together.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from panewright.cell.shape import Shape
from panewright.layup.layup import Layup


def largest(shape: Shape) -> Shape:
    """The largest cell that may come under that name."""
    return _grown(shape, shape.tolerance_mm)


def smallest(shape: Shape) -> Shape:
    """The smallest cell that may come under that name."""
    return _grown(shape, -shape.tolerance_mm)


@lru_cache(maxsize=32)
def _grown(shape: Shape, by_mm: float) -> Shape:
    """Kept, for a panel has many cells of one kind."""
    circle = None if shape.circle_mm is None else shape.circle_mm + by_mm
    return replace(
        shape,
        width_mm=shape.width_mm + by_mm,
        length_mm=shape.length_mm + by_mm,
        circle_mm=circle,
        tolerance_mm=0.0,
    )


@dataclass(frozen=True, slots=True)
class StackUp:
    """A column of cells soldered before it is laid. [mm]"""

    nominal_mm: float
    longest_mm: float  #: every cell at its largest
    likely_mm: float  #: nominal plus the root of the sum of squares: nearly every column is shorter

    @property
    def past_each_end_mm(self) -> float:
        """How far the longest column passes its mark at each end, laid on its middle."""
        return (self.longest_mm - self.nominal_mm) / 2


def stack_up(layup: Layup) -> StackUp:
    """Lengths of the column whose cells may grow most."""
    plan = layup.plan
    columns = [layup.cells[start : start + plan.rows] for start in range(0, len(layup.cells), plan.rows)]
    column = max(columns, key=lambda cells: sum(cell.shape.tolerance_mm for cell in cells))
    nominal = sum(cell.shape.length_mm for cell in column) + (plan.rows - 1) * plan.cell_gap_mm
    tolerances = [cell.shape.tolerance_mm for cell in column]
    likely = nominal + sum(each**2 for each in tolerances) ** 0.5
    return StackUp(nominal, nominal + sum(tolerances), likely)


@lru_cache(maxsize=64)
def least_gaps_mm(layup: Layup) -> tuple[float, float]:
    """Gap between largest neighbours in a column and between columns, each laid on its mark. [mm]

    Infinite where there are no neighbours. Kept, as the ribbons are: one lay-up is judged behind many panes.
    """
    at = {(cell.column, cell.row): (cell.centre, largest(cell.shape)) for cell in layup.cells}
    along = across = float("inf")
    for (column, row), ((x, y), big) in at.items():
        if above := at.get((column, row + 1)):
            halves = (big.length_mm + above[1].length_mm) / 2
            along = min(along, above[0][1] - y - halves)
        if beside := at.get((column + 1, row)):
            halves = (big.width_mm + beside[1].width_mm) / 2
            across = min(across, beside[0][0] - x - halves)
    return along, across
