"""The few figures that come with a cell."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Nameplate:
    """A cell at STC (1000 W/m2, AM1.5G, 25 degC cell), and how it drifts with heat."""

    isc_a: float
    voc_v: float
    imp_a: float
    vmp_v: float
    isc_per_k: float  #: relative change of Isc [1/K], positive
    voc_per_k: float  #: relative change of Voc [1/K], negative
