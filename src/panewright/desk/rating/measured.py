"""One panel's curve out of a file, with what the file itself says of light, heat and day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from panewright.bench.rate.instrument import Instrument, of_class
from panewright.curve.cleaning import Cleaned
from panewright.curve.measured import Measured
from panewright.curve.meter.bracket import PowerBounds
from panewright.curve.meter.meter_points import MeterPoint
from panewright.curve.meter.meter_set import MeterClass
from panewright.curve.meter.onward import curve_of
from panewright.desk.curves import metered, stood, table
from panewright.errors import BenchError, Problem

_FEW = 40  #: of a list in an error


@dataclass(frozen=True, slots=True)
class PanelRead:
    """What was read of one panel."""

    file: str
    cleaned: Cleaned
    light_w_m2: float | None  #: as the file says; None where it does not
    cell_c: float | None
    back_c: float | None  #: or a heat that names no place: whoever reads a panel's heat reads its back
    day: date | None
    drift_share: float  #: of the light during the sweep, or from before to after
    serial: str
    said: tuple[str, ...]
    wrong: tuple[str, ...]  #: facts of quality that do not keep to their limit
    points: tuple[MeterPoint, ...] = ()  #: of a meter; nothing of a sweep
    bounds: PowerBounds | None = None
    volts: Instrument | None = None  #: as the readings state their meter; never calibrated
    amps: Instrument | None = None
    mapping: str = ""  #: what its columns were taken for
    others: tuple[Measured, ...] = ()  #: runs in other light, by the file's own irradiance


def read(data: bytes, file: str, mapping: str = "", serial: str = "") -> PanelRead:
    """The curve of a serial, or the only one; a `PanewrightError` with every problem where there is none."""
    if file.lower().endswith(".toml"):
        return _of_meter(metered.stand(data, file, stood.Told()))
    looked = table.look(data, file, mapping)
    found = _of_sweeps(stood.stand(looked.read(), stood.Told()), file, serial)
    return replace(found, mapping=looked.text, wrong=(*looked.mapping.doubts, *found.wrong))


def _of_meter(found: metered.MeterStood) -> PanelRead:
    own = found.readings
    drift = max((abs(each.share) / 2 for each in found.drifts if each.of_light), default=0.0)
    cleaned = curve_of(own, found.points)
    said = tuple(f"From before to after: {each}." for each in found.drifts)
    return PanelRead(
        found.file, cleaned, own.irradiance_w_m2, own.cell_c, None, None, drift, own.serial, said, (),
        found.points, found.bounds, _meter("voltmeter", own.volts), _meter("ammeter", own.amperes),
    )  # fmt: skip


def _meter(kind: str, own: MeterClass) -> Instrument:
    """By its class as the readings state it."""
    return of_class(f"the {kind} of the readings", kind, own.share, within=own.digits * own.step)


def _of_sweeps(found: stood.CurvesStood, file: str, serial: str) -> PanelRead:
    one = _the_one(found, file, serial)
    swept, sweeps = one.swept, one.sweeps
    days = [each.said.day for each in sweeps if each.said.day]
    named = all(each.cells_named for each in sweeps)
    heat, back = _mean("cell_c", one), _mean("back_c", one)
    rows = [f"{len(found.read.bad)} fields of the file could not be read."] * bool(found.read.bad)
    return PanelRead(
        file=file,
        cleaned=swept.curve,
        light_w_m2=one.irradiance_w_m2,
        cell_c=heat if named else None,
        back_c=heat if back is None and not named else back,
        day=days[0] if days else None,
        drift_share=max(_drifts(one), default=0.0),
        serial=one.serial,
        said=(*swept.said, *swept.curve.said),
        wrong=(*rows, *(str(each) for each in swept.quality if not each.held)),
        others=tuple(_others(one)),
    )


def _the_one(found: stood.CurvesStood, file: str, serial: str) -> stood.CurveStood:
    """The curve of that serial; the only one where the file tells none."""
    named = [each for each in found.curves if each.serial == serial]
    if serial and named:
        return named[0]
    others = [each.serial for each in found.curves if each.serial]
    if len(found.curves) == 1 and not (serial and others):
        return found.curves[0]
    reason = f"The file is of {', '.join(others[:_FEW]) or 'several things'}."
    cure = "Give the file of this panel, or name the serial that it bears there."
    raise BenchError([Problem(reason, cure, file, key="serial", value=serial)])


def _drifts(one: stood.CurveStood) -> Iterator[float]:
    """Half the swing of the light, within each run used and from before to after."""
    for run in one.swept.runs:
        light = run.run.points.irradiance_w_m2
        if run.name in one.swept.used and light is not None and np.nanmean(light) > 0:
            yield float(np.nanmax(np.abs(light / np.nanmean(light) - 1)))
    yield from (abs(each.share) / 2 for each in one.swept.drifts if each.of_light)


def _others(one: stood.CurveStood) -> Iterator[Measured]:
    """Runs that were kept apart, whose light is known."""
    for run in one.swept.runs:
        if run.name not in one.swept.used and run.irradiance_w_m2 and not run.cleaned.clipped:
            yield run.cleaned.curve


def _mean(name: str, one: stood.CurveStood) -> float | None:
    """What the sweeps' columns or lines say of a heat. [degC]"""
    found: list[float] = []
    for sweep in one.sweeps:
        column, said = getattr(sweep, name), sweep.said
        if column is not None and np.any(np.isfinite(column)):
            found.append(float(np.nanmean(column)))
        else:
            found += [each[name] for each in (said.during, said.before, said.after) if name in each]
    return float(np.mean(found)) if found else None
