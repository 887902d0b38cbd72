"""From the bottom of a fit to what it says, errors, ends and sentences."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from panewright.cell.key_points import key_points
from panewright.cell.root import Array
from panewright.curve import spread
from panewright.curve.descent import Bottom, Task
from panewright.curve.equation import (
    EXPONENT,
    LIGHT,
    PLAIN,
    SERIES,
    SHUNT,
    Frame,
    bounds,
    model,
    slopes,
    steepness,
    stretch,
)
from panewright.curve.fitted import Fit
from panewright.curve.measured import Measured
from panewright.curve.spread import FIGURES, Estimate

ROUNDING = 1e-26  #: squared share of the greatest current below which a misfit is only rounding

_ALIKE = 1e-4  # of a parameter's own scale
_PATTERN = -2.5  # standard deviations of the runs that chance hardly makes
_TOGETHER = 0.98  # correlation from which two figures go together
_WORDS = {
    "light_a": "the light-generated current",
    "ln_saturation": "the saturation current",
    "ideality_v": "the ideality",
    "series_ohm": "the series resistance",
    "shunt_siemens": "the shunt",
    "breakdown_siemens": "the breakdown conductance",
    "breakdown_v": "the breakdown voltage",
    "breakdown_exponent": "the breakdown exponent",
}


@dataclass(frozen=True, slots=True)
class Search:
    """How the bottom was sought."""

    base: Array  #: weights before any robust ones
    ends: tuple[Bottom, ...]  #: where each start ended
    same: tuple[Bottom, ...]  #: those as low as the lowest

    @property
    def unique(self) -> bool:
        """Whether all that came as low agree."""
        first = self.same[0].theta
        return all(np.allclose(other.theta, first, rtol=_ALIKE, atol=_ALIKE) for other in self.same)


def scatter(measured: Measured, frame: Frame, theta: Array) -> Array:
    """Stated scatter of each point in the curve's own scale, that of the voltage by the curve's slope."""
    slope = steepness(frame, theta) * frame.unit_a / float(measured.volts.max())
    return measured.scatter_a(slope) / frame.unit_a


def told(measured: Measured, cells: int, task: Task, best: Bottom, search: Search) -> Fit:
    """The fit as a record."""
    frame, theta = task.frame, best.theta
    covariance, known = _covariance(measured, task, best, search.base)
    figures = _figures(frame, task, best, covariance)
    misfit = {of: model(frame, theta, of) - frame.amperes for of in ("exact", "implicit")}
    share = measured.counts / measured.counts.sum()
    rmse = {of: frame.unit_a * float(np.sqrt(np.sum(share * left**2))) for of, left in misfit.items()}
    plain = Fit(
        optimum=task.optimum,
        diode=frame.in_volts(frame.diode(theta)),
        cells=cells,
        irradiance_w_m2=measured.irradiance_w_m2,
        cell_c=measured.cell_c,
        rmse_exact_a=rmse["exact"],
        rmse_implicit_a=rmse["implicit"],
        figures=figures,
        correlations=spread.correlations(covariance),
        ends=_ends(measured, cells, frame, theta, known),
        runs=spread.runs(misfit[task.optimum]),
        starts=len(search.ends),
        reached=len(search.same),
        unique=search.unique,
        said=(),
    )
    return replace(plain, said=tuple(_said(plain)))


def _covariance(measured: Measured, task: Task, best: Bottom, base: Array) -> tuple[Array, Array]:
    """Covariance of the figures with the gains in it, and of the bare parameters without."""
    frame, theta = task.frame, best.theta
    size = theta.size
    free = [place for place in range(size) if place not in task.fixed]
    variance = _variance(measured, task, best, base)
    if task.optimum == "implicit":
        variance = variance * stretch(frame, theta) ** 2
    bare = np.zeros((size, size))
    part = slopes(frame, theta, task.optimum)[:, free]
    bare[np.ix_(free, free)] = spread.covariance(part, task.weight, variance)
    turn = spread.to_figures(frame, theta)
    blind = np.isinf(np.diag(bare))
    seen = np.where(np.isinf(bare), 0.0, bare)
    whole = turn @ seen @ turn.T + spread.by_gain(frame.in_volts(frame.diode(theta)), size, measured.accuracy)
    unseen = (np.abs(turn[:, blind]) > 0).any(axis=1)
    whole[unseen, unseen] = np.inf
    return whole, bare


def _variance(measured: Measured, task: Task, best: Bottom, base: Array) -> Array:
    """Variance of each point: as stated, or larger if the misfit is; else from the misfit alone."""
    frame, theta = task.frame, best.theta
    left = model(frame, theta, "exact") - frame.amperes
    freedom = left.size - (theta.size - len(best.fixed))
    if measured.accuracy.scatters:
        stated = scatter(measured, frame, theta) ** 2
        stated = np.maximum(stated, 1e-6 * stated.max())
        excess = float(np.sum(left**2 / stated)) / freedom if freedom > 0 else 1.0
        return np.asarray(stated * max(excess, 1.0))
    if freedom < 1:
        return np.full(left.size, np.inf)
    square = float(np.sum(base * left**2)) / freedom
    if not np.array_equal(base, task.weight):  # robust: the far points must not widen all others
        square = (1.4826 * float(np.median(np.abs(left) * np.sqrt(base)))) ** 2 * left.size / freedom
    return np.asarray(spread.student(freedom) ** 2 * square / base)


def _figures(frame: Frame, task: Task, best: Bottom, covariance: Array) -> tuple[Estimate, ...]:
    values = spread.figures_of(frame.in_volts(frame.diode(best.theta)), best.theta.size)
    sigma = np.sqrt(np.maximum(np.diag(covariance), 0.0))
    least, most = bounds(best.theta.size)
    reach = 1e-6 * (1 + np.abs(best.theta))
    pressed = (best.theta <= least + reach) | (best.theta >= most - reach)
    given = [place in task.fixed for place in range(values.size)]
    return tuple(
        Estimate(FIGURES[k], float(values[k]), float(sigma[k]), bool(pressed[k]) and not given[k])
        for k in range(values.size)
    )


def _ends(measured: Measured, cells: int, frame: Frame, theta: Array, bare: Array) -> tuple[Estimate, ...]:
    """Isc, Voc and maximum power of the whole curve with their errors."""
    diode, own = frame.diode(theta), measured.accuracy
    if diode.light_a == 0:
        return ()
    points = key_points(diode)
    at = replace(frame, volts=np.array([0.0, points.vmp_v, points.voc_v]), amperes=np.zeros(3))
    per = slopes(at, theta, "exact") if theta.size == PLAIN else _slopes_above(at, frame, theta)
    per = per * np.array([1.0, points.vmp_v, 1 / steepness(at, theta)[2]])[:, None]
    with np.errstate(invalid="ignore"):
        finite = np.where(np.isinf(bare), 0.0, bare)
    blind = np.isinf(np.diag(bare))
    variance = np.einsum("ij,jk,ik->i", per, finite, per)
    variance[(np.abs(per[:, blind]) > 1e-9).any(axis=1)] = np.inf
    unit = np.array([frame.unit_a, frame.unit_v * cells * frame.unit_a, frame.unit_v * cells])
    gain = np.array([own.current_gain, np.hypot(own.current_gain, own.voltage_gain), own.voltage_gain])
    value = np.array([points.isc_a, points.power_w, points.voc_v]) * unit
    sigma = np.sqrt(np.maximum(variance, 0.0) * unit**2 + (gain * value) ** 2)
    names = ("isc_a", "power_w", "voc_v")
    isc, power, voc = (Estimate(*entry) for entry in zip(names, value.tolist(), sigma.tolist(), strict=True))
    return isc, voc, power


def _slopes_above(at: Frame, frame: Frame, theta: Array) -> Array:
    """Slopes at other voltages with the breakdown term still counted from the curve's lowest point."""
    wide = replace(at, volts=np.append(at.volts, frame.volts.min()), amperes=np.zeros(4))
    return slopes(wide, theta, "exact")[:3]


def _said(fit: Fit) -> Iterator[str]:
    """What to know about a fit, in sentences."""
    if fit.optimum == "exact":
        yield "This is the exact optimum: the current is solved at each voltage."
    else:
        yield "This is the implicit optimum: the measured current stands on both sides, as in published fits."
    if not fit.unique:
        yield "Other figures fit as well: the points do not tell one diode from the other."
    elif fit.reached < fit.starts:
        yield f"{fit.reached} of {fit.starts} starts ended here; the others ended higher."
    for entry in fit.figures:
        yield from _bound_said(entry)
    if fit.unseen:
        words = ", ".join(_WORDS[name] for name in fit.unseen)
        yield f"The points hardly tell {words}: the error is as large as the figure."
    yield from _pair_said(fit)
    if fit.runs.deviation < _PATTERN:
        yield (
            f"The misfit keeps its sign in {fit.runs.count} runs where chance makes {fit.runs.expected:.0f}: "
            "one diode does not have this curve's shape."
        )
    if len(fit.figures) > PLAIN and fit.figures[EXPONENT].sigma == 0:
        usual = fit.diode.breakdown_exponent
        yield f"The points do not tell the breakdown's exponent: {usual:.3g} is assumed."


def _bound_said(entry: Estimate) -> Iterator[str]:
    if not entry.at_bound:
        return
    if entry.name == FIGURES[SERIES]:
        ends = "zero" if entry.value == 0 else "the end of the search"
        yield f"The series resistance came out at its bound, {ends}."
    elif entry.name == FIGURES[SHUNT]:
        yield "The shunt came out infinite." if entry.value == 0 else "The shunt came out at its bound."
    elif entry.name == FIGURES[LIGHT]:
        yield "The light-generated current came out at its bound, zero."
    else:
        yield f"The fit pressed {_WORDS[entry.name]} against the end of its search: take it for no figure."


def _pair_said(fit: Fit) -> Iterator[str]:
    table = np.triu(np.abs(np.array(fit.correlations)), 1)
    one, other = np.unravel_index(int(np.argmax(table)), table.shape)
    if table[one, other] > _TOGETHER:
        first, second = _WORDS[FIGURES[int(one)]], _WORDS[FIGURES[int(other)]]
        told = fit.correlations[int(one)][int(other)]
        yield f"{first[0].upper()}{first[1:]} and {second} go together (correlation {told:.3f})."
