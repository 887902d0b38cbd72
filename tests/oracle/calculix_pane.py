"""A quarter of an evenly pressed pane for CalculiX: quadratic shells, large displacements, dead load.

Used by the test beside it and by benchmarks/pane_against_calculix.py. CalculiX turns S8R shells into solid
elements; stresses are read at the solid's nodes over the middle of the pane.
"""

from __future__ import annotations

import itertools
import math
import subprocess
from dataclasses import dataclass
from pathlib import Path

INSIDE = 0.97  #: nearer to the edge and the corner node shells meet supports that a plate does not have
CORNER_SHARE, SIDE_SHARE = -1 / 12, 1 / 3  # even pressure on an eight-noded rectangle, consistent loads


@dataclass(frozen=True, slots=True)
class Case:
    """One pane, in SI."""

    long_m: float
    short_m: float
    thickness_m: float
    pressure_pa: float
    young_pa: float = 71.7e9
    poisson: float = 0.22


@dataclass(frozen=True, slots=True)
class Answer:
    """What CalculiX found."""

    deflection_mm: float
    centre_mpa: float
    peak_mpa: float  #: largest principal stress on the far face, inside INSIDE of both half spans


def _lines(half: float, elements: int) -> list[float]:
    """Places of nodes from the middle to the edge, with mid-side nodes; elements shrink outwards."""
    corners = [half * (1 - (1 - k / elements) ** 1.5) for k in range(elements + 1)]
    out = [corners[0]]
    for low, high in itertools.pairwise(corners):
        out += [(low + high) / 2, high]
    return out


class Mesh:
    """Nodes by their place in a grid of half elements; the centres of elements have none."""

    def __init__(self, case: Case, elements: int) -> None:
        self.n = 2 * elements
        self.x, self.y = _lines(case.long_m / 2, elements), _lines(case.short_m / 2, elements)
        places = [(i, j) for j in range(self.n + 1) for i in range(self.n + 1) if not (i % 2 and j % 2)]
        self.number = {place: k for k, place in enumerate(places, start=1)}

    def elements(self) -> list[list[tuple[int, int]]]:
        """Places of the nodes of each element, corners first."""
        ring = ((0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1))
        steps = range(0, self.n, 2)
        return [[(i + di, j + dj) for di, dj in ring] for j in steps for i in steps]

    def where(self, axis: int, at: int) -> list[int]:
        """Numbers of the nodes on one line."""
        return [k for place, k in self.number.items() if place[axis] == at]

    def forces(self, pressure_pa: float) -> dict[int, float]:
        """Force at each node. [N]"""
        total: dict[int, float] = dict.fromkeys(self.number.values(), 0.0)
        for ring in self.elements():
            (i, j), (k, m) = ring[0], ring[2]
            load = pressure_pa * (self.x[k] - self.x[i]) * (self.y[m] - self.y[j])
            for rank, place in enumerate(ring):
                total[self.number[place]] += load * (CORNER_SHARE if rank < 4 else SIDE_SHARE)
        return total


def deck(case: Case, elements: int) -> str:
    """The input of CalculiX."""
    mesh = Mesh(case, elements)
    lines = ["*NODE, NSET=NALL"]
    lines += [f"{k}, {mesh.x[i]:.12g}, {mesh.y[j]:.12g}, 0" for (i, j), k in mesh.number.items()]
    lines.append("*ELEMENT, TYPE=S8R, ELSET=PANE")
    for e, ring in enumerate(mesh.elements(), start=1):
        lines.append(", ".join(str(n) for n in (e, *(mesh.number[p] for p in ring))))
    lines += ["*MATERIAL, NAME=GLASS", "*ELASTIC", f"{case.young_pa:g}, {case.poisson:g}"]
    lines += ["*SHELL SECTION, ELSET=PANE, MATERIAL=GLASS", f"{case.thickness_m:.12g}", "*BOUNDARY"]
    lines += [f"{k}, {d}, {d}" for k in mesh.where(0, 0) for d in (1, 5)]
    lines += [f"{k}, {d}, {d}" for k in mesh.where(1, 0) for d in (2, 4)]
    lines += [f"{k}, 3, 3" for k in sorted({*mesh.where(0, mesh.n), *mesh.where(1, mesh.n)})]
    lines += ["*STEP, NLGEOM, INC=100", "*STATIC", "0.1, 1., 1e-5, 0.35", "*CLOAD"]
    lines += [f"{k}, 3, {force:.12g}" for k, force in mesh.forces(case.pressure_pa).items()]
    lines += ["*NODE FILE, OUTPUT=3D", "U", "*EL FILE", "S", "*END STEP", ""]
    return "\n".join(lines)


def solve(case: Case, folder: Path, elements: int = 10) -> Answer:
    """Run CalculiX in a folder."""
    (folder / "pane.inp").write_text(deck(case, elements))
    run = subprocess.run(["ccx", "-i", "pane"], cwd=folder, capture_output=True, text=True, check=False)
    if run.returncode or not (folder / "pane.frd").exists():
        raise RuntimeError(f"CalculiX failed:\n{run.stdout[-2000:]}")
    return _read(case, (folder / "pane.frd").read_text())


def _read(case: Case, text: str) -> Answer:
    """Deflection and stresses on the far face, at the last step."""
    places = _block(text, "    2C")
    middle = [n for n, (x, y, _) in places.items() if abs(x) < 1e-9 and abs(y) < 1e-9]
    face = max(middle, key=lambda n: places[n][2])
    moved, stress = _block(text, " -4  DISP"), _block(text, " -4  STRESS")
    far = places[face][2] - 1e-9
    inside = (
        _larger(stress[n])
        for n, (x, y, z) in places.items()
        if z >= far and x <= INSIDE * case.long_m / 2 and y <= INSIDE * case.short_m / 2
    )
    return Answer(moved[face][2] * 1e3, max(stress[face][:2]) / 1e6, max(inside) / 1e6)


def _larger(stress: list[float]) -> float:
    """Larger principal stress in the plane, out of xx, yy, zz, xy."""
    xx, yy, _, xy = stress[:4]
    return (xx + yy) / 2 + math.hypot((xx - yy) / 2, xy)


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
