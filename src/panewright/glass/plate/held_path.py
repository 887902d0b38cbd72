"""Every state of a plate in any holding from no load upward: one path for a shape, kept.

The path is walked as in `path`, a power series at a time. It ends where the load no longer grows: the pressed
rim of a very slack plate wrinkles there.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from panewright.glass.plate.galerkin import HeldEquations
from panewright.glass.plate.shape import Shape
from panewright.glass.plate.stretch import EXACTLY, Series, State, Stretch, stretch_from

_MOST_STRETCHES = 60
_EVEN, _BOTH = (14, 26), (16, 24)  # functions each way: of a square's side, and at most
_FEW_EVEN, _FEW_BOTH = 8, 12


class HeldPath:
    """The path of one shape, as far as it has been needed; it only ever grows."""

    def __init__(self, shape: Shape, counts: tuple[int, int] | None = None, series: Series = EXACTLY) -> None:
        self.equations = HeldEquations(shape, counts or _counts(shape))
        self.series = series
        self.stretches: list[Stretch] = []  # begun where the first state is asked for
        self.ended = False

    def at_load(self, load: float, farthest: float) -> tuple[State, bool]:
        """The state at a load, and whether the path reaches so far; else the state at its end.

        Past a scaled deflection of `farthest` nobody wants to know, and the path is not walked on.
        """
        if not self.stretches:
            self.stretches.append(stretch_from(self.equations, _still(self.equations), self.series))
        while self.stretches[-1].top < load and not self.ended and self.most(self._end) <= farthest:
            self._walk_on()
        part = next((part for part in self.stretches if load <= part.top), None)
        if part is None:
            return self._end, False
        state = part.at_load(load)
        return state, self.most(state) <= farthest

    @property
    def _end(self) -> State:
        """The last state so far."""
        return self.stretches[-1].state(self.stretches[-1].reach)

    def most(self, state: State) -> float:
        """Largest scaled deflection."""
        equations = self.equations
        w = state.w.reshape(equations.bent_counts)
        return float(np.abs(equations.x.bent[0] @ w @ equations.y.bent[0].T).max())

    def _walk_on(self) -> None:
        last = self.stretches[-1]
        more = stretch_from(self.equations, self._end, self.series)
        self.ended = not more.top > last.top * (1 + 1e-6) or len(self.stretches) >= _MOST_STRETCHES
        if not self.ended:
            self.stretches.append(more)


def _still(equations: HeldEquations) -> State:
    """The plate at rest."""
    return State(0.0, np.zeros(equations.push.size), np.zeros(int(np.prod(equations.pulled_counts))))


def _counts(shape: Shape) -> tuple[int, int]:
    """How many functions each way."""
    (least_x, most_x), (least_y, _) = (_EVEN if even else _BOTH for even in shape.even)
    more = 2 if shape.clips else 0
    return min(most_x, least_x + more + round(4 * (shape.aspect - 1))), least_y + more


def few_functions(shape: Shape) -> tuple[int, int]:
    """Enough to say nearly what the usual number says, where sides are held."""
    least_x, least_y = (_FEW_EVEN if even else _FEW_BOTH for even in shape.even)
    return least_x + round(2 * (shape.aspect - 1)), least_y


@lru_cache(maxsize=64)
def held_path(shape: Shape) -> HeldPath:
    """The path of a shape; asking again costs nothing."""
    return HeldPath(shape)
