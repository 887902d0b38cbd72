"""A quarter of a welded angle frame for CalculiX: legs as quadratic shells on their middle planes.

Used by the test beside it. Axes: x along the long rail from the corner where the middle planes of the
uprights meet the seat's, y along the short one, z up. Seats join along the mitre and uprights along the
corner's line by sharing nodes. The pane's load stands on a line of seat nodes, a bracket is one node of the
upright. CalculiX turns S8R shells into solids: movements and stresses of the middle plane are means over the
solid's nodes through the wall; near a bracket and in the corner the stress is singular and not read.
"""

from __future__ import annotations

import itertools
import math
import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np

Place = tuple[float, float, float]
_SAME_MM = 1e-5


@dataclass(frozen=True, slots=True)
class Case:
    """A frame between the middle lines of its uprights, in N and mm; the load is the 45 degree split."""

    long_mm: float
    short_mm: float
    seat_mm: float  #: of the middle plane, from the upright's
    upright_mm: float  #: of the middle plane, from the seat's
    wall_mm: float
    bead_mm: float  #: from the upright's middle plane to the load
    bolt_mm: float  #: from the seat's middle plane to the brackets' bolts
    brackets_mm: tuple[float, ...]  #: on the first half of a long rail
    top_n_mm: float  #: load where it is highest, pressing
    held: bool  #: whether the line of the load is held sideways
    young_mpa: float = 69_600.0
    poisson: float = 0.33


@dataclass(frozen=True, slots=True)
class Answer:
    """Solid nodes: where they are, how they move, the stresses there."""

    place: np.ndarray
    moved: np.ndarray
    stress: np.ndarray
    wall_mm: float

    def through(self, at: Place, what: str) -> np.ndarray:
        """Mean through the wall of what is found at a place of the middle plane."""
        near = np.linalg.norm(self.place - np.array(at), axis=1) < self.wall_mm / 2 + _SAME_MM
        if not near.any():
            raise ValueError(f"no node at {at}")
        return getattr(self, what)[near].mean(axis=0)

    def columns(self, axis: int, line: float) -> np.ndarray:
        """Places along a rail where its seat has nodes on a line so far from the upright."""
        on = (abs(self.place[:, 1 - axis] - line) < _SAME_MM) & (abs(self.place[:, 2]) < self.wall_mm)
        return np.unique(self.place[on, axis].round(4))


def _lines(places: list[float], step: float) -> list[float]:
    """Nodes through the places, elements no longer than the step, with a node in each one's middle."""
    out = [places[0]]
    for low, high in itertools.pairwise(places):
        parts = max(1, math.ceil((high - low) / step - 1e-9))
        for part in range(parts):
            out += [low + (high - low) * (part + half) / parts for half in (0.5, 1.0)]
    return out


class Mesh:
    """Nodes by their places; elements; and the nodes of each rail's line of load, in order."""

    def __init__(self, case: Case, step: float = 14.0) -> None:
        self.case = case
        self.number: dict[tuple[float, ...], int] = {}
        self.places: list[Place] = []
        self.elements: list[list[int]] = []
        self.loaded: list[list[int]] = []
        seat = _lines([0.0, case.bead_mm, case.seat_mm], case.seat_mm / 4)
        upright = _lines([0.0, case.bolt_mm, case.upright_mm], case.upright_mm / 4)
        for rail, (half, held) in enumerate(((case.long_mm / 2, case.brackets_mm), (case.short_mm / 2, ()))):
            along = _lines(sorted({0.0, 1.4 * case.seat_mm, half, *held}), step)
            self._leg(rail, along, seat, upright=False)
            self._leg(rail, along, upright, upright=True)
            row = seat.index(case.bead_mm)
            self.loaded.append([self._node(rail, at, seat[row], upright=False) for at in along])

    def _node(self, rail: int, along: float, across: float, *, upright: bool) -> int:
        """Number of the node; towards the corner a seat's columns lean to the mitre."""
        zone = 1.4 * self.case.seat_mm
        if not upright and along < zone:
            along = across + along * (zone - across) / zone
        s, n, z = (along, 0.0, across) if upright else (along, across, 0.0)
        place = (s, n, z) if rail == 0 else (n, s, z)
        key = tuple(round(one, 6) for one in place)
        if key not in self.number:
            self.places.append(place)
            self.number[key] = len(self.places)
        return self.number[key]

    def _leg(self, rail: int, along: list[float], across: list[float], *, upright: bool) -> None:
        ring = ((0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1))
        if upright == (rail == 0):  # so that all seats face up and all uprights inward
            ring = tuple((j, i) for i, j in ring)
        for i in range(0, len(along) - 1, 2):
            for j in range(0, len(across) - 1, 2):
                grid = [(i + di, j + dj) for di, dj in ring]
                self.elements.append(
                    [self._node(rail, along[a], across[b], upright=upright) for a, b in grid]
                )

    def forces(self) -> dict[int, float]:
        """Force of the load at each node, pressing. [N]"""
        out: dict[int, float] = {}
        points, weights = np.polynomial.legendre.leggauss(8)
        for rail, line in enumerate(self.loaded):
            for first, middle, last in zip(line[::2], line[1::2], line[2::2], strict=False):
                low, high = self.places[first - 1][rail], self.places[last - 1][rail]
                for x, weight in zip(points, weights, strict=True):
                    at = (low + high) / 2 + x * (high - low) / 2
                    share = self._line_n_mm(at) * weight * (high - low) / 2
                    shapes = (x * (x - 1) / 2, 1 - x * x, x * (x + 1) / 2)
                    for node, shape in zip((first, middle, last), shapes, strict=True):
                        out[node] = out.get(node, 0.0) + share * shape
        return out

    def _line_n_mm(self, at: float) -> float:
        """Load on either rail so far from the corner: rises to the short rail's middle, then stays."""
        ramp = self.case.short_mm / 2 - self.case.bead_mm
        return self.case.top_n_mm * min(max(at - self.case.bead_mm, 0.0) / ramp, 1.0)


def deck(case: Case) -> str:
    """The input of CalculiX."""
    mesh = Mesh(case)
    lines = ["*NODE, NSET=NALL"]
    lines += [f"{k}, {x:.12g}, {y:.12g}, {z:.12g}" for k, (x, y, z) in enumerate(mesh.places, start=1)]
    lines.append("*ELEMENT, TYPE=S8R, ELSET=RAILS")
    lines += [", ".join(str(n) for n in (e, *ring)) for e, ring in enumerate(mesh.elements, start=1)]
    lines += ["*MATERIAL, NAME=ALUMINIUM", "*ELASTIC", f"{case.young_mpa:g}, {case.poisson:g}"]
    lines += ["*SHELL SECTION, ELSET=RAILS, MATERIAL=ALUMINIUM", f"{case.wall_mm:.12g}", "*BOUNDARY"]
    lines += [f"{k}, {d}, {d}" for k, d in _held(case, mesh)]
    lines += ["*STEP", "*STATIC", "*CLOAD"]
    lines += [f"{k}, 3, {-force:.12g}" for k, force in mesh.forces().items() if force]
    lines += ["*NODE FILE, OUTPUT=3D", "U", "*EL FILE", "S", "*END STEP", ""]
    return "\n".join(lines)


def _held(case: Case, mesh: Mesh) -> list[tuple[int, int]]:
    """Nodes and directions that do not move: symmetry, brackets, and the line of the load sideways."""
    held: list[tuple[int, int]] = []
    for number, place in enumerate(mesh.places, start=1):
        if abs(place[0] - case.long_mm / 2) < _SAME_MM:
            held += [(number, way) for way in (1, 5, 6)]
        if abs(place[1] - case.short_mm / 2) < _SAME_MM:
            held += [(number, way) for way in (2, 4, 6)]
        if (
            abs(place[1]) < _SAME_MM
            and abs(place[2] - case.bolt_mm) < _SAME_MM
            and _any(place[0], case.brackets_mm)
        ):
            held += [(number, way) for way in (1, 2, 3)]
    if case.held:
        held += [(number, 2 - rail) for rail, line in enumerate(mesh.loaded) for number in line]
    return sorted(set(held))


def _any(at: float, places: tuple[float, ...]) -> bool:
    return any(abs(at - place) < _SAME_MM for place in places)


def solve(case: Case, folder: Path) -> Answer:
    """Run CalculiX in a folder."""
    (folder / "frame.inp").write_text(deck(case))
    run = subprocess.run(["ccx", "-i", "frame"], cwd=folder, capture_output=True, text=True, check=False)
    if run.returncode or not (folder / "frame.frd").exists():
        raise RuntimeError(f"CalculiX failed:\n{run.stdout[-2000:]}")
    text = (folder / "frame.frd").read_text()
    places, moved, stress = (_block(text, head) for head in ("    2C", " -4  DISP", " -4  STRESS"))
    rows = (np.array([block[number] for number in places]) for block in (places, moved, stress))
    return Answer(*rows, case.wall_mm)


def _block(text: str, head: str) -> dict[int, list[float]]:
    """Rows of the last block that starts so; fixed columns: ten for the node, twelve for each figure."""
    rows: dict[int, list[float]] = {}
    for line in text[text.rindex(head) :].splitlines()[1:]:
        if line.startswith(" -3"):
            break
        if line.startswith(" -1"):
            figures = line[13:]
            rows[int(line[3:13])] = [float(figures[k : k + 12]) for k in range(0, len(figures), 12)]
    return rows
