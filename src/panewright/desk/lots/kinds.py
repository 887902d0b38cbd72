"""Which kind of cell a lot is of: as a person says, else the nearest on the shelf by its readings."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import log

import numpy as np
from numpy.typing import NDArray

from panewright.cell.kind import CellKind
from panewright.cell.model import CellModel, strip_models
from panewright.desk.own_shelf import Stand, own_shelf, stand
from panewright.errors import Problem, RecordError
from panewright.intake.cells import CellRows

FULL_SUN_W_M2 = 1000.0
LIKE = 0.65, 1.45  #: a lot whose middle current is further off is of other cells; common practice, no source


def names() -> tuple[str, ...]:
    """The cells of the shelf, as the shop prefers them."""
    return tuple(_kinds())


def model(name: str) -> CellModel:
    """A cell of the shelf as a curve; of one that is cut its first strip, for that is what is measured."""
    kind = _kinds().get(name)
    if kind is None:
        cure = f"Write one of: {', '.join(names())}."
        raise RecordError([Problem("There is no such cell on the shelf.", cure, key="cell", value=name[:60])])
    return _model(name)


def _model(name: str) -> CellModel:
    return _made_of(name, stand())


@cache
def _made_of(name: str, _shelf: Stand) -> CellModel:
    return strip_models(_kinds()[name])[0]


def nearest(rows: CellRows) -> str:
    """The kind whose Isc and Voc are nearest to the lot's middle, in the light of each reading."""
    light = _middle(rows.figures, "irradiance_w_m2") or FULL_SUN_W_M2
    read = {name: _middle(rows.figures, name) for name in ("isc_a", "imp_a", "at_a", "voc_v", "vmp_v")}

    def far(kind: CellKind) -> float:
        plate, sun = kind.nameplate, light / FULL_SUN_W_M2 / kind.parts
        amps = {"isc_a": plate.isc_a, "imp_a": plate.imp_a, "at_a": plate.imp_a}
        off = [abs(log(read[name] / each / sun)) for name, each in amps.items() if read[name]]
        volts = {"voc_v": plate.voc_v, "vmp_v": plate.vmp_v}
        off += [abs(log(read[name] / each)) for name, each in volts.items() if read[name]]
        return sum(off)

    return min(_kinds().values(), key=far).name


def far_off(rows: CellRows, name: str) -> Problem | None:
    """Where a lot's middle current in full sun cannot be that of such cells: its figures would be bent to
    theirs. None where nobody knows the light, or no current was read."""
    light, kind = _middle(rows.figures, "irradiance_w_m2"), _kinds()[name]
    plate, sun = kind.nameplate, light / FULL_SUN_W_M2
    for figure, each in (("isc_a", plate.isc_a), ("imp_a", plate.imp_a)):
        read = _middle(rows.figures, figure)
        if not (read and sun):
            continue
        theirs, ours = read / sun, each / kind.parts
        if LIKE[0] < theirs / ours < LIKE[1]:
            return None
        why = f"The middle cell gives {theirs:.3g} A in full sun, {name} {ours:.3g} A."
        cure = f"The nearest on the shelf is {nearest(rows)}; or settle the unit of the currents."
        return Problem(why, cure, key="cell", value=name)
    return None


def _middle(figures: Mapping[str, NDArray[np.float64]], name: str) -> float:
    """The middle of the readings above zero; 0 where there is none."""
    found = figures.get(name, np.empty(0))
    found = found[np.isfinite(found) & (found > 0)]
    return float(np.median(found)) if found.size else 0.0


def _kinds() -> dict[str, CellKind]:
    return {row.part.name: row.part for row in own_shelf().cells}
