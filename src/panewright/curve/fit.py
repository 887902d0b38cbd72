"""The single diode of a measured curve, and how far to trust it.

Two optima exist, and a fit must say which it reports. The honest one makes the distance between measured
and modelled current least, the current solved exactly at each voltage. The published fits of the classic
curves [E] put the measured current on both sides of the equation instead; that optimum lies a little apart,
and its own objective is the larger number.

    exact      least of sum (I(Vk) - Ik)^2
    implicit   least of sum (IL - D(Vk + Ik Rs) - Ik)^2

A string of equal cells in series is fitted as one of its cells at V / cells. A curve of 0 W/m2 has no light.
Points in reverse bring a breakdown term only where they improve the fit far beyond chance.

[E] T. Easwarakhanthan, J. Bottin, I. Bouhouch, C. Boutrit, Nonlinear minimization algorithm for determining
    the solar cell parameters with microcomputers, Int. J. Solar Energy 4, 1986, p. 1.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from panewright.cell.root import Array
from panewright.curve.descent import Bottom, Task, descend, lowest, same_cost
from panewright.curve.equation import (
    BREAKDOWN,
    EXPONENT,
    LIGHT,
    PLAIN,
    WITH_BREAKDOWN,
    Frame,
    Optimum,
    bounds,
    frame_of,
    model,
    slopes,
)
from panewright.curve.fitted import Fit
from panewright.curve.measured import Measured
from panewright.curve.start import starts, straight_cost
from panewright.curve.telling import ROUNDING, Search, scatter, told
from panewright.errors import CurveError, Problem

LEAST_POINTS = 5
USUAL_EXPONENT = 3.4  #: m where the points do not tell it (memory, after Bishop)

_REVERSE_V = -1.0  # per cell: nearer to zero, no cell breaks down
_BEYOND_CHANCE = 10.0  # ratio of variances that a further term must reach


def fit(
    measured: Measured,
    cells: int = 1,
    *,
    optimum: Optimum = "exact",
    weigh: bool = False,
    robust: bool = False,
) -> Fit:
    """The single diode of a curve.

    Parameters
    ----------
    measured : a clean curve, of at least five points, that bends.
    cells : equal cells in series.
    optimum : 'exact', or 'implicit' for the objective of the classic published fits.
    weigh : count each point by its stated scatter, that of the voltage too.
    robust : count points the less, the further off they lie.
    """
    if weigh and not measured.accuracy.scatters:
        raise ValueError("points are weighed by their scatter; the curve states none")
    frame = _frame(measured, cells)
    task = Task(frame, measured.counts, optimum, _dark(measured))
    best, ends = _sought(task)
    kept = tuple(place for place in best.fixed if place in (LIGHT, EXPONENT))  # not what only fell to zero
    task = replace(task, fixed=kept if best.theta.size > PLAIN else task.fixed)
    base = task.weight
    if weigh:
        best, base = _weighed(measured, task, best)
    if robust:
        best, weight = _robust(replace(task, weight=base), best)
    else:
        weight = base
    same = same_cost(min(ends, key=lambda end: end.cost), ends, float(base.sum()) * ROUNDING)
    return told(measured, cells, replace(task, weight=weight), best, Search(base, ends, same))


def _dark(measured: Measured) -> tuple[int, ...]:
    return (LIGHT,) if measured.irradiance_w_m2 == 0 else ()


def _frame(measured: Measured, cells: int) -> Frame:
    """The curve in its own scale, if there is anything to fit."""
    if cells < 1:
        raise ValueError(f"a curve is of one cell or more, got {cells}")
    count, forward = len(measured.voltage_v), int(np.sum(measured.volts > 0))
    if count < LEAST_POINTS:
        reason = f"{count} points are too few for a diode of five figures."
        raise CurveError([Problem(reason, f"Measure {LEAST_POINTS} points or more; 20 are better.")])
    if forward < 3 or not np.any(measured.amperes):
        reason = f"Only {forward} points lie above zero volts with a current; the diode shows nowhere else."
        raise CurveError([Problem(reason, "Sweep from zero volts past open circuit.")])
    return frame_of(measured, cells)


def _sought(task: Task) -> tuple[Bottom, tuple[Bottom, ...]]:
    """The best diode, without or with breakdown, and where every start ended."""
    near = _forward(task)
    places = starts(near.frame, near.weight, LIGHT in task.fixed)
    _must_bend(near, places)
    best, ends = lowest(task if near is task else near, places)
    if near is task:
        return best, ends
    plain = descend(task, best.theta)
    broken = _with_breakdown(task, best)
    return (plain, ends) if broken is None or not _better(task, plain, broken) else (broken, ends)


def _forward(task: Task) -> Task:
    """The task without the points that lie far in reverse; itself if there are none, or too few others."""
    frame = task.frame
    near = frame.volts * frame.unit_v > _REVERSE_V
    if bool(np.all(near)) or np.sum(near) < LEAST_POINTS:
        return task
    part = Frame(frame.volts[near], frame.amperes[near], frame.unit_v, frame.unit_a)
    return replace(task, frame=part, weight=task.weight[near])


def _must_bend(task: Task, places: list[Array]) -> None:
    """An error if no diode has such a curve, or a straight line does as well."""
    if not places:
        reason = "No diode at all has a curve like this."
        cure = "Look at the signs, at whether the light was on, and for steps, as of a shaded panel."
        raise CurveError([Problem(reason, cure)])
    frame, weight = task.frame, task.weight
    spare = max(frame.volts.size - 5, 1)
    line = straight_cost(frame, weight)
    diode = min((_cost(task, theta, "implicit") for theta in places), default=np.inf)
    least = weight.sum() * 1e-14
    if line - diode <= max(_BEYOND_CHANCE * diode / spare, least):
        reason = "The curve does not bend as a diode's does: it ends before the knee, or its signs are wrong."
        cure = "Sweep on until the current falls, past open circuit if you can."
        raise CurveError([Problem(reason, cure)])


def _cost(task: Task, theta: Array, optimum: Optimum) -> float:
    left = model(task.frame, theta, optimum) - task.frame.amperes
    return float(np.sum(task.weight * left**2))


def _with_breakdown(task: Task, forward: Bottom) -> Bottom | None:
    """The lowest fit with a breakdown term, started from the forward part's diode."""
    count = task.frame.volts.size
    if count < LEAST_POINTS + 3:
        return None
    held = replace(task, fixed=(*task.fixed, EXPONENT))
    reverse = task.frame.volts < 0.5 * task.frame.lowest
    found = [
        descend(held, _broken_start(task.frame, forward.theta, depth, reverse)) for depth in (-3, -1, 0.5)
    ]
    best = min(found, key=lambda bottom: bottom.cost)
    free = descend(task, best.theta)
    return free if _better(task, best, free) else best


def _broken_start(frame: Frame, theta: Array, depth: float, reverse: NDArray[np.bool_]) -> Array:
    """The forward diode, and a breakdown that takes what it leaves in reverse."""
    start = np.concatenate([theta, [0.0, depth, np.log(USUAL_EXPONENT)]])
    left = np.sum((frame.amperes - model(frame, theta, "exact"))[reverse])
    start[BREAKDOWN] = -40.0
    per = slopes(frame, start, "exact")[reverse, BREAKDOWN].sum() / np.exp(-40.0)
    least, most = bounds(WITH_BREAKDOWN)
    share = max(left / per if per else 0.0, 1e-12)
    start[BREAKDOWN] = np.clip(np.log(share), least[BREAKDOWN], most[BREAKDOWN])
    return start


def _better(task: Task, plain: Bottom, richer: Bottom) -> bool:
    """Whether further parameters pay far beyond chance."""
    size = richer.theta.size - len(richer.fixed)
    more = size - (plain.theta.size - len(plain.fixed))
    spare = task.frame.volts.size - size
    floor = task.weight.sum() * ROUNDING
    if spare < 1 or plain.cost <= floor:
        return False
    gain = (plain.cost - richer.cost) / max(more, 1)
    return bool(gain > _BEYOND_CHANCE * max(richer.cost, floor) / spare)


def _weighed(measured: Measured, task: Task, best: Bottom) -> tuple[Bottom, Array]:
    """Fitted again with each point counted by its scatter, the voltage's by the slope of the last fit."""
    weight = task.weight
    for _ in range(3):
        sigma = scatter(measured, task.frame, best.theta)
        weight = 1 / np.maximum(sigma, 1e-3 * sigma.max()) ** 2
        best = descend(replace(task, weight=weight), best.theta)
    return best, weight


def _robust(task: Task, best: Bottom) -> tuple[Bottom, Array]:
    """Fitted again and again with the far points counted less, until nothing moves."""
    weight = task.weight
    for _ in range(20):
        off = np.abs(model(task.frame, best.theta, task.optimum) - task.frame.amperes) * np.sqrt(task.weight)
        wide = max(1.5 * 1.4826 * float(np.median(off)), 1e-13)
        weight = task.weight / np.sqrt(1 + (off / wide) ** 2)
        new = descend(replace(task, weight=weight), best.theta)
        moved = float(np.max(np.abs(new.theta - best.theta)))
        best = new
        if moved < 1e-7:
            break
    return best, weight
