"""An observer who knows how panels are drawn, with a circuit and integrals of its own.

It knows the panel, the kinds that are drawn (a crack apart from a shade), their true ranges and shares, which
pairs there are and how often two cells share a row, the scatter of readings, the loads of a meter, and how
light and heat err. It does not know where along the curve a reading of a sweep was taken: that is told by the
reading itself, which two errors move; as sweeps go by even steps of voltage, each such place is as likely.

For every kind the range of strengths is cut into boxes. In each the readings' distances are taken as straight
in light, heat and strengths; the promising ones are followed to their best fit by exact curves (Gauss and
Newton), then summed over strengths by Gauss and Legendre and over light and heat by Gauss and Hermite about
the best fit, every node an exact curve (`strung`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, product

import numpy as np

from campaigns.faulty import HEAT_K, LIGHT, NOISE, RANGES
from campaigns.strung import Array, Branch, Strung, Wrong, curve
from campaigns.strung_loops import at_loads, places
from panewright.bench.fault.kinds import Group

Odds = dict[Group, float]
Kind = tuple[str, float]  #: with its share within its group
SINGLE: dict[Group, tuple[Kind, ...]] = {
    "weak cell": (("shaded", 2 / 3), ("cracked", 1 / 3)),
    "added resistance": (("resistance", 1.0),),
    "shunted cell": (("shunt", 1.0),),
    "dimmed": (("dimmed", 1.0),),
}
_LOST = ("gone", "turned", "shorted", "diode turned", "joint open")
RANGE = {kind: RANGES[group] for group, kinds in SINGLE.items() for kind, _ in kinds}
_BOXES = {0: 1, 1: 16, 2: 7}  # along each strength
_STEPS = (0.2, 0.2, 0.02)  # in deviations of light and heat, in logs of strength
_HOPE = 18.0  # below the best, where nothing counts any more
_COUNTS, _MOST = (
    8.0,
    60,
)  # below the best: followed there, so many boxes at most, and summed over exact curves
_NEEDLE = 400.0  # below the best, from afar, beyond which a supposition's best box is not followed either
_ROUNDS = 3
_REACH, _AROUND = 4.5, 3.5  # deviations of light and heat; of strengths about the best fit
_LEGENDRE = np.polynomial.legendre.leggauss(5)
_HERMITE = np.polynomial.hermite_e.hermegauss(3)
_NOUGHT = np.zeros(2)
_LEAST = 1e-4  # of the greatest reading: as sure as any reading is


@dataclass(frozen=True)
class Seen:
    """Readings of one way: a sweep, or a meter at open, short and known loads."""

    volts: Array
    amps: Array
    loads_ohm: tuple[float, ...] = ()  #: of a meter's readings after open and short; none for a sweep

    @cached_property
    def errors(self) -> tuple[Array, Array]:
        """Standard deviations of volts and amperes."""
        volts, amps = (
            np.maximum(NOISE * np.abs(each), _LEAST * np.abs(each).max()) for each in (self.volts, self.amps)
        )
        return volts, amps


@dataclass(frozen=True, slots=True)
class Supposed:
    """Kinds of things wrong, with their rows and their share of panels."""

    group: Group
    kinds: tuple[str, ...]
    rows: tuple[int, ...]
    share: float


@dataclass(frozen=True, slots=True)
class Panel:
    """What the observer knows of one, and the light and heat that were read."""

    strung: Strung
    irradiance_w_m2: float
    cell_c: float
    panel_ohm: float  #: Voc / Isc of the sound panel

    def branch(self, supposed: Supposed, at: Array) -> Branch:
        """Exact curve at deviations of light and heat, then logs of strengths."""
        sizes = iter(np.exp(at[2:]).tolist())
        wrongs = [
            Wrong(kind, self._size(kind, next(sizes)) if kind in RANGE else 0.0, row)
            for kind, row in zip(supposed.kinds, supposed.rows, strict=True)
        ]
        light, heat = self.irradiance_w_m2 / (1 + LIGHT * at[0]), self.cell_c - HEAT_K * at[1]
        return curve(self.strung, wrongs, light, heat)

    def _size(self, kind: str, strength: float) -> float:
        if kind == "resistance":
            return strength * self.panel_ohm
        if kind == "shunt":
            return strength * self.panel_ohm / (self.strung.rows * self.strung.each)
        return min(strength, 0.999)


def supposed_of(panel: Strung) -> Iterator[Supposed]:
    """All that is drawn, each with its share."""
    yield Supposed("healthy", (), (), 1 / 7)
    groups: dict[Group, tuple[Kind, ...]] = {"lost voltage": _lost(panel), **SINGLE}
    for group, kinds in groups.items():
        yield from (Supposed(group, (kind,), (0,), share / 7) for kind, share in kinds)
    cells = panel.rows * panel.each
    together = (panel.each - 1) / (cells - 1)
    for one, other in combinations(groups, 2):
        for (a, of_a), (b, of_b) in product(groups[one], groups[other]):
            share = of_a * of_b / 7 / 10
            apart = 0.0 if "dimmed" in (a, b) else 1 - together
            yield Supposed("two faults", (a, b), (0, 0), share * (1 - apart))
            if apart and panel.rows > 1:
                yield Supposed("two faults", (a, b), (0, 1), share * apart)


def _lost(panel: Strung) -> tuple[Kind, ...]:
    kinds = _LOST if panel.bypass else _LOST[:2]
    return tuple((kind, 1 / len(kinds)) for kind in kinds)


@dataclass(frozen=True)
class Model:
    """Distances of readings, straight in all unknowns about one point."""

    at: Array
    off: Array  #: distances there
    slopes: Array
    measure: float  #: log of how dense places along the curve are where readings were taken

    def best(self, low: Array, high: Array) -> tuple[Array, float]:
        """The likeliest point with the strengths within bounds, and its log."""
        point = self.solved(self.at[2:], free=True)
        inside = np.clip(point[2:], low, high)
        point = self.solved(inside, free=False)
        return point, self.log(point)

    def log(self, point: Array) -> float:
        """Log likelihood and the prior of light and heat, by the straight model."""
        off = self.off + self.slopes @ (point - self.at)
        return float(-0.5 * (off @ off) - 0.5 * (point[:2] @ point[:2]) + self.measure)

    def spread(self) -> Array:
        """Covariance of all unknowns."""
        return np.linalg.pinv(self._normal)

    @cached_property
    def of_light_and_heat(self) -> Array:
        """Covariance of these two where the strengths are given."""
        return np.asarray(np.linalg.inv(self._normal[:2, :2]))

    @cached_property
    def _normal(self) -> Array:
        """Of least squares, with the prior of light and heat."""
        prior = np.diag([1.0, 1.0, *([1e-6] * (self.at.size - 2))])
        return np.asarray(self.slopes.T @ self.slopes + prior)

    @cached_property
    def _pull(self) -> Array:
        pull = self.slopes.T @ self.off
        pull[:2] += self.at[:2]
        return np.asarray(pull)

    def solved(self, strengths: Array, free: bool) -> Array:
        """Least squares, with the strengths free or held."""
        count = self.at.size if free else 2
        away = np.concatenate([_NOUGHT, strengths - self.at[2:]])
        pull = self._pull[:count] + self._normal[:count, 2:] @ away[2:]
        away[:count] -= np.linalg.solve(self._normal, pull) if free else self.of_light_and_heat @ pull
        return np.asarray(self.at + away)


def odds_of(panel: Panel, seen: Sequence[Seen], among: Iterable[Supposed] | None = None) -> list[Odds]:
    """Odds of every group, for each way of reading; the first curves are shared by all ways."""
    boxes: list[list[tuple[Supposed, Array, Array, Model]]] = [[] for _ in seen]
    for supposed in among or supposed_of(panel.strung):
        for low, high in _boxes(supposed):
            at = np.array([0.0, 0.0, *((low + high) / 2)])
            for models, model in zip(boxes, _models(panel, supposed, at, seen), strict=True):
                models.append((supposed, low, high, model))
    return [_weighed(panel, each, models) for each, models in zip(seen, boxes, strict=True)]


def _boxes(supposed: Supposed) -> Iterator[tuple[Array, Array]]:
    graded = [kind for kind in supposed.kinds if kind in RANGE]
    edges = [np.linspace(*np.log(RANGE[kind]), _BOXES[len(graded)] + 1) for kind in graded]
    for corner in product(*(range(edge.size - 1) for edge in edges)):
        yield (
            np.array([edge[k] for edge, k in zip(edges, corner, strict=True)]),
            np.array([edge[k + 1] for edge, k in zip(edges, corner, strict=True)]),
        )


def _weighed(panel: Panel, seen: Seen, models: Sequence[tuple[Supposed, Array, Array, Model]]) -> Odds:
    """The promising boxes followed, all summed."""
    promise = np.array([model.best(low, high)[1] for _, low, high, model in models])
    order = np.argsort(-promise)
    near, counts = (
        [k for k in order.tolist() if promise[k] > promise.max() - below] for below in (_NEEDLE, _COUNTS)
    )
    follow = set(counts[:_MOST]) | _best_of_each(models, near)
    logs: dict[Group, list[float]] = {}
    best = -np.inf
    for k in order.tolist():
        supposed, low, high, model = models[k]
        if k not in follow and promise[k] < best - _HOPE:
            continue
        exact = k in follow
        if exact:
            model = _followed(panel, seen, supposed, (low, high), model)
            exact = model.best(low, high)[1] > best - _COUNTS
        log = _box_log(panel, seen, supposed, (low, high), model, exact)
        best = max(best, log)
        logs.setdefault(supposed.group, []).append(log + np.log(supposed.share) - _range_log(supposed))
    top = max(max(each) for each in logs.values())
    mass = {group: float(np.exp(np.array(each) - top).sum()) for group, each in logs.items()}
    whole = sum(mass.values())
    return {
        group: mass.get(group, 0.0) / whole for group in ("healthy", "lost voltage", *SINGLE, "two faults")
    }


def _best_of_each(models: Sequence[tuple[Supposed, Array, Array, Model]], order: Sequence[int]) -> set[int]:
    """The most promising box of every supposition: a needle may promise little from afar."""
    found: dict[Supposed, int] = {}
    for k in order:
        found.setdefault(models[k][0], k)
    return set(found.values())


def _range_log(supposed: Supposed) -> float:
    """Log of the strengths' whole range, of which each part is as likely."""
    spans = [np.log(RANGE[kind][1] / RANGE[kind][0]) for kind in supposed.kinds if kind in RANGE]
    return float(np.log(spans).sum())


def _followed(panel: Panel, seen: Seen, supposed: Supposed, box: tuple[Array, Array], model: Model) -> Model:
    """Made straight anew at its best fit, a few times."""
    for _ in range(_ROUNDS):
        point, _ = model.best(*box)
        point[:2] = np.clip(point[:2], -_REACH, _REACH)
        (model,) = _models(panel, supposed, point, [seen])
    return model


def _box_log(
    panel: Panel, seen: Seen, supposed: Supposed, box: tuple[Array, Array], model: Model, exact: bool
) -> float:
    """Log of the integral over strengths in the box, light and heat."""
    low, high = box
    best, _ = model.best(low, high)
    sigma = np.sqrt(np.maximum(np.diag(model.spread())[2:], 1e-12))
    low, high = np.maximum(low, best[2:] - _AROUND * sigma), np.minimum(high, best[2:] + _AROUND * sigma)
    logs = []
    for where in product(range(5), repeat=low.size):
        at = [*where]
        strengths = (low + high) / 2 + (high - low) / 2 * _LEGENDRE[0][at]
        weight = float(np.log((high - low) / 2 * _LEGENDRE[1][at]).sum())
        point = model.solved(strengths, free=False)
        log = _exact(panel, supposed, point, seen)[0] if exact else model.log(point)
        logs.append(log + weight)
    top = max(logs)
    inner = float(np.log(np.linalg.det(model.of_light_and_heat)) / 2)
    curved = _curved(panel, seen, supposed, best, model) if exact else 0.0
    return float(top + np.log(np.exp(np.array(logs) - top).sum()) + inner + curved)


def _curved(panel: Panel, seen: Seen, supposed: Supposed, best: Array, model: Model) -> float:
    """What the straight model in light and heat leaves out, by nine nodes about the best fit."""
    root = np.linalg.cholesky(model.of_light_and_heat)
    nodes, weights = _HERMITE
    here, _ = _exact(panel, supposed, best, seen)
    told = []
    for i, j in product(range(3), repeat=2):
        z = np.array([nodes[i], nodes[j]])
        point = best.copy()
        point[:2] += root @ z
        log, _ = _exact(panel, supposed, point, seen)
        told.append(weights[i] * weights[j] / (2 * np.pi) * np.exp(np.clip(log - here + 0.5 * z @ z, -50, 5)))
    return float(np.log(sum(told)))


def _models(panel: Panel, supposed: Supposed, at: Array, seen: Sequence[Seen]) -> list[Model]:
    """Of every way of reading, by exact curves there and a step off."""
    here = panel.branch(supposed, at)
    steps = [_STEPS[min(k, 2)] for k in range(at.size)]
    moved = []
    for k, step in enumerate(steps):
        point = at.copy()
        point[k] += step
        moved.append(panel.branch(supposed, point))
    models = []
    for each in seen:
        off, measure = distances(here, each)
        slopes = [
            (distances(branch, each)[0] - off) / step for branch, step in zip(moved, steps, strict=True)
        ]
        models.append(Model(at, off, np.stack(slopes, axis=1), measure))
    return models


def _exact(panel: Panel, supposed: Supposed, point: Array, seen: Seen) -> tuple[float, Array]:
    off, measure = distances(panel.branch(supposed, point), seen)
    return float(-0.5 * (off @ off) - 0.5 * (point[:2] @ point[:2]) + measure), off


def distances(branch: Branch, seen: Seen) -> tuple[Array, float]:
    """Of readings from a curve, in their own deviations, and the log of the places' density."""
    volts, amps = seen.errors
    if seen.loads_ohm:
        return _metered(branch, seen, volts, amps), 0.0
    return places(branch, (seen.volts, seen.amps), (volts, amps))


def _metered(branch: Branch, seen: Seen, volts: Array, amps: Array) -> Array:
    """Open: volts; shorted: amperes; at a known load both."""
    return at_loads(branch, (seen.volts, seen.amps), (volts, amps), np.array(seen.loads_ohm))
