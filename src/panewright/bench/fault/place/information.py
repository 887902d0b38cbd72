"""How much a reading is expected to tell of what is wrong and where. [bit]

With p(x | what) the density of the reading x where `what` is so,

    bits = sum over what of p(what) integral p(x | what) log2(p(x | what) / p(x)) dx

the mutual information of the two (T. M. Cover, J. A. Thomas, Elements of Information Theory, 2nd ed. 2006,
section 8.5, recalled). What a thing's strength leaves open of the reading is part of its density.
"""

from __future__ import annotations

import numpy as np

from panewright.cell.root import Array

_POINTS = 160
_REACH = 4.0  # standard deviations beyond the outermost readings


def bits(mean: Array, sigma: Array, weights: Array) -> float:
    """Of a reading with that mean and standard deviation; arrays (what, strengths)."""
    mean, sigma, weights = _merged(mean, sigma, weights)
    if len(mean) < 2:
        return 0.0
    least = float((mean - _REACH * sigma)[weights > 0].min())
    most = float((mean + _REACH * sigma)[weights > 0].max())
    x = _levels(mean[weights > 0], sigma[weights > 0], (least, most))
    density = _density(x, mean, sigma) * weights[..., None]
    of_each = density.sum(axis=1)
    whole, share = of_each.sum(axis=0), weights.sum(axis=1)
    floor = 1e-200  # what is rarer tells nothing
    ratio = np.maximum(of_each, floor) / np.maximum(share[:, None] * whole, floor)
    return max(float(np.trapezoid((of_each * np.log2(ratio)).sum(axis=0), x)), 0.0)


def _merged(mean: Array, sigma: Array, weights: Array) -> tuple[Array, Array, Array]:
    """What gives the same readings is one: no reading parts it."""
    shares = weights / np.maximum(weights.sum(axis=1, keepdims=True), 1e-300)
    keys = np.round(np.concatenate([mean / sigma.min(), shares * 1e3], axis=1), 2)
    _, first, which = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    together = np.zeros((first.size, weights.shape[1]))
    np.add.at(together, which.ravel(), weights)
    return mean[first], sigma[first], together


def _levels(mean: Array, sigma: Array, ends: tuple[float, float]) -> Array:
    """Levels of the reading, close where readings are expected."""
    near = (mean[:, None] + sigma[:, None] * np.linspace(-_REACH, _REACH, 9)).ravel()
    return np.unique(np.concatenate([np.linspace(*ends, _POINTS), near]))


def _density(x: Array, mean: Array, sigma: Array) -> Array:
    off = (x - mean[..., None]) / sigma[..., None]
    return np.asarray(np.exp(-0.5 * off**2) / (sigma[..., None] * np.sqrt(2 * np.pi)))
