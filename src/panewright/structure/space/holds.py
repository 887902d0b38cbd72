"""What brackets and symmetry hold of the nodes.

A bracket's node is solved by the movement of its bolt's line; what the bracket holds is struck out. Where the
legs about a bolt bend (space/legs.py), a spring stands in place of the hold.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.structure.space.conditions import Condition
from panewright.structure.space.member import Array, Point
from panewright.structure.space.mesh import Flags, Mesh

SIDEWAYS, ACROSS = 1, 2  #: movements of a node


def shifts(mesh: Mesh, bolt: Point) -> Array:
    """From the movement a node is solved by to the shear centre's own."""
    inward, up = bolt
    shift = np.zeros((*mesh.held.shape, 6, 6))
    shift[...] = np.eye(6)
    for row, column, lever in ((0, 4, -up), (0, 5, inward), (1, 3, up), (2, 3, -inward)):
        shift[mesh.held, row, column] = lever
    return shift


def free(mesh: Mesh, gives: Point) -> Flags:
    """What may move, but for brackets along the rail; axes (runs, nodes, 6)."""
    may = np.ones((*mesh.held.shape, 6), dtype=bool)
    for movement, give in zip((SIDEWAYS, ACROSS), gives, strict=True):
        may[..., movement] &= ~(mesh.held & ~mesh.alone if give else mesh.held)
    if not mesh.whole:
        may[:, -1, (0, 4, 5)] = False
    return may


def given(mesh: Mesh, gives: Point) -> Array:
    """Springs in place of holds, of each movement of each node; half of one where the rail is cut in half."""
    springs = np.zeros((*mesh.held.shape, 6))
    for movement, bends in zip((SIDEWAYS, ACROSS), gives, strict=True):
        if bends:
            springs[..., movement] = mesh.alone / bends
    if not mesh.whole:
        springs[:, -1] *= 0.5
    return springs


@dataclass(frozen=True, slots=True)
class Stops:
    """What may hold each run along itself."""

    node: NDArray[np.intp]  #: of each bracket, (runs, brackets); runs with fewer name other nodes too
    real: Flags  #: whether that is a bracket
    held: Flags  #: whether it holds, (conditions, runs, brackets)


def stops(mesh: Mesh, ways: tuple[Condition, ...]) -> Stops:
    """Every bracket where brackets hold along the rail. In a ring that nothing else keeps from sliding away
    the first of all holds always."""
    most = max(1, int(mesh.held.sum(axis=-1).max()))
    node = np.argsort(~mesh.held, axis=-1, kind="stable")[:, :most]
    real = np.take_along_axis(mesh.held, node, axis=-1)
    held = real & np.array([way.along for way in ways])[:, None, None]
    if mesh.whole and real.any():
        loose = np.array([not way.spring_mpa for way in ways])
        held[:, int(np.argmax(real[:, 0])), 0] |= loose
    return Stops(node, real, held)
