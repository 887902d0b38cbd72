"""A stretch of the load path as a power series: one tangent matrix, many exact derivatives.

Around a known state the load, w and F are written as series in s, the growth of the volume swept by the
pane. Every order solves the same linear system with a new right side, so all orders together cost about
as much as one step of Newton's method, and any state in between is a polynomial, not an interpolation.
The stretch ends where the last term would exceed its tolerance. This is the asymptotic numerical method
[C]; stepping from no load upward also keeps clear of the false roots that a cold Newton step falls into.

[C] B. Cochelin, Computers and Structures 53 (1994) 1181.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from panewright.glass.plate.basis import Array
from panewright.glass.plate.inverse import inverse_root

_CORRECTIONS = 6  # two or three are the rule
BALANCE = 1e-9  #: share of the load that may be out of balance


Give = Callable[[Array], Array]  #: movement under a load


class Equations(Protocol):
    """What a path is walked through: matrices of some holding and load."""

    bending: Array
    push: Array

    @property
    def stretch_root(self) -> Array:
        """Root of the flexibility of the skin."""

    @property
    def at_rest(self) -> Give:
        """What the plate gives to a load while nothing is bent."""

    def curvatures(self, w: Array) -> Array:
        """w,xx w,yy w,xy at the Gauss points."""

    def stress_function(self, f: Array) -> Array:
        """F at the Gauss points."""

    def coupling(self, curved: Array) -> Array:
        """Bracket of a bent state with each deflection function, against each G."""

    def geometric(self, stress: Array) -> Array:
        """What tension adds to the stiffness."""

    def against_stress(self, field: Array) -> Array:
        """A field at the Gauss points against each G."""

    def against_bending(self, fields: Array) -> Array:
        """F times the curvatures of a state against each deflection function."""


@dataclass(frozen=True, slots=True)
class State:
    """A pane in balance: coefficients of the deflection and of Airy's function, at a scaled load."""

    load: float
    w: Array
    f: Array


@dataclass(frozen=True, slots=True)
class Stretch:
    """Series of load, w and F, true for s from 0 to `reach`."""

    load: Array
    w: Array
    f: Array
    reach: float
    top: float  #: load at the end

    def state(self, s: float) -> State:
        """The state at s."""
        powers = s ** np.arange(self.load.size)
        return State(float(powers @ self.load), powers @ self.w, powers @ self.f)

    def at_load(self, load: float) -> State:
        """The state at a load on this stretch; the load grows with s, so Newton with a bracket finds it."""
        low, high, order = 0.0, self.reach, np.arange(self.load.size)
        slope = order[1:] * self.load[1:]
        s = self.reach * (load - self.load[0]) / (self.top - self.load[0])
        for _ in range(60):
            powers = s**order
            excess = float(powers @ self.load) - load
            low, high = (low, s) if excess > 0 else (s, high)
            step = excess / float(powers[:-1] @ slope)
            s_next = s - step if low <= s - step <= high else (low + high) / 2
            if abs(s_next - s) <= 1e-15 * self.reach:
                break
            s = s_next
        return self.state(s)


@dataclass(frozen=True, slots=True)
class Series:
    """How many terms a stretch has, and which share of the first the last one may be where it ends."""

    order: int
    tolerance: float


EXACTLY = Series(24, 1e-8)
NEARLY = Series(12, 1e-4)  #: reaches about as far with half the terms, for where the state is mended after


class _Terms:
    """The series as it grows: coefficients and their values at the Gauss points."""

    def __init__(self, equations: Equations, start: State, order: int) -> None:
        self.equations = equations
        self.load, self.w, self.f = [start.load], [start.w], [start.f]
        curved, stress = equations.curvatures(start.w), equations.stress_function(start.f)
        self.curved = np.zeros((order + 1, *curved.shape))
        self.stress = np.zeros((order + 1, *stress.shape))
        self.curved[0], self.stress[0] = curved, stress

    def add(self, load: float, w: Array, f: Array) -> None:
        k = len(self.w)
        self.load.append(load)
        self.w.append(w)
        self.f.append(f)
        self.curved[k], self.stress[k] = self.equations.curvatures(w), self.equations.stress_function(f)

    def against_stress(self, k: int) -> Array:
        """What lower orders add to order k of 1/2 [w, w]."""
        up, down = self.curved[1:k], self.curved[k - 1 : 0 : -1]
        bracket = np.einsum("kxy,kxy->xy", up[:, 0], down[:, 1]) - np.einsum(
            "kxy,kxy->xy", up[:, 2], down[:, 2]
        )
        return self.equations.against_stress(bracket)

    def against_bending(self, k: int) -> Array:
        """What lower orders add to order k of [w, F]."""
        up, stress = self.curved[1:k], self.stress[k - 1 : 0 : -1]
        return self.equations.against_bending(np.einsum("kcxy,kxy->cxy", up, stress))


def stretch_from(equations: Equations, start: State, series: Series = EXACTLY) -> Stretch:
    """The series around a state."""
    if not start.w.any():
        return _from_rest(equations, start, series)
    terms = _Terms(equations, start, series.order)
    root = equations.stretch_root
    tangent, slanted = tangent_at(equations, terms.curved[0], terms.stress[0])
    give = flexible(tangent)
    lift = give(equations.push)
    swept = float(equations.push @ lift)
    for k in range(1, series.order + 1):
        if k == 1:
            inner, load, w = np.zeros(root.shape[0]), 1 / swept, lift / swept
        else:
            inner = root @ terms.against_stress(k)
            bent = give(terms.against_bending(k) - slanted.T @ inner)
            load = -float(equations.push @ bent) / swept
            w = bent + load * lift
        terms.add(load, w, -(root.T @ (slanted @ w + inner)))
    return _closed(equations, terms, series)


def _from_rest(equations: Equations, start: State, series: Series) -> Stretch:
    """The series from no load: pushed the other way the pane bends the other way and is stretched alike.

    So w and the load have odd terms only, and Airy's function even ones.
    """
    terms, root = _Terms(equations, start, series.order), equations.stretch_root
    give, still, none = equations.at_rest, np.zeros(start.w.size), np.zeros(root.shape[0])
    lift = give(equations.push)
    swept = float(equations.push @ lift)
    terms.add(1 / swept, lift / swept, none)
    for k in range(2, series.order + 1):
        if k % 2:
            bent = give(terms.against_bending(k))
            load = -float(equations.push @ bent) / swept
            terms.add(load, bent + load * lift, none)
        else:
            terms.add(0.0, still, -(root.T @ (root @ terms.against_stress(k))))
    return _closed(equations, terms, series)


def flexible(stiffness: Array) -> Give:
    """What a plate of that stiffness gives to a load: its inverse, ready to be used often."""
    try:
        root = inverse_root(stiffness)
    except np.linalg.LinAlgError:  # past the top of its path a slack plate resists no longer every way
        whole = np.linalg.inv(stiffness)
        return lambda load: np.asarray(whole @ load)
    return lambda load: np.asarray(root.T @ (root @ load))


def settled(equations: Equations, near: State) -> State:
    """The state in balance at the load of a state that is nearly so: Newton's method, [C]'s corrector.

    Only for a start that is already good: a path in fewer functions ends within its basin.
    """
    root, w = equations.stretch_root, near.w
    size = float(np.abs(near.load * equations.push).max())
    for _ in range(_CORRECTIONS):
        curved = equations.curvatures(w)
        f = -(root.T @ (root @ equations.against_stress(curved[0] * curved[1] - curved[2] ** 2)))
        stress = equations.stress_function(f)
        outer = equations.against_bending(curved * stress)
        excess = near.load * equations.push + outer - equations.bending @ w
        if np.abs(excess).max() <= BALANCE * size:
            break
        tangent, _ = tangent_at(equations, curved, stress)
        w = w + np.linalg.solve(tangent, excess)
    return State(near.load, w, f)


def tangent_at(equations: Equations, curved: Array, stress: Array) -> tuple[Array, Array]:
    """Stiffness against a small further deflection, and the root of what stretching adds to it."""
    slanted = equations.stretch_root @ equations.coupling(curved)
    return equations.bending - equations.geometric(stress) + slanted.T @ slanted, slanted


def _closed(equations: Equations, terms: _Terms, series: Series) -> Stretch:
    """The terms with the reach at which the last two still count for nothing."""
    load, w, f = np.array(terms.load), np.array(terms.w), np.array(terms.f)
    size = np.sqrt(np.maximum(np.einsum("ki,ki->k", w @ equations.bending, w), 0.0))
    reach = np.inf
    for k in (series.order - 1, series.order):
        for sizes in (size, np.abs(load)):
            if sizes[k] > 0:
                reach = min(reach, (series.tolerance * sizes[1] / sizes[k]) ** (1 / (k - 1)))
    return Stretch(load, w, f, float(reach), float(reach ** np.arange(load.size) @ load))
