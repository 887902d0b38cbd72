"""The curve that a panel of chosen cells is predicted to have: points from short circuit to open circuit.

Points stand closer toward open circuit, where the curve bends; the best point is one of them.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.key_points import KeyPoints
from panewright.circuit.network import Network
from panewright.circuit.trials import currents_a
from panewright.lots.matching.deal import chosen
from panewright.lots.matching.pieces import Whole

Curve = tuple[tuple[float, float], ...]
_SHARES = np.concatenate([np.linspace(0.0, 0.7, 14, endpoint=False), np.linspace(0.7, 1.0, 26)])
_DIGITS = 5


def curves_of(
    network: Network, cells: Diodes, seats: Whole, points: Sequence[KeyPoints]
) -> tuple[Curve, ...]:
    """Volts and amperes of every panel with these cells in its seats, by the exact circuit."""
    if not len(seats):
        return ()
    volts = np.array([np.sort([*(_SHARES * each.voc_v), each.vmp_v]) for each in points])
    amps = np.maximum(currents_a(chosen(network, cells, seats), volts), 0.0)
    table = np.stack([volts, amps], axis=2).tolist()
    return tuple(tuple((_short(v), _short(a)) for v, a in rows) for rows in table)


def _short(figure: float) -> float:
    """With as many digits as a deal keeps of a curve."""
    return float(f"{figure:.{_DIGITS}g}") if figure > 1e-9 else 0.0
