"""Kinds of cell to lay: whole and cut, square and clipped, with the minus, the plus or nothing in front."""

from __future__ import annotations

import pytest

from panewright.cell.kind import CellKind
from panewright.cell.nameplate import Nameplate
from panewright.cell.shape import Shape

NAMEPLATE = Nameplate(9.0, 0.63, 8.5, 0.53, 0.0005, -0.003)


@pytest.fixture(scope="session")
def whole() -> CellKind:
    return CellKind("whole 156", Shape(156.0, 156.0, busbars=3), NAMEPLATE, "minus")


@pytest.fixture(scope="session")
def halves() -> CellKind:
    shape = Shape(158.75, 158.75, circle_mm=223.0, busbars=5, tolerance_mm=0.25)
    return CellKind("half 158", shape, NAMEPLATE, "minus", parts=2)
