"""A panel by the figures on its label, as far as wiring asks for them."""

from __future__ import annotations

import math
from dataclasses import dataclass

USUAL_VMP_PER_K = -0.005  #: of Vmp where nobody knows it: a poor silicon panel; common practice, no source


@dataclass(frozen=True, slots=True)
class Plate:
    """Standard conditions: 1000 W/m2, 25 degC."""

    serial: str
    voc_v: float
    vmp_v: float
    isc_a: float
    imp_a: float
    fuse_a: float  #: largest series fuse
    system_v: float = math.inf  #: largest system voltage
    voc_per_k: float | None = None  #: share of Voc, negative; None where nobody knows it
    vmp_per_k: float | None = None  #: share of Vmp, negative

    def __post_init__(self) -> None:
        if not (0 < self.vmp_v < self.voc_v < math.inf and 0 < self.imp_a < self.isc_a < math.inf):
            raise ValueError(f"{self.serial}: Vmp lies under Voc and Imp under Isc, all above 0, got {self}")
        if not (self.fuse_a > 0 and self.system_v > 0):
            raise ValueError(f"{self.serial}: fuse and system voltage are above 0, got {self}")
        if max(self.voc_per_k or 0.0, self.vmp_per_k or 0.0) > 0:
            raise ValueError(f"{self.serial}: silicon gives less voltage when warm: coefficients below 0")

    def hot_vmp_v(self, cell_c: float) -> float:
        """Vmp of hot cells, by the panel's own coefficient or that of a poor one. [V]"""
        per_k = USUAL_VMP_PER_K if self.vmp_per_k is None else self.vmp_per_k
        return max(0.0, self.vmp_v * (1 + per_k * (cell_c - 25.0)))


String = tuple[Plate, ...]
