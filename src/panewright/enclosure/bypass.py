"""Bypass diodes in the junction box."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Bypass:
    """A bypass diode: I = I0 (exp((V - I Rs) / nVth) - 1), with its rating."""

    name: str
    saturation_a: float
    ideality_v: float
    series_ohm: float
    rated_a: float
    reverse_v: float
