"""A quarter or half of a pane in any holding for CalculiX: quadratic shells, large displacements, dead load.

Sides are held or free; a clip lets the mean deflection over its patch be nothing, by one equation whose
coefficients are those of an even pressure; a patch or an even pressure loads the pane. A half has both ends
of the long way, for a patch anywhere along it. Lines of the mesh lie on the sides of every patch. Beside
`calculix_pane`, whose reader it shares.
"""

from __future__ import annotations

import itertools
import runpy
import subprocess
from dataclasses import dataclass
from pathlib import Path

_PANE = runpy.run_path(str(Path(__file__).with_name("calculix_pane.py")))
_SHARES = (_PANE["CORNER_SHARE"],) * 4 + (_PANE["SIDE_SHARE"],) * 4
_RING = ((0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1))

Box = tuple[float, float, float, float]  #: x from, x to, y from, y to; from the pane's middle


@dataclass(frozen=True, slots=True)
class Held:
    """One pane, in SI; boxes lie in the part that is meshed, y > 0, and x > 0 where it is a quarter."""

    long_m: float
    short_m: float
    thickness_m: float
    held_long: bool = False  #: its long sides
    held_short: bool = False
    pressure_pa: float = 0.0
    force_n: float = 0.0  #: of the whole patch
    patch: Box | None = None  #: the part of it that is meshed
    clips: tuple[Box, ...] = ()
    half: bool = False
    young_pa: float = 71.7e9
    poisson: float = 0.22


def lines(span: tuple[float, float], stops: list[float], size: float) -> list[float]:
    """Places of nodes over a span: elements end at every stop and are of about this size."""
    ends = sorted({*span, *stops})
    corners = [span[0]]
    for low, high in itertools.pairwise(ends):
        number = max(2 if high - low < 3 * size else 1, round((high - low) / size))
        corners += [low + (high - low) * k / number for k in range(1, number + 1)]
    return [corners[0], *(x for low, high in itertools.pairwise(corners) for x in ((low + high) / 2, high))]


class Mesh:
    """Nodes by their place in a grid of half elements; the centres of elements have none."""

    def __init__(self, case: Held, size: float) -> None:
        boxes = [*case.clips, *([case.patch] if case.patch else [])]
        start = -case.long_m / 2 if case.half else 0.0
        self.x = lines((start, case.long_m / 2), [x for box in boxes for x in box[:2]], size)
        self.y = lines((0.0, case.short_m / 2), [y for box in boxes for y in box[2:]], size)
        self.top = len(self.x) - 1, len(self.y) - 1
        places = itertools.product(range(len(self.x)), range(len(self.y)))
        kept = [(i, j) for i, j in places if not (i % 2 and j % 2)]
        self.number = {place: k for k, place in enumerate(kept, start=1)}

    def rings(self) -> list[list[tuple[int, int]]]:
        """Places of the nodes of each element, corners first."""
        steps = itertools.product(range(0, self.top[0], 2), range(0, self.top[1], 2))
        return [[(i + di, j + dj) for di, dj in _RING] for i, j in steps]

    def spread(self, box: Box) -> dict[int, float]:
        """Shares of the nodes in an even pressure of 1 over a box."""
        total: dict[int, float] = {}
        for ring in self.rings():
            (i, j), (k, m) = ring[0], ring[2]
            x, y = (self.x[i] + self.x[k]) / 2, (self.y[j] + self.y[m]) / 2
            if box[0] < x < box[1] and box[2] < y < box[3]:
                area = (self.x[k] - self.x[i]) * (self.y[m] - self.y[j])
                for share, place in zip(_SHARES, ring, strict=True):
                    total[self.number[place]] = total.get(self.number[place], 0.0) + share * area
        return total

    def on(self, axis: int, at: int) -> list[int]:
        """Numbers of the nodes on one line."""
        return [k for place, k in self.number.items() if place[axis] == at]


def deck(case: Held, mesh: Mesh) -> str:
    """The input of CalculiX."""
    out = ["*NODE, NSET=NALL"]
    out += [f"{k}, {mesh.x[i]:.12g}, {mesh.y[j]:.12g}, 0" for (i, j), k in mesh.number.items()]
    out.append("*ELEMENT, TYPE=S8R, ELSET=PANE")
    for e, ring in enumerate(mesh.rings(), start=1):
        out.append(", ".join(str(n) for n in (e, *(mesh.number[p] for p in ring))))
    for box in case.clips:
        shares = {k: share for k, share in mesh.spread(box).items() if abs(share) > 1e-15}
        first = max(shares, key=lambda k: abs(shares[k]))
        terms = [(first, shares.pop(first)), *shares.items()]
        out += ["*EQUATION", str(len(terms))]
        out += [f"{k}, 3, {share / terms[0][1]:.12g}" for k, share in terms]
    out += ["*MATERIAL, NAME=GLASS", "*ELASTIC", f"{case.young_pa:g}, {case.poisson:g}"]
    out += ["*SHELL SECTION, ELSET=PANE, MATERIAL=GLASS", f"{case.thickness_m:.12g}", "*BOUNDARY"]
    out += [f"{mesh.number[0, 0]}, 1, 1"]
    out += [f"{k}, {d}, {d}" for k in mesh.on(0, 0) for d in (1, 5) if not case.half]
    out += [f"{k}, {d}, {d}" for k in mesh.on(1, 0) for d in (2, 4)]
    ends = [mesh.top[0], *([0] if case.half else [])]
    held = {k for end in ends for k in mesh.on(0, end) if case.held_short}
    held |= set(mesh.on(1, mesh.top[1]) if case.held_long else [])
    out += [f"{k}, 3, 3" for k in sorted(held)]
    out += ["*STEP, NLGEOM, INC=200", "*STATIC", "0.1, 1., 1e-6, 0.25", "*CLOAD"]
    out += [f"{k}, 3, {force:.12g}" for k, force in _forces(case, mesh).items()]
    out += ["*NODE FILE, OUTPUT=3D", "U", "*EL FILE", "S", "*END STEP", ""]
    return "\n".join(out)


def _forces(case: Held, mesh: Mesh) -> dict[int, float]:
    everywhere = (-case.long_m, case.long_m, -case.short_m, case.short_m)
    total = {k: case.pressure_pa * share for k, share in mesh.spread(everywhere).items()}
    if case.patch:
        x0, x1, y0, y1 = case.patch
        pressure = case.force_n / ((2 if case.half else 4) * (x1 - x0) * (y1 - y0))
        for k, share in mesh.spread(case.patch).items():
            total[k] += pressure * share
    return total


@dataclass(frozen=True, slots=True)
class Answer:
    """What CalculiX found over the node nearest to a place."""

    place_m: tuple[float, float]
    deflection_mm: float
    away_mpa: float  #: larger principal stress on the face away from the pressure
    pressed_mpa: float


def solve(case: Held, folder: Path, size: float, places: list[tuple[float, float]]) -> list[Answer]:
    """Run CalculiX in a folder and read it at places, from the pane's middle."""
    mesh = Mesh(case, size)
    (folder / "pane.inp").write_text(deck(case, mesh))
    run = subprocess.run(["ccx", "-i", "pane"], cwd=folder, capture_output=True, text=True, check=False)
    if run.returncode or not (folder / "pane.frd").exists():
        raise RuntimeError(f"CalculiX failed:\n{run.stdout[-2000:]}")
    text = (folder / "pane.frd").read_text()
    block = _PANE["_block"]
    where, moved, stress = block(text, "    2C"), block(text, " -4  DISP"), block(text, " -4  STRESS")
    return [_answer(where, moved, stress, place) for place in places]


def _answer(where, moved, stress, place: tuple[float, float]) -> Answer:
    """The two faces over the node nearest to a place."""
    far = {n: (x - place[0]) ** 2 + (y - place[1]) ** 2 for n, (x, y, _) in where.items()}
    least = min(far.values())
    column = sorted((n for n, d in far.items() if d < least + 1e-12), key=lambda n: where[n][2])
    low, high = column[0], column[-1]
    return Answer(
        (where[high][0], where[high][1]),
        moved[high][2] * 1e3,
        _principal(stress[high]),
        _principal(stress[low]),
    )


def _principal(s: list[float]) -> float:
    return ((s[0] + s[1]) / 2 + (((s[0] - s[1]) / 2) ** 2 + s[3] ** 2) ** 0.5) / 1e6
