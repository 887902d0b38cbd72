"""Stainless steel of bolts, screws and clips: the classes of ISO 3506-1.

[I] ISO 3506-1, grades A2 and A4: tensile and 0.2 % proof strength by class (read in a fastener maker's
    sheet).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Class = Literal[50, 70, 80]


@dataclass(frozen=True, slots=True)
class Stainless:
    """One property class."""

    number: Class
    rupture_mpa: float
    proof_mpa: float


CLASSES: dict[Class, Stainless] = {
    each.number: each
    for each in (Stainless(50, 500.0, 210.0), Stainless(70, 700.0, 450.0), Stainless(80, 800.0, 600.0))
}
