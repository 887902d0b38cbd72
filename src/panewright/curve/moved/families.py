"""Curves of one panel sorted: those of one light over temperature, those of one temperature over light."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from panewright.curve.measured import Measured
from panewright.errors import CurveError, Problem

SAME_LIGHT = 0.03  #: lights that differ by less are one light
SAME_HEAT_K = 2.0  #: the standard's own bound for one temperature (recalled)
LEAST_SPAN_K = 30.0  #: over which temperature coefficients are measured, IEC 60891 (recalled)
LEAST_CURVES = 3

Curves = Sequence[Measured]


@dataclass(frozen=True, slots=True)
class Families:
    """What coefficients are found from."""

    over_heat: tuple[Measured, ...]  #: of one light, coolest first
    over_light: tuple[Measured, ...]  #: of one temperature, brightest first


def families(curves: Curves) -> Families:
    """The curves sorted out; `CurveError` with all that is missing."""
    heats = max((_alike_light(curves, each) for each in curves), key=span_k, default=())
    lights = max((_alike_heat(curves, each) for each in curves), key=len, default=())
    problems = []
    if len(heats) < LEAST_CURVES or span_k(heats) < LEAST_SPAN_K:
        reason = f"{_counted(heats)} in one light span {span_k(heats):.0f} K."
        cure = f"Give three or more over {LEAST_SPAN_K:.0f} K: uncover a cool panel, and sweep as it warms."
        problems.append(Problem(reason, cure))
    if len(lights) < LEAST_CURVES:
        reason = f"{_counted(lights)} of unlike light lie within {SAME_HEAT_K:g} K of one temperature."
        problems.append(Problem(reason, "Give three lights or more: under nets, or through the morning."))
    if problems:
        raise CurveError(problems)
    return Families(heats, lights)


def span_k(curves: Curves) -> float:
    """Between the first and the last. [K]"""
    return curves[-1].cell_c - curves[0].cell_c if curves else 0.0


def _alike_light(curves: Curves, like: Measured) -> tuple[Measured, ...]:
    g = like.irradiance_w_m2
    alike = [each for each in curves if g > 0 and abs(each.irradiance_w_m2 / g - 1) < SAME_LIGHT]
    return tuple(sorted(alike, key=lambda each: each.cell_c))


def _alike_heat(curves: Curves, like: Measured) -> tuple[Measured, ...]:
    """Of one temperature; of curves in one light the first."""
    kept: list[Measured] = []
    for each in sorted(curves, key=lambda each: -each.irradiance_w_m2):
        dimmer = not kept or each.irradiance_w_m2 < kept[-1].irradiance_w_m2 * (1 - SAME_LIGHT)
        if dimmer and each.irradiance_w_m2 > 0 and abs(each.cell_c - like.cell_c) <= SAME_HEAT_K:
            kept.append(each)
    return tuple(kept)


def _counted(curves: Curves) -> str:
    return "1 curve" if len(curves) == 1 else f"{len(curves)} curves"
