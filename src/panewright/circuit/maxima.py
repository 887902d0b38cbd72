"""Every maximum of a panel's power, and a proof that none higher was overlooked.

The proof is that of `solver/crest`. For all maxima a piece in which the power may turn over is cut on until
it is a hundredth of a per cent of the walk, however low it lies: so every hump is found that is wider than
that, and the highest in any case.
"""

from __future__ import annotations

from functools import lru_cache

from panewright.cell.key_points import KeyPoints
from panewright.circuit.network import Network
from panewright.circuit.solver.panel import Panel
from panewright.circuit.solver.walk import Pool

_LEVEL = 1e-10  # of the current: how near to the very top
_APART = 1e-4  # of the walk: tops nearer than this are one


def key_points(network: Network) -> KeyPoints:
    """Isc, Voc and the greatest power of a panel.

    A panel whose poles are the wrong way round gives nothing here: its Isc and Voc are told as 0.
    """
    panel = Panel.of(network)
    isc, voc = short_circuit_a(network), panel.volt(0.0)
    if not (isc > 0 and voc > 0):
        return KeyPoints(max(isc, 0.0), max(voc, 0.0), 0.0, 0.0)
    pool, best = panel.greatest(_LEVEL)
    current, volt = float(pool.current[best]), float(pool.volt[best])
    lit = current > 0 and volt > 0  # else rounding is all there is, as behind an open joint
    return KeyPoints(isc, voc, current, volt) if lit else KeyPoints(isc, voc, 0.0, 0.0)


def power_maxima(network: Network) -> tuple[KeyPoints, ...]:
    """All maxima of a panel's power, the greatest first; in the dark one of nothing."""
    panel = Panel.of(network)
    isc, voc = short_circuit_a(network), panel.volt(0.0)
    if not (isc > 0 and voc > 0):
        return (KeyPoints(max(isc, 0.0), max(voc, 0.0), 0.0, 0.0),)
    tops = _tops(panel)
    most = max(at for at, _, _ in tops)
    kept: list[tuple[float, float, float]] = []
    for top in sorted(tops, key=lambda each: -each[1] * each[2]):
        if all(abs(top[0] - other[0]) > _APART * most for other in kept):
            kept.append(top)
    return tuple(KeyPoints(isc, voc, current, volt) for _, current, volt in kept)


@lru_cache(maxsize=128)
def short_circuit_a(network: Network) -> float:
    """Current of a panel whose leads are joined; kept, for its shaded cells are judged by it too. [A]"""
    return Panel.of(network).held(0.0)[1]


def _tops(panel: Panel) -> list[tuple[float, float, float]]:
    """Place on the walk, current and voltage of every top, the greatest among them."""
    return [_point(*panel.greatest(_LEVEL)), *panel.humps(_LEVEL)]


def _point(pool: Pool, i: int) -> tuple[float, float, float]:
    return float(pool.at[i]), float(pool.current[i]), float(pool.volt[i])
