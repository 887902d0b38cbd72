"""What brackets and symmetry hold of the nodes.

A bracket's node is solved by the movement of its bolt's line; what the bracket holds is struck out. Where the
legs about a bolt bend (space/legs.py), a spring stands in place of the hold.
"""

from __future__ import annotations

import numpy as np

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


def soft(mesh: Mesh, bolt: Point) -> Flags:
    """Brackets with room about them for the legs to bend as about a single bolt."""
    alone, room = np.zeros_like(mesh.held), 2 * max(abs(bolt[0]), abs(bolt[1]))
    for run, node in np.argwhere(mesh.held):
        place, end = mesh.place_mm[run], mesh.place_mm[run, -1]
        others = place[mesh.held[run]]
        beyond = [0.0, end] if mesh.whole else [0.0, *(2 * end - others[others < end])]
        away = np.abs(np.append(others, beyond) - place[node])
        alone[run, node] = (away < room).sum() == 1
    return alone


def free(mesh: Mesh, gives: Point, alone: Flags, ways: tuple[Condition, ...]) -> Flags:
    """What may move, axes (conditions, runs, nodes, 6)."""
    may = np.ones((len(ways), *mesh.held.shape, 6), dtype=bool)
    for movement, give in zip((SIDEWAYS, ACROSS), gives, strict=True):
        may[..., movement] &= ~(mesh.held & ~alone if give else mesh.held)
    along = np.array([way.along for way in ways])
    may[..., 0] &= ~(mesh.held[None] & along[:, None, None])
    if mesh.whole:
        loose = np.array([not way.spring_mpa for way in ways])  # nothing else keeps it from sliding away
        may[..., 0] &= ~(_first(mesh.held)[None] & loose[:, None, None])
    else:
        may[:, :, -1, (0, 4, 5)] = False
    return may


def give(matrix: Array, mesh: Mesh, gives: Point, alone: Flags) -> None:
    """Springs in place of holds, added to the stiffness; half of one where the rail is cut in half."""
    for movement, bends in zip((SIDEWAYS, ACROSS), gives, strict=True):
        for run, node in np.argwhere(alone) if bends else ():
            at = 6 * node + movement
            halved = not mesh.whole and node == alone.shape[-1] - 1
            matrix[:, run, at, at] += (0.5 if halved else 1.0) / bends


def _first(held: Flags) -> Flags:
    """The first bracket of all."""
    first = np.zeros_like(held)
    first.flat[int(np.argmax(held))] = True
    return first
