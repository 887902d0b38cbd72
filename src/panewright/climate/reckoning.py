"""One step of a calculation, written so that a doubting engineer can follow it by hand."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Reckoning:
    """What was taken or found, its number and its unit."""

    words: str
    value: float
    unit: str

    def __str__(self) -> str:
        unit = "" if self.unit == "-" else f" {self.unit}"
        return f"{self.words}: {self.value:.4g}{unit}"
