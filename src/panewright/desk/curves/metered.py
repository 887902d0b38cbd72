"""What a meter's readings come to: points with errors, drift, bounds of the power, a fit of enough."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from panewright.curve.few import ReadCell, cell_from_readings
from panewright.curve.fit import LEAST_POINTS, fit
from panewright.curve.fitted import Fit
from panewright.curve.meter.bracket import PowerBounds, power_bounds
from panewright.curve.meter.contradiction import refuse_contradictions
from panewright.curve.meter.meter_points import MeterPoint, points_of
from panewright.curve.meter.meter_set import Load, MeterClass, MeterSet
from panewright.curve.meter.onward import cell_readings, curve_of
from panewright.curve.swept.drift import SweepDrift, drifts
from panewright.desk.curves.stood import Told
from panewright.desk.lots import kinds
from panewright.errors import CurveError, Problem
from panewright.intake.curves.meter_text import ClassRead, MeterRead, read_meter
from panewright.units.showing import figure


@dataclass(frozen=True, slots=True)
class MeterStood:
    """A meter's readings of one panel or cell."""

    file: str
    readings: MeterSet
    points: tuple[MeterPoint, ...]
    drifts: tuple[SweepDrift, ...]
    bounds: PowerBounds
    fit: Fit | None
    no_fit: str
    cell: ReadCell | None = None  #: one of its cells, like a kind in what the readings do not tell
    kind: str = ""  #: of that cell


def stand(data: bytes, file: str, told: Told, kind: str = "") -> MeterStood:
    """What readings come to; one error names every two that contradict each other."""
    readings = _set(read_meter(data, file), told)
    try:
        refuse_contradictions(readings)
        points = points_of(readings)
        cell = _cell(readings, points, kind)
    except CurveError as wrong:
        raise CurveError([replace(each, file=each.file or file) for each in wrong.problems]) from wrong
    found, why = _fit(readings, points)
    bounds = power_bounds(points)
    moved = drifts(readings.before, readings.after)
    return MeterStood(file, readings, points, moved, bounds, found, why, cell, kind)


def _set(read: MeterRead, told: Told) -> MeterSet:
    """The readings as the reckoning takes them, with what a person says beside."""
    figures = read.figures
    light = told.irradiance_w_m2 if told.irradiance_w_m2 is not None else _either(read, "irradiance_w_m2")
    heat = told.cell_c if told.cell_c is not None else _either(read, "cell_c")
    loads = tuple(
        Load(each.name, each.ohm, each.tolerance, each.voltage_v, each.current_a) for each in read.loads
    )
    return MeterSet(
        _class(read.volts), _class(read.amperes), figures.get("voc_v"), figures.get("isc_a"), loads,
        read.ammeter_ohm, read.leads_ohm, "load" if read.volts_at == "load" else "panel",
        read.before, read.after, light, figures.get("back_c") if heat is None else heat,
        told.cells or read.cells, read.serial,
    )  # fmt: skip


def _either(read: MeterRead, quantity: str) -> float | None:
    """What was read of it: during, or the mean of before and after."""
    ends = [each[quantity] for each in (read.before, read.after) if quantity in each]
    return read.figures.get(quantity, sum(ends) / len(ends) if ends else None)


def _class(read: ClassRead) -> MeterClass:
    return MeterClass(read.share, read.digits, read.step)


def _cell(readings: MeterSet, points: tuple[MeterPoint, ...], kind: str) -> ReadCell | None:
    """One of equal cells, of a kind on the shelf; None where no kind was named."""
    if not kind:
        return None
    few = cell_readings(readings, points)
    if few is None or readings.cells is None:
        reason = (
            "One cell of it needs Isc, Voc, irradiance, the heat of the cells, and how many are in series."
        )
        raise CurveError(
            [Problem(reason, "Write what is lacking, or name no kind of cell.", key="cell", value=kind)]
        )
    return cell_from_readings(few, kinds.model(kind))


def _fit(readings: MeterSet, points: tuple[MeterPoint, ...]) -> tuple[Fit | None, str]:
    if readings.cells is None:
        return None, "How many cells are in series is not known: write cells."
    if len(points) <= LEAST_POINTS:
        return (
            None,
            f"{len(points)} points are too few for a diode and its errors; {LEAST_POINTS + 1} are the least.",
        )
    try:
        return fit(curve_of(readings, points).curve, readings.cells, weigh=True), ""
    except CurveError as none:
        return None, str(none)


def lines(stood: MeterStood) -> Iterator[str]:
    """What is said of it at the command, but its fit."""
    serial = f" of serial {stood.readings.serial}" if stood.readings.serial else ""
    yield f"Readings{serial}, at the panel's terminals, each with one standard deviation:"
    for each in stood.points:
        volts = f"{figure(each.voltage_v, 5)} +- {figure(each.voltage_sigma_v, 2)} V"
        amperes = f"{figure(each.current_a, 5)} +- {figure(each.current_sigma_a, 2)} A"
        yield f"  {each.name}: {volts}, {amperes} ({each.how})"
    yield from (f"  {each}" for each in stood.drifts)
    yield f"  {_bounds_said(stood.bounds)}"
    yield from (f"  {each}" for each in stood.bounds.said)
    if stood.cell:
        yield f"One of its cells, taken for {stood.kind} in all that the readings do not tell:"
        yield from (f"  {each}" for each in stood.cell.said)


def _bounds_said(bounds: PowerBounds) -> str:
    low = f"Pmp is at least {figure(bounds.low_w, 3)} W"
    if bounds.high_w is None:
        return f"{low} by its points alone; nothing bounds it from above."
    return f"{low} and at most {figure(bounds.high_w, 3)} W, by its points alone, in even light (95 %)."
