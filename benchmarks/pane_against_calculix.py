"""Our plate beside CalculiX's nonlinear shells: the same pane, the same run, and no better accuracy for ours.

Ours is timed from nothing: the path of that shape of pane is walked anew each time, and the almanac, where
most states stand reckoned beforehand, is not asked. What a design really asks stands on lines of its own:
some tens of loads and thicknesses of one shape, one more pane of a shape already met, and the choice among
all sheets of the shelf.

The mesh is the coarsest tried whose stress at the middle comes within about one part in five hundred of
finite differences (campaigns/differences.py); ours is ten times nearer than that or more, so the ratio
flatters CalculiX. `python benchmarks/pane_against_calculix.py` prints how near each mesh comes, and its time.
"""

from __future__ import annotations

import runpy
import tempfile
import time
from collections.abc import Callable
from functools import lru_cache, partial
from pathlib import Path
from typing import Any
from unittest import mock

from clock import best_each_s, best_s, once_s, one_core
from row import Row

from panewright.glass.load import PaneLoad
from panewright.glass.plate import bending, faces
from panewright.glass.plate import path as plate
from panewright.glass.plate.bending import Elastic, Plate, bend
from panewright.glass.plate.path import walked_path as walked
from panewright.glass.strength import breakage, e1300
from panewright.shelf.load import load_shelf
from panewright.structure.loads import Loads
from panewright.structure.panes.choice import choose_pane

MODEL = runpy.run_path(str(Path(__file__).parents[1] / "tests" / "oracle" / "calculix_pane.py"))
GLASS = Elastic(71.7e9, 0.22)
PANES = (  # long, short, thickness, pressure
    (1500.0, 1000.0, 3.78, 2400.0),
    (2000.0, 1000.0, 5.60, 1800.0),
    (1500.0, 1000.0, 4.00, 8000.0),
)
MESH = 24  #: elements along a half side
SOME = 40  #: loads and thicknesses of one shape of pane that a design asks for
ASKED_PANE_S, ASKED_RATIO = 0.03, 500.0
ASKED_E1300_S = 0.5
ASKED_CHOICE_S = 1.0
GUST = PaneLoad("wind gust", 2400.0, 3.0, "wind", factored=False)
NEEDS = "ccx"
_CACHES = (
    plate._path,
    walked,
    faces._grid_tables,
    breakage._gauss_tables,
    bending.bend,
    e1300.non_factored_load_pa,
)


def rows() -> list[Row]:
    """Bending of three panes, cold and warm; the load by E1300 with its path; the choice of a sheet."""
    load = best_s(partial(_anew, partial(e1300.non_factored_load_pa, 1500, 1200, 5.56)))
    asked = Row("E1300 load with its path", load, most_s=ASKED_E1300_S)
    choice = best_s(partial(_anew, _chosen))
    sheets = len(load_shelf().sheets)
    shelf = Row(f"a pane out of {sheets} sheets of the shelf, a new size", choice, most_s=ASKED_CHOICE_S)
    return [*(row for pane in PANES for row in _rows(pane)), asked, shelf]


def _chosen() -> None:
    """The lightest pane of the whole shelf that holds a gust, of a size never met before."""
    only = Loads("ASCE", (), (GUST,), *(GUST.pressure_pa,) * 5)
    sheets = tuple(row.part for row in load_shelf().sheets)
    choose_pane(sheets, 1530.0, 690.0, "ASCE", lambda _: only)


def _rows(pane: tuple[float, float, float, float]) -> list[Row]:
    name = f"{pane[0]:.0f} x {pane[1]:.0f} x {pane[2]:.2f} mm, {pane[3]:.0f} Pa"
    plate_, peer = Plate(*pane[:3], GLASS), f"CalculiX, {MESH} x {MESH} shells, whole process"
    shells = once_s(partial(by_shells, pane, MESH))
    first = best_s(partial(_anew, partial(bend, plate_, pane[3])))
    again = best_each_s(partial(_once_more, plate_, pane[3]))
    few = best_s(partial(_anew, partial(_some, plate_, pane[3])))
    return [
        Row(f"first pane of a shape, {name}", first, peer, shells, ASKED_PANE_S, ASKED_RATIO),
        Row(f"first {SOME} of a shape, each, {name}", few / SOME, peer, shells),
        Row(f"one more pane, {name}", again, peer, shells),
    ]


def _anew(work: Callable[[], object]) -> object:
    """The work with nothing kept from before and nothing out of the almanac."""
    for cache in _CACHES:
        cache.cache_clear()
    with mock.patch.object(bending, "load_path", walked), mock.patch.object(e1300, "load_path", walked):
        return work()


def _some(plate_: Plate, pressure: float) -> None:
    """As many loads as one design asks of the panes of one shape."""
    for k in range(SOME):
        bend(plate_, pressure * (k + 1) / SOME)


def _once_more(plate_: Plate, pressure: float) -> None:
    bend.cache_clear()
    bend(plate_, pressure)


@lru_cache(maxsize=4)
def _case(pane: tuple[float, float, float, float]) -> object:
    return MODEL["Case"](pane[0] / 1e3, pane[1] / 1e3, pane[2] / 1e3, pane[3])


def by_shells(pane: tuple[float, float, float, float], elements: int) -> Any:
    """CalculiX's answer."""
    with tempfile.TemporaryDirectory() as folder:
        return MODEL["solve"](_case(pane), Path(folder), elements)


def main() -> None:
    """How near each mesh comes to finite differences, and how near ours does."""
    from campaigns.differences import extrapolated

    one_core()
    for pane in PANES:
        plate_ = Plate(*pane[:3], GLASS)
        truth, bent = extrapolated(plate_, pane[3]), bend(plate_, pane[3])
        w, centre = bent.deflection_mm / truth.deflection_mm, bent.centre_mpa / truth.centre_mpa
        print(f"{pane}: ours {w - 1:+.1e} deflection, {centre - 1:+.1e} centre stress")
        for elements in (4, 6, 8, 12, 16, 20, 24):
            start = time.perf_counter()
            shells = by_shells(pane, elements)
            took = time.perf_counter() - start
            w, centre = shells.deflection_mm / truth.deflection_mm, shells.centre_mpa / truth.centre_mpa
            print(f"  {elements:3} elements: {w - 1:+.1e}, {centre - 1:+.1e}, {took:.2f} s")


if __name__ == "__main__":
    main()
