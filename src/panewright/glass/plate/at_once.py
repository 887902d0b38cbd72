"""One state of a plate under a hand, at once: few functions find it nearly, Newton's method in many exactly.

A path in few functions, each stretch of few terms, is walked quickly. Its state, with what the few functions
miss of the linear plate, is out of balance in many by less than a hundredth of the load. From there one
tangent serves every step of Newton's method: most leave a tenth of the last excess or less. Nothing is told
where that does not happen, where the tangent says that the plate gives way, or where one stretch of the path
is enough: then the path is walked in many functions. So is that of plates with a free side, whose state may
be another one than the few say, and of plates longer than the theory is asked for: the few, which grow with
the length, would be no fewer there.
"""

from __future__ import annotations

import numpy as np

from panewright.glass.plate.basis import Array
from panewright.glass.plate.held_path import HeldPath, few_functions
from panewright.glass.plate.inverse import inverse_root
from panewright.glass.plate.path import WIDEST
from panewright.glass.plate.stretch import BALANCE, NEARLY, Equations, State, tangent_at

_CORRECTIONS = 12  # three to seven are the rule
_NEAR = 0.03  # of the load may be out of balance to begin with
_SLOWEST = 0.8  # of the excess may be left by a step


def state_at(path: HeldPath, load: float, farthest: float) -> State | None:
    """The path's state at a load; None where the path is to be walked."""
    shape = path.equations.shape
    if not (shape.patches and all(shape.held) and shape.aspect <= WIDEST):
        return None
    few = HeldPath(shape, few_functions(shape), NEARLY)
    near, reached = few.at_load(load, farthest)
    if not reached or len(few.stretches) == 1:
        return None
    many = path.equations
    missed = many.at_rest(many.push) - _widened(few, few.equations.at_rest(few.equations.push), path)
    found = _settled(many, load, _widened(few, near.w, path) + load * missed)
    return found if found is not None and path.most(found) <= farthest else None


def _widened(few: HeldPath, w: Array, many: HeldPath) -> Array:
    """The same deflection in more functions: a longer list begins with the shorter one."""
    along, across = few.equations.bent_counts
    wide = np.zeros(many.equations.bent_counts)
    wide[:along, :across] = w.reshape(along, across)
    return wide.ravel()


def _settled(equations: Equations, load: float, w: Array) -> State | None:
    """The state in balance next to a deflection, by one tangent; None where it does not settle."""
    root, size = equations.stretch_root, float(np.abs(load * equations.push).max())
    turn, last = None, _NEAR / _SLOWEST
    for _ in range(_CORRECTIONS):
        curved = equations.curvatures(w)
        f = -(root.T @ (root @ equations.against_stress(curved[0] * curved[1] - curved[2] ** 2)))
        stress = equations.stress_function(f)
        excess = load * equations.push + equations.against_bending(curved * stress) - equations.bending @ w
        out = float(np.abs(excess).max()) / size
        if out <= BALANCE and turn is not None:
            return State(load, w, f)
        if not out <= _SLOWEST * last:
            return None
        turn = _root_of(tangent_at(equations, curved, stress)[0]) if turn is None else turn
        if turn is None:
            return None
        w, last = w + turn.T @ (turn @ excess), out
    return None


def _root_of(tangent: Array) -> Array | None:
    """Root of what the bent plate gives to a further load; None where it gives way."""
    try:
        return inverse_root(tangent)
    except np.linalg.LinAlgError:
        return None
