"""A rating as JSON, for programs and for the records; units in the names."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from panewright.bench.rate.budget import Budget
from panewright.bench.rate.instrument import Instrument
from panewright.bench.rate.rated import Figure
from panewright.check import Check
from panewright.curve.moved.choice import Gone
from panewright.desk.rating.lines import instruments, predicted
from panewright.desk.rating.rated import PanelRated

_POINTS = ("power_w", "isc_a", "voc_v", "vmp_v", "imp_a")


def of_rating(made: PanelRated) -> dict[str, Any]:
    """All of it."""
    rating, rated = made.rating, made.rated
    curve, moved = made.read.cleaned.curve, rated.chosen.taken.moved.curve
    return {
        "order": made.design.order.job.number,
        "revision": made.design.revision,
        "serial": made.serial,
        "as_built": made.as_built,
        "day": made.day.isoformat(),
        "file": made.read.file,
        "words": dict(made.told.words),
        "verdict": rating.verdict,
        "why": rating.why,
        "label_w": rating.label_w,
        "guard": rating.guard,
        "bears_w": rating.bears_w,
        "surely_bears_w": rating.surely_bears_w,
        "borne": rating.borne,
        "irradiance_w_m2": rated.light_w_m2,
        "irradiance_sigma_w_m2": made.sources.light.sigma_w_m2,
        "cell_c": rated.cell_c,
        "cell_sigma_k": made.sources.heat.sigma_k,
        "procedure": rated.chosen.taken.moved.procedure,
        "said": list(made.said),
        "flags": [asdict(flag) for flag in made.flags],
        "figures": {each.name: _figure(each, made) for each in rated.figures},
        "procedures": [_gone(each) for each in rated.chosen.all],
        "instruments": [_instrument(each, made) for each in instruments(made)],
        "checks": [_rule(each) for each in rating.checks],
        "measured": {"voltage_v": list(curve.voltage_v), "current_a": list(curve.current_a)},
        "at_stc": {"voltage_v": list(moved.voltage_v), "current_a": list(moved.current_a)},
        "predicted": {
            "voltage_v": list(made.predicted.voltage_v),
            "current_a": list(made.predicted.current_a),
        },
        "light_by": made.told.light.by,
        "cells_known": made.prediction.cells.way,
        "heat_by": made.sources.heat.how,
        "mapping": made.read.mapping,
    }


def _figure(figure: Figure, made: PanelRated) -> dict[str, Any]:
    return {
        "value": figure.value,
        "expanded": figure.expanded,
        "why_not": figure.why_not,
        "predicted": predicted(made, figure.name),
        "budget": _budget(figure.budget),
    }


def _budget(budget: Budget | None) -> list[dict[str, Any]]:
    """Every term, the greatest share first."""
    return [
        {
            "name": term.input.name,
            "sigma": term.input.sigma,
            "unit": term.input.unit,
            "source": term.input.source,
            "sensitivity": term.sensitivity,
            "moves": term.moves,
            "share": term.share,
        }
        for term in (budget.terms if budget else ())
    ]


def _gone(gone: Gone) -> dict[str, Any]:
    reads = {name: getattr(gone.points, name) for name in _POINTS}
    values = {name: read.value if read else None for name, read in reads.items()}
    return {"procedure": gone.moved.procedure, "within": gone.moved.within, **values}


def _instrument(each: Instrument, made: PanelRated) -> dict[str, Any]:
    days = {"calibrated": each.calibrated, "due": each.due}
    told = {name: day.isoformat() if day else None for name, day in days.items()}
    return {
        "name": each.name,
        "kind": each.kind,
        "source": each.source,
        **told,
        "wrong": each.wrong_on(made.day),
    }


def _rule(check: Check) -> dict[str, Any]:
    demand = check.demand if abs(check.demand) < float("inf") else None
    own = {"rule": check.rule, "demand": demand, "limit": check.limit, "unit": check.unit}
    return {**own, "source": check.source, "cure": check.cure, "passed": check.passed}
