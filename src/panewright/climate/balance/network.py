"""Nodes that exchange heat, and the temperatures at which every one gives off what it takes in.

Newton's way: all flows grow with the temperature they come from, so there is one answer. Slopes are taken
from small differences; a step that makes the imbalance worse is halved.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
CLOSED_W_M2 = 1e-9  #: imbalance of a node that counts as none
_SMALL_K = 1e-4
_MOST_STEP_K = 60.0
_ROUNDS = 80
_COLDEST_K = 60.0  # no guess goes lower; formulas of air hold nowhere near


@dataclass(frozen=True, slots=True)
class Path:
    """Heat from one node to another, growing with the first one's temperature, falling with the second's."""

    start: int
    end: int
    flux_w_m2: Callable[[float, float], float]


@dataclass(frozen=True, slots=True)
class Leak:
    """Heat from one node to the outside."""

    node: int
    flux_w_m2: Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Network:
    """Heat put into each node, and the ways it takes."""

    put_in_w_m2: tuple[float, ...]
    paths: tuple[Path, ...]
    leaks: tuple[Leak, ...]


def imbalance_w_m2(network: Network, heats_k: Sequence[float]) -> Array:
    """What each node takes in above what it gives off. [W/m2]"""
    left = np.array(network.put_in_w_m2, dtype=float)
    for path in network.paths:
        flow = path.flux_w_m2(heats_k[path.start], heats_k[path.end])
        left[path.start] -= flow
        left[path.end] += flow
    for leak in network.leaks:
        left[leak.node] -= leak.flux_w_m2(heats_k[leak.node])
    return left


def settled_k(network: Network, start_k: float) -> tuple[float, ...]:
    """Temperature of each node once nothing changes any more. [K]"""
    heats = np.full(len(network.put_in_w_m2), start_k)
    left = imbalance_w_m2(network, heats.tolist())
    for _ in range(_ROUNDS):
        if np.abs(left).max() < CLOSED_W_M2:
            return tuple(heats.tolist())
        heats, left = _stepped(network, heats, left)
    raise ValueError(f"no balance found from {start_k} K; left over {left} W/m2 at {heats} K")


def _stepped(network: Network, heats: Array, left: Array) -> tuple[Array, Array]:
    step = np.linalg.solve(_slopes(network, heats.tolist()), left)
    step *= min(1.0, _MOST_STEP_K / max(np.abs(step).max(), 1e-12))
    now = np.abs(left).max()
    for _ in range(8):
        tried = np.maximum(heats + step, _COLDEST_K)
        after = imbalance_w_m2(network, tried.tolist())
        if np.abs(after).max() < now:
            break
        step = step / 2
    return tried, after


def _slopes(network: Network, heats_k: list[float]) -> Array:
    """How much more each node gives off for each kelvin of each other. [W/m2K]"""
    slopes = np.zeros((len(heats_k), len(heats_k)))
    for path in network.paths:
        a, b, flux = path.start, path.end, path.flux_w_m2
        here = flux(heats_k[a], heats_k[b])
        by_a = (flux(heats_k[a] + _SMALL_K, heats_k[b]) - here) / _SMALL_K
        by_b = (flux(heats_k[a], heats_k[b] + _SMALL_K) - here) / _SMALL_K
        slopes[a, a] += by_a
        slopes[a, b] += by_b
        slopes[b, a] -= by_a
        slopes[b, b] -= by_b
    for leak in network.leaks:
        heat = heats_k[leak.node]
        slopes[leak.node, leak.node] += (leak.flux_w_m2(heat + _SMALL_K) - leak.flux_w_m2(heat)) / _SMALL_K
    return slopes
