"""Strings side by side that gain or lose volts: how their currents at the panel's voltage follow, in steps.

A string that has a volt more than its panel gives more current there, one that has a volt less gives less.
The current's curve bends: each further volt brings less, each further one that is lacking costs more. So
steps of a few slopes keep a linear programme honest about strings whose voltages differ.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.lots.matching.vectors import Vectors

_ENDS = np.array([0.002, 0.004, 0.008, 0.016])  # of steps, as shares of the voltage


@dataclass(frozen=True, slots=True)
class Bends:
    """Of every string its voltage at its current, and slopes on either side of it."""

    volt_v: Array  #: (strings,)
    step_v: Array  #: (strings, steps): how wide each step is
    more_a: Array  #: (strings, steps): amperes for a volt more than the panel has
    less_a: Array  #: (strings, steps): amperes lost for a volt less

    @classmethod
    def of(cls, vectors: Vectors, strings_v: Array, current_a: Array) -> Bends:
        """Bends of strings, from their summed vectors (strings, points), at these currents."""
        curves, at = strings_v - vectors.taken_v, vectors.current_a
        pairs = list(zip(current_a.tolist(), curves, strict=True))
        volt = np.array([np.interp(amps, at, curve) for amps, curve in pairs])
        ends = np.concatenate([[0.0], _ENDS])
        above, below = (
            np.array(
                [
                    np.interp(v * (1 + sign * ends), curve[::-1], at[::-1])
                    for v, (_, curve) in zip(volt, pairs, strict=True)
                ]
            )
            for sign in (-1, 1)
        )
        step = np.diff(ends) * volt[:, None]
        return cls(volt, step, np.diff(above, axis=1) / step, -np.diff(below, axis=1) / step)
