"""Our plate beside CalculiX's nonlinear shells, same panes, same run: how near, and how many times as fast.

python benchmarks/pane_against_calculix.py [elements along a half side, 16]
"""

from __future__ import annotations

import runpy
import sys
import tempfile
import time
from pathlib import Path

from panewright.glass.bending import Bent, Elastic, Plate, bend

MODEL = runpy.run_path(str(Path(__file__).parents[1] / "tests" / "oracle" / "calculix_pane.py"))
GLASS = Elastic(71.7e9, 0.22)
PANES = (  # long, short, thickness, pressure
    (1000.0, 1000.0, 3.78, 2400.0),
    (1500.0, 1000.0, 3.78, 2400.0),
    (2000.0, 1000.0, 3.78, 2400.0),
    (1500.0, 1200.0, 5.60, 1800.0),
)


def _timed_plate(pane: tuple[float, float, float, float]) -> tuple[Bent, float]:
    start = time.perf_counter()
    bent = bend(Plate(*pane[:3], GLASS), pane[3])
    return bent, time.perf_counter() - start


def main(elements: int) -> None:
    """One line a pane."""
    print(
        f"{'pane mm, Pa':30} {'w mm ours':>10} {'shells':>8} {'ratio':>6} | {'centre MPa':>11}"
        f" {'shells':>10} {'ratio':>6} | {'s ours':>6} {'shells':>6} {'times':>6}"
    )
    for pane in PANES:
        bent, ours_s = _timed_plate(pane)
        case = MODEL["Case"](pane[0] / 1e3, pane[1] / 1e3, pane[2] / 1e3, pane[3])
        start = time.perf_counter()
        with tempfile.TemporaryDirectory() as folder:
            shells = MODEL["solve"](case, Path(folder), elements)
        shells_s = time.perf_counter() - start
        name = f"{pane[0]:.0f} x {pane[1]:.0f} x {pane[2]:.2f}, {pane[3]:.0f}"
        print(
            f"{name:30} {bent.deflection_mm:10.3f} {shells.deflection_mm:8.3f}"
            f" {bent.deflection_mm / shells.deflection_mm:6.4f} | {bent.centre_mpa:11.2f}"
            f" {shells.centre_mpa:10.2f} {bent.centre_mpa / shells.centre_mpa:6.4f} |"
            f" {ours_s:6.3f} {shells_s:6.2f} {shells_s / ours_s:6.0f}"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 16)
