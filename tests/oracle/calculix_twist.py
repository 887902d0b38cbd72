"""A quarter of a pane that hangs on two opposite corners, for CalculiX: shells, large displacements.

Four corner forces, up on two corners and down on the other two. Half a turn about either middle
line leaves the pane as it was, so on those lines nothing moves across the pane or across the line.
"""

from __future__ import annotations

import runpy
import subprocess
from pathlib import Path

import numpy as np

PANE = runpy.run_path(str(Path(__file__).with_name("calculix_pane.py")))
NEAR_CORNER = 0.9  # of the half sides: beyond it the point load's own dent is left out


def deck(case, corner_n: float, elements: int) -> str:
    """The input of CalculiX."""
    mesh = PANE["Mesh"](case, elements)
    lines = ["*NODE, NSET=NALL"]
    lines += [f"{k}, {mesh.x[i]:.12g}, {mesh.y[j]:.12g}, 0" for (i, j), k in mesh.number.items()]
    lines.append("*ELEMENT, TYPE=S8R, ELSET=PANE")
    for e, ring in enumerate(mesh.elements(), start=1):
        lines.append(", ".join(str(n) for n in (e, *(mesh.number[p] for p in ring))))
    lines += ["*MATERIAL, NAME=GLASS", "*ELASTIC", f"{case.young_pa:g}, {case.poisson:g}"]
    lines += ["*SHELL SECTION, ELSET=PANE, MATERIAL=GLASS", f"{case.thickness_m:.12g}", "*BOUNDARY"]
    lines += [f"{k}, {d}, {d}" for k in mesh.where(0, 0) for d in (1, 3, 4)]
    lines += [f"{k}, {d}, {d}" for k in mesh.where(1, 0) for d in (2, 3, 5)]
    lines += ["*STEP, NLGEOM, INC=200", "*STATIC", "0.1, 1., 1e-6, 0.2", "*CLOAD"]
    lines.append(f"{mesh.number[mesh.n, mesh.n]}, 3, {corner_n:.12g}")
    lines += ["*NODE FILE, OUTPUT=3D", "U", "*EL FILE", "S", "*END STEP", ""]
    return "\n".join(lines)


def largest_mpa(case, corner_n: float, folder: Path, elements: int = 8) -> float:
    """Largest principal stress anywhere but at the corner itself. [MPa]"""
    places, stresses = _solved(case, corner_n, folder, elements)
    half = np.array([case.long_m / 2, case.short_m / 2])
    away = (n for n in stresses if not (np.abs(places[n][:2]) > NEAR_CORNER * half).all())
    return max(_principal(stresses[node]) for node in away) / 1e6


def middle_mpa(case, corner_n: float, folder: Path, elements: int = 8) -> float:
    """Principal stress on a face in the middle. [MPa]"""
    places, stresses = _solved(case, corner_n, folder, elements)
    middle = (n for n in stresses if np.hypot(*places[n][:2]) < 1e-9)
    return max(_principal(stresses[node]) for node in middle) / 1e6


def _solved(case, corner_n: float, folder: Path, elements: int):
    """Places of all nodes and their stresses at the last step."""
    (folder / "twist.inp").write_text(deck(case, corner_n, elements))
    run = subprocess.run(["ccx", "-i", "twist"], cwd=folder, capture_output=True, text=True, check=False)
    if run.returncode or not (folder / "twist.frd").exists():
        raise RuntimeError(f"CalculiX failed:\n{run.stdout[-2000:]}")
    text = (folder / "twist.frd").read_text()
    return PANE["_block"](text, "    2C"), PANE["_block"](text, " -4  STRESS")


def _principal(stress) -> float:
    xx, yy, zz, xy, yz, zx = stress
    return float(np.linalg.eigvalsh([[xx, xy, zx], [xy, yy, yz], [zx, yz, zz]])[-1])
