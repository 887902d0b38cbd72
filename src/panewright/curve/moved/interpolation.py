"""Procedure 3 of IEC 60891: between two or three measured curves, without any coefficient.

Points of two curves belong together where their currents differ by as much as their Isc do (recalled):

    I2 - I1 = Isc2 - Isc1,   V3 = V1 + a (V2 - V1),   I3 = I1 + a (I2 - I1)

The curve found is that at G3 = G1 + a (G2 - G1) and T3 = T1 + a (T2 - T1). So two curves reach what lies on
the line between their conditions, three what lies in the triangle: two are brought together, and these with
the third. Outside, the same formula extrapolates, and a check says so. Each curve must run as far past open
circuit as its Isc is short of the brightest; where it does not, the end of the new curve is missing.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from scipy.optimize import isotonic_regression

from panewright.cell.root import Array
from panewright.check import Check
from panewright.curve.measured import Measured
from panewright.curve.moved.corrections import ends, isc_a
from panewright.curve.moved.moved import STC, Moved, Target, moved, must_be_lit, reaches_open
from panewright.curve.points import Read
from panewright.errors import CurveError, Problem

PER_KELVIN = 0.0045  #: power lost by a kelvin, by which heat is weighed against light
APART = 0.02  #: conditions nearer than this, in shares of power, are one
MOST_CURVES = 3
OFF_SHARE = 0.005  #: of power by which the found curve may miss its target


def move_3(curves: Sequence[Measured], target: Target = STC) -> Moved:
    """By procedure 3; `CurveError` where the curves were all measured in one condition.

    Of more than three those are taken that stand closest round the target.
    """
    for each in curves:
        must_be_lit(each)
    curves = _round(curves, target)
    weights = _weights(curves, target)
    order = sorted(range(len(curves)), key=lambda k: -weights[k])  # so no sum of them is nothing
    found, sum_of = curves[order[0]], weights[order[0]]
    for k in order[1:]:
        sum_of += weights[k]
        found = _between(found, curves[k], weights[k] / sum_of)
    checks = (_inside(weights), _at_target(found, target), reaches_open(found))
    return Moved(found, "3", checks, _short(curves, weights))


def _short(curves: Sequence[Measured], weights: Sequence[float]) -> Read | None:
    """Short circuits belong together, so they lie between each other as their curves do."""
    reads = [ends(each).isc_a for each in curves]
    parts = [(weight, read) for weight, read in zip(weights, reads, strict=True) if read is not None]
    if len(parts) < len(reads):
        return None
    sigma = float(np.linalg.norm([weight * read.sigma for weight, read in parts]))
    far = any(read.extrapolated for _, read in parts)
    return Read(sum(weight * read.value for weight, read in parts), sigma, far)


def _round(curves: Sequence[Measured], target: Target) -> Sequence[Measured]:
    """Three curves or two, of many: round the target if any are, at it, and near it."""
    if len(curves) <= MOST_CURVES:
        return curves
    found: list[tuple[tuple[float, float, float], tuple[Measured, ...]]] = []
    for size in (2, MOST_CURVES):
        for few in combinations(curves, size):
            try:
                found.append((_far(few, _weights(few, target), target), few))
            except CurveError:  # of one condition, or on one line: no use together
                continue
    if not found:
        reason = f"All {len(curves)} curves lie in one light and heat."
        raise CurveError([Problem(reason, "Give curves further apart.")])
    return min(found, key=lambda entry: entry[0])[1]


def _far(few: Sequence[Measured], weights: Sequence[float], target: Target) -> tuple[float, float, float]:
    """How much they extrapolate, by how much they miss, how far they lie: what counts first stands first."""
    at = np.array([_place(each.irradiance_w_m2, each.cell_c) for each in few])
    aside = at - _place(target.irradiance_w_m2, target.cell_c)
    missed = float(np.linalg.norm(np.array(weights) @ aside))
    out = max(0.0, -min(weights))
    return round(out + max(0.0, missed - OFF_SHARE), 9), float(np.linalg.norm(aside, axis=1).max()), missed


def _weights(curves: Sequence[Measured], target: Target) -> list[float]:
    """Of each curve; they add to one, and lead as near to the target as the curves can."""
    if len(curves) < 2:
        reason = f"Procedure 3 stands between two or three curves, not {len(curves)}."
        raise CurveError([Problem(reason, "Give two curves, or three that are not on one line.")])
    at = np.array([_place(each.irradiance_w_m2, each.cell_c) for each in curves])
    aside = at[1:] - at[0]
    if float(np.linalg.svd(aside, compute_uv=False)[-1]) < APART:
        reason = "The curves lie in one light and heat, or on one line of both."
        raise CurveError([Problem(reason, "Give curves further apart, or leave the middle one out.")])
    shares = np.linalg.lstsq(aside.T, _place(target.irradiance_w_m2, target.cell_c) - at[0])[0]
    return [1 - float(shares.sum()), *map(float, shares)]


def _place(irradiance_w_m2: float, cell_c: float) -> Array:
    """Light and heat on one scale: that of power."""
    return np.array([irradiance_w_m2 / 1000, PER_KELVIN * cell_c])


def _between(one: Measured, other: Measured, share: float) -> Measured:
    """The curve at a share of the way from one to another."""
    aside = isc_a(other) - isc_a(one)
    falling, volts = _falling(other)
    wanted = one.amperes + aside
    there = (wanted >= falling[0]) & (wanted <= falling[-1])
    if np.sum(there) < 2:
        reason = "The two curves have hardly a point in common that procedure 3 could pair."
        raise CurveError([Problem(reason, "Sweep from zero volts past open circuit in both.")])
    paired = np.interp(wanted[there], falling, volts)
    v = one.volts[there] + share * (paired - one.volts[there])
    target = Target(
        one.irradiance_w_m2 + share * (other.irradiance_w_m2 - one.irradiance_w_m2),
        one.cell_c + share * (other.cell_c - one.cell_c),
    )
    return moved(_only(one, there), v, one.amperes[there] + share * aside, target)


def _falling(curve: Measured) -> tuple[Array, Array]:
    """Currents made to fall from point to point, lowest first, with their voltages."""
    fair = isotonic_regression(curve.amperes, weights=curve.counts, increasing=False).x
    dust = 1e-12 * float(np.abs(fair).max())
    strict = fair - dust * np.arange(fair.size)
    return np.asarray(strict[::-1], dtype=float), curve.volts[::-1]


def _only(curve: Measured, kept: Array | np.typing.NDArray[np.bool_]) -> Measured:
    """Some points of a curve."""
    places = np.flatnonzero(kept)
    return Measured(
        tuple(curve.voltage_v[k] for k in places),
        tuple(curve.current_a[k] for k in places),
        curve.irradiance_w_m2,
        curve.cell_c,
        curve.accuracy,
        tuple(curve.repeats[k] for k in places) if curve.repeats else (),
    )


def _inside(weights: Sequence[float]) -> Check:
    return Check(
        rule="procedure 3 within its curves",
        demand=max(0.0, -min(weights)),
        limit=1e-9,
        unit="of the way past them",
        source="IEC 60891 (recalled): interpolation holds between its curves",
        cure="Measure a curve on the other side of the target, in more sun or on cooler cells.",
        room="curve",
    )


def _at_target(found: Measured, target: Target) -> Check:
    off = _place(found.irradiance_w_m2, found.cell_c) - _place(target.irradiance_w_m2, target.cell_c)
    return Check(
        rule="procedure 3 leads to its target",
        demand=float(np.hypot(*off)),
        limit=OFF_SHARE,
        unit="of power",
        source="common practice: half a percent, at 0.45 % a kelvin",
        cure="Give a third curve in another light or heat; or bring the rest by procedure 1.",
        room="curve",
    )
