"""A curve's file as JSON for a program: mapping, sweeps, quality, key points, fit; units in the names."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from panewright.curve.fitted import Fit
from panewright.curve.points import PointsRead, Read
from panewright.curve.swept.quality import Quality
from panewright.curve.swept.swept import RunRead, Swept
from panewright.desk.curves.metered import MeterStood
from panewright.desk.curves.stood import CurvesStood, CurveStood
from panewright.desk.curves.table import CurveTable
from panewright.intake.curves.sweeps import SweepRead

_POINTS = ("isc_a", "voc_v", "imp_a", "vmp_v", "power_w")


def of_file(table: CurveTable, stood: CurvesStood) -> dict[str, Any]:
    """Everything that a file of sweeps gave."""
    return {
        "file": stood.read.file,
        "held": stood.held,
        "mapping": [[_plain(asdict(each)) for each in columns] for columns in table.mapping.tables],
        "given": dict(table.mapping.given),
        "sweeps": [_sweep(each) for each in stood.read.sweeps],
        "bad": [_plain(asdict(each)) for each in stood.read.bad],
        "passed": [_plain(asdict(each)) for each in stood.read.passed],
        "notes": list(stood.read.notes),
        "curves": [_curve(each) for each in stood.curves],
        "lost": list(stood.lost),
    }


def of_meter(stood: MeterStood) -> dict[str, Any]:
    """Everything that a meter's readings gave."""
    return {
        "file": stood.file,
        "serial": stood.readings.serial,
        "points": [_plain(asdict(each)) for each in stood.points],
        "drifts": [_plain(asdict(each)) for each in stood.drifts],
        "power_low_w": stood.bounds.low_w,
        "power_high_w": stood.bounds.high_w,
        "said": list(stood.bounds.said),
        "cell": _cell(stood),
        "fit": _fit(stood.fit),
        "no_fit": stood.no_fit,
    }


def _cell(stood: MeterStood) -> dict[str, Any] | None:
    """One of its cells; None where no kind was named."""
    cell = stood.cell
    if cell is None:
        return None
    power = {"power_w": cell.power_w, "power_low_w": cell.low_w, "power_high_w": cell.high_w}
    return {"kind": stood.kind, **power, "diode": asdict(cell.diode), "said": list(cell.said)}


def _plain(record: dict[str, Any]) -> dict[str, Any]:
    """A record without figures that are none: JSON has no nan."""
    return {key: None if value != value else value for key, value in record.items()}


def _sweep(sweep: SweepRead) -> dict[str, Any]:
    said = sweep.said
    return {
        "name": sweep.name,
        "rows": [int(each) for each in sweep.row_numbers],
        "voltage_v": sweep.voltage_v.tolist(),
        "current_a": sweep.current_a.tolist(),
        "serial": said.serial,
        "moment": said.moment.isoformat() if said.moment else None,
        "during": dict(said.during),
        "before": dict(said.before),
        "after": dict(said.after),
        "remarks": list(said.remarks),
    }


def _curve(stood: CurveStood) -> dict[str, Any]:
    swept, curve = stood.swept, stood.swept.curve.curve
    return {
        "serial": stood.serial,
        "irradiance_w_m2": stood.irradiance_w_m2,
        "cell_c": stood.cell_c,
        "cells": stood.cells,
        "how": swept.how,
        "used": list(swept.used),
        "voltage_v": list(curve.voltage_v),
        "current_a": list(curve.current_a),
        "points": _points(swept.points),
        **_around(swept),
        "fit": _fit(stood.fit),
        "no_fit": stood.no_fit,
        "said": [*stood.said, *swept.said, *swept.curve.said],
    }


def _around(swept: Swept) -> dict[str, Any]:
    return {
        "runs": [_run(each) for each in swept.runs],
        "rests": [_plain(asdict(each)) for each in swept.rests],
        "hysteresis": asdict(swept.hysteresis) if swept.hysteresis else None,
        "drifts": [_plain(asdict(each)) for each in swept.drifts],
        "quality": [_quality(each) for each in swept.quality],
    }


def _run(run: RunRead) -> dict[str, Any]:
    return {
        "name": run.name,
        "rising": run.rising,
        "seconds": run.seconds,
        "irradiance_w_m2": run.irradiance_w_m2,
        "points": _points(run.points),
        "said": list(run.cleaned.said),
        "left_out": [list(each) for each in run.cleaned.left_out],
    }


def _quality(fact: Quality) -> dict[str, Any]:
    return {**_plain(asdict(fact)), "held": fact.held}


def _points(points: PointsRead) -> dict[str, Any]:
    return {name: _read(getattr(points, name)) for name in _POINTS}


def _read(read: Read | None) -> dict[str, Any] | None:
    return asdict(read) if read else None


def _fit(found: Fit | None) -> dict[str, Any] | None:
    if found is None:
        return None
    figures = {
        each.name: {"value": each.value, "sigma": each.sigma} for each in (*found.figures, *found.ends)
    }
    return {
        "cells": found.cells,
        "optimum": found.optimum,
        "rmse_a": found.rmse_exact_a,
        "figures": figures,
        "said": list(found.said),
    }
