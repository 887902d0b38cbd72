"""What a panel of unequal cells is expected to lose, in closed form.

The loss is told as a share of what all cells would give if each worked at its own maximum power.

**Exact to second order in the spreads.** Near its own maximum a cell of sharpness kappa (`own_power`) gives

    P(I) = Pk (1 - kappa/2 (I/Ik - 1)^2).

S cells in series share one current; the one that loses least is their mean, and of S deviations about
their mean the share (1 - 1/S) of the variance is left. A string's own voltage at maximum power is the sum
of its cells' to first order, so its variance as a share is 1/S of a cell's. M strings side by side share one
voltage, by the same law with the same kappa. Together

    loss = kappa/2 [ (1 - 1/S) var(Imp)/Imp^2 + (1 - 1/M)/S var(Vmp)/Vmp^2 ],

with the variances of the cells' own Imp and Vmp, which the exact slopes of the curve give from the
variances and correlations of light, voltage, series and shunt resistance. Nothing is assumed of the law of
chance but its variance.

**After Bucciarelli.** With kappa = C + 2, and C from the fill factor of a cell without resistances,
FF = C^2 / ((1 + C)(C + ln(1 + C))). A real cell's resistances make its knee rounder than its fill factor
alone tells; the rule errs by a fifth or so for common cells.

**Where it stops being true.** The power falls faster above Imp than below it: past the light current of the
dimmest cell a string hardly carries on. So the loss grows faster than the square when some cell comes
near that. The same string with cells drawn evenly is solved exactly and compared; the check says by how
much the square is off. Cells drawn by chance, with now and then one far out, are off by half as much again.

[B] L. L. Bucciarelli, Power loss in photovoltaic arrays due to mismatch in cell characteristics,
    Solar Energy 23, 1979, p. 277 (from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, log, log1p, sqrt
from statistics import NormalDist

import numpy as np

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.check import Check
from panewright.circuit.mismatch.own_power import own_power_w, slopes_of
from panewright.circuit.mismatch.spread import Spread, moved

MOST_OFF = 0.05  #: the square law is told as too simple when evenly drawn cells put it this far off
_STEPS = 41
_ROUNDS = 6
_MOST_DRAWN = 200  # more cells drawn evenly change the comparison no more


@dataclass(frozen=True, slots=True)
class LossEstimate:
    """The expected loss by mismatch, as shares of the cells' own maxima."""

    within: float  #: among the cells of a string
    between: float  #: among strings side by side
    imp: float  #: standard deviation of the cells' own Imp, as a share
    vmp: float  #: and of Vmp
    sharpness: float  #: kappa
    bucciarelli: float  #: the whole loss by Bucciarelli's factor
    beyond: float  #: exact loss of evenly drawn cells over the square law's for the same cells
    checks: tuple[Check, ...]

    @property
    def share(self) -> float:
        """The whole expected loss, exact to second order. [-]"""
        return self.within + self.between


def expected_loss(diode: Diode, series: int, parallel: int, spread: Spread) -> LossEstimate:
    """Expected loss of `parallel` strings of `series` cells of one lot; the joints count in the cell's Rs."""
    if series < 1 or parallel < 1:
        raise ValueError(f"a panel has a cell and a string or more, got {series} and {parallel}")
    slopes = slopes_of(diode)
    imp, vmp = (_deviation(moves, spread) for moves in (slopes.imp, slopes.vmp))
    in_string, among = (1 - 1 / series) * imp**2, (1 - 1 / parallel) / series * vmp**2
    factor = bucciarelli_factor(slopes.points.fill_factor)
    beyond = _beyond(diode, series, parallel, spread)
    half = slopes.sharpness / 2
    return LossEstimate(
        within=half * in_string,
        between=half * among,
        imp=imp,
        vmp=vmp,
        sharpness=slopes.sharpness,
        bucciarelli=factor * (in_string + among),
        beyond=beyond,
        checks=(square_check(beyond),),
    )


def square_check(beyond: float) -> Check:
    """The cells lie near enough to each other for the closed formula."""
    return Check(
        rule="spread small enough for the mismatch formula",
        demand=100 * abs(beyond - 1),
        limit=100 * MOST_OFF,
        unit="%",
        source="evenly drawn cells solved exactly against the formula for the same cells",
        cure="Take the simulated loss, or sort the lot into narrower classes.",
        room="circuit",
    )


def ideal_fill_factor(sharp: float) -> float:
    """Fill factor of a cell without resistances, Vmp being C times nVth. [-] [B]

    >>> round(ideal_fill_factor(12.6847), 6)
    0.768433
    """
    return sharp**2 / ((1 + sharp) * (sharp + log1p(sharp)))


def bucciarelli_c(fill_factor: float) -> float:
    """C of the cell without resistances that has this fill factor. [-] [B]

    >>> round(bucciarelli_c(0.768433), 4)
    12.6847
    """
    if not 0 < fill_factor < 1:
        raise ValueError(f"a fill factor lies between 0 and 1, got {fill_factor:g}")
    low, high = log(1e-9), log(1e9)  # the fill factor rises with C
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if ideal_fill_factor(exp(middle)) < fill_factor else (low, middle)
    return exp((low + high) / 2)


def bucciarelli_factor(fill_factor: float) -> float:
    """What the variance of Imp or Vmp is multiplied by, (C + 2) / 2. [-] [B]"""
    return (bucciarelli_c(fill_factor) + 2) / 2


def _deviation(moves: tuple[float, ...], spread: Spread) -> float:
    """Standard deviation of a point that the four figures move so much. [-]"""
    return sqrt(max(0.0, float(np.array(moves) @ spread.covariance @ np.array(moves))))


def _beyond(diode: Diode, series: int, parallel: int, spread: Spread) -> float:
    """How many times the square law's loss evenly drawn cells lose, in series or else side by side. [-]"""
    slopes = slopes_of(diode)
    count, moves, at = series, slopes.imp, slopes.points.imp_a
    law: Callable[[Diodes, Array], Array] = voltage_v
    if series == 1:
        count, moves, at, law = parallel, slopes.vmp, slopes.points.vmp_v, current_a
    count = min(count, _MOST_DRAWN)
    deviation = _deviation(moves, spread)
    if count == 1 or deviation == 0:
        return 1.0
    even = np.array([NormalDist().inv_cdf((k + 0.5) / count) for k in range(count)])
    even *= sqrt((count - 1) / count / even.var())
    cells = moved(Diodes.of((diode,)), spread, even[:, None] * _towards(moves, spread, deviation))
    own = float(own_power_w(cells).sum())
    exact = 1 - _best_w(cells, law, at, deviation * at) / own
    return exact / (slopes.sharpness / 2 * deviation**2 * (1 - 1 / count))


def _towards(moves: tuple[float, ...], spread: Spread, deviation: float) -> Array:
    """Where the four figures lie on average when the point lies one standard deviation off. [-]"""
    off = spread.covariance @ np.array(moves) / deviation
    shares = np.array(spread.shares)
    return np.asarray(np.divide(off, shares, out=np.zeros(4), where=shares > 0))


def _best_w(cells: Diodes, law: Callable[[Diodes, Array], Array], at: float, width: float) -> float:
    """The greatest power of cells that share a current, or a voltage, looked for about `at`. [W]"""
    low, high = max(0.0, at - 8 * width), at + 2 * width
    best = 0.0
    for _ in range(_ROUNDS):
        shared = np.linspace(low, high, _STEPS)
        power = shared * law(cells, np.broadcast_to(shared[:, None], (_STEPS, cells.light_a.size))).sum(
            axis=1
        )
        top = int(np.argmax(power))
        best = max(best, float(power[top]))
        low, high = shared[max(0, top - 1)], shared[min(_STEPS - 1, top + 1)]
    return best
