"""Resistance and voltage drop of a two-core run of copper.

R = 2 l r (1 + 0.00393 (T - 20)), r from the tables of `sizes`: out and back, at the conductor's temperature.
"""

from __future__ import annotations

from panewright.check import Check
from panewright.wire.cable import Cable
from panewright.wire.sizes import COPPER_PER_K, size_of

DROP_SHARE = 0.03  #: of the working voltage; common practice


def ohm_per_m(area_mm2: float, temperature_c: float = 20.0) -> float:
    """Resistance of a metre of one conductor. [ohm/m]

    >>> round(1000 * ohm_per_m(4.0), 2)
    5.09
    """
    return size_of(area_mm2).ohm_per_m * (1 + COPPER_PER_K * (temperature_c - 20.0))


def resistance_ohm(cable: Cable, temperature_c: float = 20.0) -> float:
    """Resistance of both conductors together. [ohm]"""
    return 2 * cable.one_way_m * ohm_per_m(cable.area_mm2, temperature_c)


def drop_v(cable: Cable, current_a: float, temperature_c: float = 20.0) -> float:
    """Voltage lost out and back. [V]

    >>> round(drop_v(Cable(one_way_m=10.0, area_mm2=4.0), 8.0), 4)
    0.8144
    """
    return current_a * resistance_ohm(cable, temperature_c)


def drop_check(cable: Cable, current_a: float, working_v: float, temperature_c: float = 20.0) -> Check:
    """The run loses no more than a small share of the working voltage."""
    return Check(
        rule="voltage lost in the cable",
        demand=drop_v(cable, current_a, temperature_c),
        limit=DROP_SHARE * working_v,
        unit="V",
        source="3 % of the working voltage: common practice",
        cure="Take a thicker or a shorter cable.",
        room="wire",
    )
