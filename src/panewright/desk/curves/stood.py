"""What the sweeps of a file come to: one thing after another, each with its runs, its quality, its fit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from panewright.curve.fit import fit
from panewright.curve.fitted import Fit
from panewright.curve.swept.raw import RawSweep
from panewright.curve.swept.swept import Around, Swept, sweep_together
from panewright.errors import CurveError, Problem
from panewright.intake.curves.sweeps import SweepRead, SweepsRead

_ONE_CELL_V = 0.9  # below it a silicon thing is one cell
_APART = 0.03  # of Isc and Voc: what a file says of itself is rarely rounded more (common practice)
_BACK = "The heat at the back is taken for the cells': in full sun they are 2 to 3 K warmer (recalled)."


@dataclass(frozen=True, slots=True)
class Told:
    """What a person says beside the file; None where the file is to say it."""

    irradiance_w_m2: float | None = None
    cell_c: float | None = None
    cells: int | None = None


@dataclass(frozen=True, slots=True)
class CurveStood:
    """One panel or cell of the file."""

    serial: str  #: '' where the file says none
    sweeps: tuple[SweepRead, ...]
    swept: Swept
    irradiance_w_m2: float | None
    cell_c: float | None
    cells: int | None  #: in series
    fit: Fit | None
    no_fit: str = ""  #: why there is none
    said: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CurvesStood:
    """Everything of a file."""

    read: SweepsRead
    curves: tuple[CurveStood, ...]
    lost: tuple[str, ...] = ()  #: things of which no curve came, each with the reason
    held: bool = field(init=False)  #: every row was read and every fact of quality keeps to its limit

    def __post_init__(self) -> None:
        sound = not self.read.bad and not self.lost and all(each.swept.held for each in self.curves)
        object.__setattr__(self, "held", sound)


def stand(read: SweepsRead, told: Told) -> CurvesStood:
    """What each thing in a file gives; `CurveError` where none of them is a curve."""
    serials = dict.fromkeys(each.said.serial for each in read.sweeps)
    curves: list[CurveStood] = []
    lost: list[str] = []
    for serial in serials:
        sweeps = tuple(each for each in read.sweeps if each.said.serial == serial)
        try:
            curves.append(_stand(serial, sweeps, read, told))
        except CurveError as none:
            lost.append(f"{serial or 'the file'}: {none}")
    if not curves:
        cure = "Look at the columns: a kept mapping says which is the voltage and which the current."
        raise CurveError([Problem(" ".join(lost), cure, file=read.file)])
    return CurvesStood(read, tuple(curves), tuple(lost))


def _stand(serial: str, sweeps: tuple[SweepRead, ...], read: SweepsRead, told: Told) -> CurveStood:
    said: list[str] = []
    cell_c = told.cell_c if told.cell_c is not None else _heat(sweeps, said)
    raws = [_raw(each, told) for each in sweeps]
    lights = [light for each in raws if (light := each.light_w_m2) is not None]
    light = float(np.mean(lights)) if lights else None
    if light is not None and light <= 0:
        reason = (
            f"The irradiance is {light:g} W/m2: a curve in the dark has no key points, and is not read here."
        )
        raise CurveError(
            [Problem(reason, "Name the irradiance of the sweep, if it had light.", key="irradiance")]
        )
    said += ["The irradiance is not known: the figures are of the light there was."] * (light is None)
    said += ["The heat of the cells is not known: 25 degC stands in the fit."] * (cell_c is None)
    swept = sweep_together(raws, Around(light, cell_c, signs=read.counted))
    cells = told.cells or _cells(sweeps, swept)
    found, why = _fit(swept, cells)
    said += _beside_the_file(sweeps, swept)
    used = swept.curve.curve.irradiance_w_m2 if light is not None else None
    return CurveStood(serial, sweeps, swept, used, cell_c, cells, found, why, tuple(said))


def _raw(sweep: SweepRead, told: Told) -> RawSweep:
    """A sweep for the reckoning, with its light at each point where anything says it."""
    return RawSweep(
        sweep.voltage_v,
        sweep.current_a,
        sweep.time_s if sweep.time_s is not None and np.all(np.isfinite(sweep.time_s)) else None,
        _light(sweep, told),
        sweep.name,
        sweep.rising,
        sweep.said.before,
        sweep.said.after,
    )


def _light(sweep: SweepRead, told: Told) -> NDArray[np.float64] | None:
    """The light at each point: as a person says, as a column does, or one figure for all."""
    column = sweep.irradiance_w_m2
    if told.irradiance_w_m2 is None and column is not None and np.any(np.isfinite(column)):
        return column
    one = told.irradiance_w_m2 if told.irradiance_w_m2 is not None else _around(sweep, "irradiance_w_m2")
    return None if one is None else np.full(len(sweep), one)


def _around(sweep: SweepRead, quantity: str) -> float | None:
    """What the lines say of it: during, or the mean of before and after."""
    said = sweep.said
    if quantity in said.during:
        return said.during[quantity]
    ends = [each[quantity] for each in (said.before, said.after) if quantity in each]
    return float(np.mean(ends)) if ends else None


def _heat(sweeps: tuple[SweepRead, ...], said: list[str]) -> float | None:
    """The heat of the cells over all sweeps, else that at the back, which is told."""
    ways: tuple[tuple[str, Callable[[SweepRead], NDArray[np.float64] | None]], ...] = (
        ("cell_c", lambda each: each.cell_c),
        ("back_c", lambda each: each.back_c),
    )
    for name, column in ways:
        found = [_mean(column(each)) or _around(each, name) for each in sweeps]
        known = [each for each in found if each is not None]
        if known:
            said += [_BACK] * (name == "back_c")
            return float(np.mean(known))
    return None


def _mean(column: NDArray[np.float64] | None) -> float | None:
    if column is None or not np.any(np.isfinite(column)):
        return None
    return float(np.nanmean(column))


def _cells(sweeps: tuple[SweepRead, ...], swept: Swept) -> int | None:
    """Cells in series: as the file says, or one where the voltage is that of one."""
    said: list[Mapping[str, float]] = [each.said.during for each in sweeps]
    counted = next((int(each["cells"]) for each in said if "cells" in each), None)
    one = float(swept.curve.curve.volts.max()) < _ONE_CELL_V
    return counted or (1 if one else None)


def _beside_the_file(sweeps: tuple[SweepRead, ...], swept: Swept) -> Iterator[str]:
    """What the file says of its own Isc and Voc beside its only run; of several it is not known whose."""
    if len(sweeps) > 1 or len(swept.runs) > 1:
        return
    for name, said, unit in (("isc_a", "Isc", "A"), ("voc_v", "Voc", "V")):
        own, read = sweeps[0].said.during.get(name), getattr(swept.points, name)
        if own is None or read is None:
            continue
        apart = own / read.value - 1
        look = " LOOK: is it of another light, or a unit wrong?" if abs(apart) > _APART else ""
        told = f"The file says {said} {own:.4g} {unit}; its points give {read.value:.4g} {unit}"
        yield f"{told}, {apart:+.1%}.{look}"


def _fit(swept: Swept, cells: int | None) -> tuple[Fit | None, str]:
    """The diode of the curve, or why there is none."""
    if cells is None:
        return None, "How many cells are in series is not known: say it, and the curve is fitted."
    try:
        return fit(swept.curve.curve, cells), ""
    except CurveError as none:
        return None, str(none)
