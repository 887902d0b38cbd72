"""Strings side by side at their most watts, cooled down slowly: draws for the loops of `cooling`, compiled.

Loading the compiler takes half a second and the first compilation on a machine some seconds; so many
exchanges as are tried here would take minutes without it.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from types import FunctionType

import numpy as np

from panewright.compiling import code_folder, in_turn
from panewright.lots.matching.deal import Rules
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans import cooling
from panewright.lots.matching.vectors import Vectors, stand, summed

_COLD = 6e-7  # of a string's watts: what an exchange may lose at last
_EACH, _MOST = 120, 1_500_000  # exchanges for every pair of pieces, and no more than so many
_ROUNDS = 40  # of draws, each at one warmth
_POINTS = 80  # of a curve: few are enough, for the curve between them is bent


def cooled(vectors: Vectors, rules: Rules, strings: Whole, warmth: float) -> Whole:
    """The best deal met in so many exchanges by chance, begun with this one; as vectors see it.

    `warmth`: what an exchange may lose at first, as a share of a string's watts.
    """
    panels, each, length = strings.shape
    rows = np.concatenate([strings.reshape(-1, length), _left(rules, strings)])
    at = standing(vectors, strings)
    best, kinds = rows.copy(), np.append(rules.kinds, -1)
    tries = min(_MOST, _EACH * rules.size.size**2) // _ROUNDS
    dice, power = np.random.default_rng(0), at[-1]
    string_w = float(power[:panels].mean()) / each
    for bears in (string_w * np.geomspace(warmth, _COLD, _ROUNDS)).tolist():
        draws = np.column_stack([dice.integers(0, count, tries) for count in (strings.size, rows.size)])
        chance = bears * dice.exponential(size=tries)
        _loops()(rows, best, kinds, _like(rules), at, (draws, chance, np.empty(4)))
    return best[: panels * each].reshape(strings.shape)


def _left(rules: Rules, strings: Whole) -> Whole:
    """Pieces left over, in rows as long as strings."""
    left = np.setdiff1d(np.arange(rules.size.size), strings)
    rows = np.full((-(-left.size // strings.shape[2]), strings.shape[2]), -1, dtype=np.int64)
    rows.reshape(-1)[: left.size] = left
    return rows


def _like(rules: Rules) -> Whole:
    """Of every string of a panel the first that has the same seats."""
    seats = rules.seats
    parts = list(zip(seats.string_of_substring, seats.substrings, seats.driven, strict=True))
    own = [[part[1:] for part in parts if part[0] == s] for s in range(len(seats.strings))]
    return np.array([own.index(each) for each in own], dtype=np.int64)


def standing(vectors: Vectors, strings: Whole) -> cooling.Panels:
    """Curves of strings and pieces at fewer points; grid; where curves are met; volts and watts of panels."""
    each, length = strings.shape[1:]
    some = slice(None, None, max(1, vectors.current_a.size // _POINTS))
    curves = summed(vectors, strings.reshape(-1, length))[:, some] - vectors.taken_v[some]
    current, now = vectors.current_a[some], stand(vectors, summed(vectors, strings))
    grid = np.array([current[0], current[1] - current[0], vectors.lead_ohm])
    at = np.clip((now.string_a.reshape(-1) - grid[0]) / grid[1], 1, current.size - 2).astype(np.int64)
    volt = np.array(
        [np.interp(a, current, row) for a, row in zip(now.string_a[:, 0], curves[::each], strict=True)]
    )
    power = np.append(now.power_w, [0.0, 0.0])
    return np.ascontiguousarray(curves), np.ascontiguousarray(vectors.piece_v[:, some]), grid, at, volt, power


@cache
def _loops() -> Callable[..., object]:
    """`cooling.cooled` compiled with all that it calls."""
    import numba

    folder = code_folder((__file__, str(cooling.__file__)))
    setattr(numba.config, "CACHE_DIR", str(folder))  # noqa: B010 - it has no such name until it is set
    names = dict(vars(cooling))
    for name, each in vars(cooling).items():
        if isinstance(each, FunctionType):
            twin = FunctionType(each.__code__, names, name, each.__defaults__)
            twin.__module__ = cooling.__name__
            names[name] = numba.njit(cache=True, error_model="numpy")(twin)
    return in_turn(names["cooled"], folder, str(cooling.__file__))
