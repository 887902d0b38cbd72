"""How well Pmp is known: its standard deviation, and between which two figures it lies with 95 %.

The loss in a shunt goes with 1 / Rsh: what the readings leave open of ln Rsh makes a long tail downwards,
which no normal law has. So the shunt is walked along: at some places z of it, in standard deviations, the
other five figures take what they have in common with it, Pmp is solved there, and they blur it straightly by
what is left of them,

    P(Pmp < p) = sum over z of phi(z) N((p - Pmp(z)) / blur(z)).

In between the places a polynomial does. The 2.5 and 97.5 % points are found by Newton's steps in a bracket.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sqrt

import numpy as np
from scipy.special import ndtr, ndtri

from panewright.cell.root import Array
from panewright.lots.standing.figures import SHUNT, Kin, cells_of, in_theta
from panewright.lots.standing.points import at_peak

_PLACES = 7
_FURTHEST = 3.6  # standard deviations along the shunt
_FINE = 49
_AT_ONCE = 20_000  # cells, to spare memory
_ROUNDS = 60  #: at most; some eight do
_STILL = 1e-9  #: of the bracket: a step so short ends
_NEAR = 1e-6  #: of the share, as well: at a step of the sum a stride is short before it is right
TAIL = 0.025


@dataclass(frozen=True, slots=True)
class Band:
    """Of every cell."""

    power_sd_w: Array
    low_w: Array
    high_w: Array
    imp_sd_a: Array


def band(theta: Array, covariance: Array, kin: Kin) -> Band:
    """The bands of cells of these figures (n, 6), known so well (n, 6, 6)."""
    parts = [
        _band(theta[k : k + _AT_ONCE], covariance[k : k + _AT_ONCE], kin)
        for k in range(0, len(theta), _AT_ONCE)
    ]
    return Band(*(np.concatenate([getattr(part, name) for part in parts]) for name in Band.__slots__))


def _band(theta: Array, covariance: Array, kin: Kin) -> Band:
    variance = covariance[:, SHUNT, SHUNT]
    along = covariance[:, SHUNT, :] / np.sqrt(variance)[:, None]
    left = covariance - along[:, :, None] * along[:, None, :]
    places = _FURTHEST * np.array([cos(pi * (k + 0.5) / _PLACES) for k in range(_PLACES)])
    power, blur = (
        np.stack(each, axis=1)
        for each in zip(*(_there(theta + z * along, left, kin) for z in places), strict=True)
    )
    fine = np.linspace(-_FURTHEST, _FURTHEST, _FINE)
    weight = np.exp(-0.5 * fine**2)
    weight /= weight.sum()
    between = _between(places, fine)
    power, blur = power @ between, np.maximum(blur @ between, 1e-9)
    _, sd = _moments(power, blur, weight)
    low, high = (_quantile(power, blur, weight, share) for share in (TAIL, 1 - TAIL))
    return Band(sd, np.maximum(low, 0.0), high, _imp_sd(theta, covariance, kin))


def _moments(power: Array, blur: Array, weight: Array) -> tuple[Array, Array]:
    """Mean and standard deviation of what is blurred about each place."""
    mean = power @ weight
    return mean, np.sqrt(((power - mean[:, None]) ** 2 + blur**2) @ weight)


def _there(theta: Array, left: Array, kin: Kin) -> tuple[Array, Array]:
    """Pmp of these figures, and its standard deviation by what is left open of the others."""
    imp, vmp = at_peak(cells_of(theta, kin))
    slopes = in_theta(imp.by_log * vmp.value[:, None] + vmp.by_log * imp.value[:, None], theta, kin)
    blur = np.sqrt(np.maximum(np.einsum("ni,nij,nj->n", slopes, left, slopes), 0.0))
    return np.nan_to_num(imp.value * vmp.value), np.nan_to_num(blur)


def _imp_sd(theta: Array, covariance: Array, kin: Kin) -> Array:
    imp, _ = at_peak(cells_of(theta, kin))
    slopes = in_theta(imp.by_log, theta, kin)
    variance = np.einsum("ni,nij,nj->n", slopes, covariance, slopes)
    return np.asarray(np.nan_to_num(np.sqrt(variance)), dtype=np.float64)


def _between(places: Array, fine: Array) -> Array:
    """Weights (places, fine) of the polynomial through all places."""
    powers = np.arange(_PLACES)
    return np.asarray(
        np.linalg.solve((places[:, None] / _FURTHEST) ** powers, np.eye(_PLACES)).T
        @ ((fine[None, :] / _FURTHEST) ** powers[:, None])
    )


def _quantile(power: Array, blur: Array, weight: Array, share: float) -> Array:
    """The power under which it lies with this share: Newton's steps, halving where one leaves the bracket."""
    low, high = (power - 6 * blur).min(axis=1), (power + 6 * blur).max(axis=1)
    mean, sd = _moments(power, blur, weight)
    still, found = _STILL * (high - low), np.clip(mean + ndtri(share) * sd, low, high)
    open_ = np.arange(len(found))
    for _ in range(_ROUNDS):
        z = (found[open_, None] - power[open_]) / blur[open_]
        over = ndtr(z) @ weight - share
        low[open_], high[open_] = (
            np.where(over < 0, found[open_], low[open_]),
            np.where(over < 0, high[open_], found[open_]),
        )
        step = over / np.maximum((np.exp(-0.5 * z**2) / blur[open_]) @ weight / sqrt(2 * pi), 1e-300)
        new = found[open_] - step
        halved = (new <= low[open_]) | (new >= high[open_])
        new = np.where(halved, (low[open_] + high[open_]) / 2, new)
        moved = np.abs(new - found[open_])
        found[open_] = new
        open_ = open_[(moved > still[open_]) | (np.abs(over) > _NEAR)]
        if not open_.size:
            break
    return found
