"""One thing that is not known of the light or of the heat; what an instrument leaves open is one of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from panewright.bench.rate.instrument import Instrument


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing, with its standard uncertainty: of light as a share of it, of heat in kelvin."""

    name: str
    sigma: float
    source: str = "common practice, no source"


def together(doubts: Iterable[Doubt]) -> float:
    """Of all of them, each by itself: the root of their squares (JCGM 100, 5.1.2, recalled)."""
    return sqrt(sum(doubt.sigma**2 for doubt in doubts))


def read_by(name: str, instrument: Instrument, reading: float) -> Doubt:
    """What an instrument leaves open, in the unit of its reading."""
    return Doubt(name, instrument.sigma(reading), instrument.source)


def share_read_by(name: str, instrument: Instrument, reading: float) -> Doubt:
    """The same as a share of the reading; of a reading of 0 there is none."""
    return Doubt(name, instrument.sigma(reading) / abs(reading) if reading else 0.0, instrument.source)
