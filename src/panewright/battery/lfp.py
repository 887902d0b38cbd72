"""A lithium iron phosphate cell of 3.2 V: its voltage while charged and discharged.

[T] Voltage at rest over state of charge: a table of the common shape, from memory; cells of makers differ by
    some 10 mV on the plateau.
[R] Resistance with what diffusion adds over an hour: 1.5 milliohm in a cell of 100 Ah, common practice.
    Of a charge 99.5 % come out again, common practice.
"""

from __future__ import annotations

LFP_OHM_AH = 0.15  #: resistance times capacity [R] [ohm Ah]
LFP_KEPT = 0.995  #: of a charge [R]
_PLACES = (0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0)
_REST_V = (2.80, 3.10, 3.18, 3.23, 3.26, 3.28, 3.29, 3.30, 3.32, 3.33, 3.335, 3.34, 3.42)  # [T]


def lfp_rest_v(s: float) -> float:
    """Voltage at rest of a cell at a state of charge. [V]

    >>> round(4 * lfp_rest_v(0.5), 2), round(lfp_rest_v(-1.0), 2)
    (13.16, 2.8)
    """
    at, k = min(max(s, 0.0), 1.0), 0
    while k < len(_PLACES) - 2 and _PLACES[k + 1] < at:
        k += 1
    share = (at - _PLACES[k]) / (_PLACES[k + 1] - _PLACES[k])
    return _REST_V[k] + share * (_REST_V[k + 1] - _REST_V[k])


def lfp_v(s: float, c_rate: float) -> float:
    """Voltage of a cell; `c_rate` is above 0 while it is charged. [V]"""
    return lfp_rest_v(s) + LFP_OHM_AH * c_rate


def lfp_held_v(s: float) -> float:
    """Integral of the voltage at rest from an empty cell to a state of charge: energy over capacity. [V]

    >>> round(lfp_held_v(0.05), 4)
    0.1475
    """
    at, k, held = min(max(s, 0.0), 1.0), 0, 0.0
    while k < len(_PLACES) - 2 and _PLACES[k + 1] < at:
        held += 0.5 * (_REST_V[k] + _REST_V[k + 1]) * (_PLACES[k + 1] - _PLACES[k])
        k += 1
    return held + 0.5 * (_REST_V[k] + lfp_rest_v(at)) * (at - _PLACES[k])
