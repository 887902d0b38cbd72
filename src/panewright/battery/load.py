"""What the panel charges: a battery behind a controller."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Chemistry = Literal["flooded", "agm", "gel", "lfp"]
ControllerKind = Literal["direct", "mppt"]


@dataclass(frozen=True, slots=True)
class Battery:
    """A battery bank by its kind and nominal voltage; its maker's voltages win over the usual ones."""

    chemistry: Chemistry
    nominal_v: float
    absorption_v: float | None = None  #: of the whole bank at 25 degC, from its maker
    float_v: float | None = None  #: of the whole bank at 25 degC, from its maker
    volts_per_k: float | None = None  #: of one cell, 0 or negative; from its maker

    def __post_init__(self) -> None:
        given = (self.nominal_v, self.absorption_v, self.float_v)
        if min(volts for volts in given if volts is not None) <= 0 or (self.volts_per_k or 0.0) > 0:
            raise ValueError(f"a battery has positive voltages which fall with heat, got {self}")


@dataclass(frozen=True, slots=True)
class Controller:
    """A charge controller: 'direct' joins the string to the battery by a switch (PWM)."""

    kind: ControllerKind
    most_v: float  #: highest open-circuit voltage its input bears
    drop_v: float  #: lost inside it while charging
    headroom_v: float = 0.0  #: an MPPT input must exceed the battery by this much
    efficiency: float = 0.96  #: of an MPPT converter, common practice; a direct one has only its drop

    def __post_init__(self) -> None:
        if self.most_v <= 0 or min(self.drop_v, self.headroom_v) < 0 or not 0 < self.efficiency <= 1:
            raise ValueError(f"a controller bears a voltage, drops 0 or more and wins nothing, got {self}")
