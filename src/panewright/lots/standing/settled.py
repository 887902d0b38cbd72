"""What a lot is like, from its own cells: mean and spread, beginning from what is usual of the kind.

Every reading is looked at from the lot's mean m. With K_i what is known of cell i there, S the lot's
covariance and b_i the pull of its readings, the score and what is known of the mean are

    s_i = (1 + K_i S)^-1 b_i,     M_i = (1 + K_i S)^-1 K_i.

Were readings straight in the figures, s_i would be zero on average and s_i s_i' be M_i at the true mean and
spread. They are not: a shunt's loss goes with 1 / Rsh, and a lot that spreads loses more than its middle
cell. So cells drawn from the lot (m, S) as it is held to be are read in the same light and heat, and what
they show on average is what the lot's own scores are held against. Where both agree, m and S have settled.
What nothing was read of stays as it is usual. A cell far from all others counts less, so that a few bad ones
do not make the lot look wide.
"""

from __future__ import annotations

import numpy as np

from panewright.cell.root import Array
from panewright.lots.standing.figures import COUNT, Kin
from panewright.lots.standing.likeliest import Lot
from panewright.lots.standing.seen import Sheet, gathered, predicted
from panewright.lots.standing.table import Table
from panewright.lots.standing.trust import Trust
from panewright.lots.standing.usual import Usual

_MOST_CELLS = 600  # enough to know a lot by; taken evenly from all of it
_DRAWN = 600  # cells drawn from the lot as it is held to be, at least
_ROUNDS = 20
_FAR = 22.5  # square distance of a cell, of which six figures of one lot exceed one in a thousand
_STRIDE = 0.5  # longest step of the mean, in its own usual deviation
_STILL = 0.02
_LEAST = 0.01  # least variance, of the usual
_SEED = 1  # of the cells drawn: the same rows, the same answer


def settled(table: Table, kin: Kin, trust: Trust, usual: Usual) -> Lot:
    """The lot's mean and spread."""
    table = _some(table)
    lot = Lot(np.zeros(COUNT), usual.spread_covariance, usual.level_covariance)
    odds = _odds(len(table.marks))
    for _ in range(_ROUNDS):
        new = _again(lot, (table, kin, trust), usual, odds)
        if not (np.isfinite(new.mean).all() and np.isfinite(new.covariance).all()):
            break  # readings so wild that no lot explains them: what was last sound is kept
        wider = np.log(np.diag(new.covariance) / np.diag(lot.covariance))
        moved = np.abs((new.mean - lot.mean) / np.sqrt(np.diag(lot.covariance))).max() + np.abs(wider).max()
        lot = new
        if moved < _STILL:
            break
    return lot


def _some(table: Table) -> Table:
    """Enough cells to know the lot by."""
    count = len(table.marks)
    if count <= _MOST_CELLS:
        return table
    return table.only(np.unique(np.linspace(0, count - 1, _MOST_CELLS).astype(np.intp)))


def _odds(cells: int) -> Array:
    """Normal deviates (times, cells, 6), each with its opposite."""
    times = -(-_DRAWN // (2 * cells))
    half = np.random.default_rng(_SEED).standard_normal((times, cells, COUNT))
    return np.concatenate([half, -half])


def _again(lot: Lot, asked: tuple[Table, Kin, Trust], usual: Usual, odds: Array) -> Lot:
    """Mean and spread once more."""
    table, kin, trust = asked
    at_mean = predicted(np.tile(lot.mean, (len(table.marks), 1)), table, kin, trust)
    here = gathered(at_mean, table)
    share = np.asarray(np.linalg.inv(np.eye(COUNT) + here.known @ lot.covariance), dtype=np.float64)
    told = share @ here.known
    score = _score(share, here.pull)
    drawn = _drawn(lot, (at_mean, share), asked, odds)
    noise = told @ share.transpose(0, 2, 1)  # of the scores, by the readings' own errors
    bias = drawn.mean(axis=0)
    weight = _weights(score, lot.covariance)
    step, known = _mean_step(lot, (score - bias, told, weight), usual)
    expected = np.einsum("tni,tnj->ij", drawn, drawn) / len(odds) + noise.sum(axis=0)
    found = (weight[:, None] * score).T @ score
    per_cell = (found - expected * weight.mean()) / (usual.worth + weight.sum())
    pull_back = usual.worth / (usual.worth + weight.sum()) * (usual.spread_covariance - lot.covariance)
    spread = lot.covariance + lot.covariance @ per_cell @ lot.covariance + pull_back
    sound = _sound(spread, usual) if np.isfinite(spread).all() else spread
    return Lot(lot.mean + step, sound, known)


def _mean_step(lot: Lot, told: tuple[Array, Array, Array], usual: Usual) -> tuple[Array, Array]:
    """The next step of the mean, and its covariance."""
    score, known, weight = told
    level = np.linalg.inv(usual.level_covariance)
    total = level + (weight[:, None, None] * known).sum(axis=0)
    step = np.linalg.solve(total, (weight[:, None] * score).sum(axis=0) - level @ lot.mean)
    step /= max(1.0, float(np.abs(step / np.sqrt(np.diag(usual.level_covariance))).max()) / _STRIDE)
    return step, np.linalg.inv(total)


def _score(share: Array, pull: Array) -> Array:
    return np.asarray((share @ pull[:, :, None])[:, :, 0])


def _drawn(lot: Lot, here: tuple[Sheet, Array], asked: tuple[Table, Kin, Trust], odds: Array) -> Array:
    """Scores (times, cells, 6) of cells drawn from the lot and read without error."""
    at_mean, share = here
    table, kin, trust = asked
    times = len(odds)
    theta = lot.mean + odds.reshape(-1, COUNT) @ np.linalg.cholesky(lot.covariance).T
    many = table.times(times)
    off = np.tile(at_mean.off, (times, 1)) - predicted(theta, many, kin, trust).off
    slopes, common = (np.tile(each, (times, 1, 1)) for each in (at_mean.slopes, at_mean.common))
    pull = gathered(Sheet(off, slopes, common), many).pull
    return _score(np.tile(share, (times, 1, 1)), pull).reshape(odds.shape)


def _weights(score: Array, covariance: Array) -> Array:
    """One for a cell like its lot, less for one far off."""
    square = ((score @ covariance) * score).sum(axis=1)
    return np.asarray(np.minimum(1.0, _FAR / np.maximum(square, 1e-300)))


def _sound(spread: Array, usual: Usual) -> Array:
    """A covariance that stays one: nowhere narrower than a tenth of the usual deviation."""
    size = np.asarray(usual.spread)
    values, axes = np.linalg.eigh(spread / np.outer(size, size))
    return np.asarray((axes * np.maximum(values, _LEAST)) @ axes.T * np.outer(size, size))
