"""Points of one sweep in the order they were read, with the time and the light of each where known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from panewright.cell.root import Array
from panewright.curve.stuck import Mask


@dataclass(frozen=True, slots=True)
class RawSweep:
    """Raw points, of any signs and directions. Arrays run alongside each other; None where not known."""

    voltage_v: Array
    current_a: Array
    time_s: Array | None = None
    irradiance_w_m2: Array | None = None  #: at each point
    name: str = ""
    rising: bool | None = None  #: the way it was swept, where it is said
    before: Mapping[str, float] = field(default_factory=dict)  #: read before it: isc_a, irradiance_w_m2 ...
    after: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        beside = [each for each in (self.time_s, self.irradiance_w_m2) if each is not None]
        lengths = {np.shape(each) for each in (self.voltage_v, self.current_a, *beside)}
        if len(lengths) != 1 or len(next(iter(lengths))) != 1:
            raise ValueError(f"columns of a sweep are of one length, got {sorted(lengths)}")

    def __len__(self) -> int:
        return len(self.voltage_v)

    @property
    def light_w_m2(self) -> float | None:
        """Its mean light; None where no point says it."""
        light = self.irradiance_w_m2
        return None if light is None or np.all(np.isnan(light)) else float(np.nanmean(light))

    def at(self, places: Mask | slice) -> RawSweep:
        """Some of its points."""
        return replace(
            self,
            voltage_v=self.voltage_v[places],
            current_a=self.current_a[places],
            time_s=None if self.time_s is None else self.time_s[places],
            irradiance_w_m2=None if self.irradiance_w_m2 is None else self.irradiance_w_m2[places],
        )

    def turned(self, voltage: float, current: float) -> RawSweep:
        """The same with its signs turned by two factors."""
        return replace(self, voltage_v=voltage * self.voltage_v, current_a=current * self.current_a)
