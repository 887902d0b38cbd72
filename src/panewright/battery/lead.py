"""A lead-acid cell of 2 V: its voltage while charged and discharged, and what of a charge it keeps.

[C] J. B. Copetti, E. Lorenzo, F. Chenlo, A general battery model for PV system simulation, Progress in
    Photovoltaics 1, 1993, p. 283 (its constants recalled). With s for the state of charge, I for the current,
    C10 for the capacity at ten hours, dT = T - 25:

        discharge  V = 2.085 - 0.12 (1 - s) - I/C10 (4 / (1 + I^1.3) + 0.27 / s^1.5 + 0.02) (1 - 0.007 dT)
        charge     V = 2 + 0.16 s + I/C10 (6 / (1 + I^0.86) + 0.48 / (1 - s)^1.2 + 0.036) (1 - 0.025 dT)
                   and no higher than (2.45 + 2.011 ln(1 + I/C10)) (1 - 0.002 dT), where it only gasses
        kept       1 - exp(20.73 (s - 1) / (I/I10 + 0.55))

The bare I of 1 + I^1.3 belongs to a cell of some 100 Ah; here it is that of such a cell, so that a bank twice
as large at twice the current has the same voltage.
"""

from __future__ import annotations

from math import exp, log1p

REFERENCE_AH, REFERENCE_C = 100.0, 25.0
_EMPTY, _FULL = 0.02, 0.995  #: states of charge at which the terms that run away are held
REST_EMPTY_V, REST_RISE_V = 1.965, 0.12  #: of a cell at rest, empty, and what it rises until full [C]


def lead_rest_v(s: float) -> float:
    """Voltage at rest of a cell at a state of charge. [V]

    >>> round(6 * lead_rest_v(1.0), 2), round(6 * lead_rest_v(0.5), 2)
    (12.51, 12.15)
    """
    return REST_EMPTY_V + REST_RISE_V * s


def lead_discharge_v(s: float, c_rate: float, cell_c: float) -> float:
    """Voltage of a cell that gives `c_rate` times C10 in an hour. [V]"""
    amps, held = REFERENCE_AH * c_rate, max(s, _EMPTY)
    within = 4.0 / (1.0 + amps**1.3) + 0.27 / held**1.5 + 0.02
    return float(lead_rest_v(s) - c_rate * within * (1.0 - 0.007 * (cell_c - REFERENCE_C)))


def lead_charge_v(s: float, c_rate: float, cell_c: float) -> float:
    """Voltage of a cell that is given `c_rate` times C10 in an hour, up to where it only gasses. [V]"""
    amps, held, warm = REFERENCE_AH * c_rate, min(s, _FULL), cell_c - REFERENCE_C
    within = 6.0 / (1.0 + amps**0.86) + 0.48 / (1.0 - held) ** 1.2 + 0.036
    volts = 2.0 + 0.16 * held + c_rate * within * (1.0 - 0.025 * warm)
    return float(min(volts, (2.45 + 2.011 * log1p(c_rate)) * (1.0 - 0.002 * warm)))


def lead_kept(s: float, c_rate: float) -> float:
    """Share of a charge that stays in the cell; the rest gasses. [-]

    >>> round(lead_kept(0.5, 0.1), 4), lead_kept(1.0, 0.1)
    (0.9988, 0.0)
    """
    return 1.0 - exp(20.73 * (min(s, 1.0) - 1.0) / (10.0 * c_rate + 0.55))
