"""What the panel charges: a battery behind a controller."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Chemistry = Literal["flooded", "agm", "gel", "lfp"]
ControllerKind = Literal["direct", "mppt"]


@dataclass(frozen=True, slots=True)
class Battery:
    """A battery bank by its kind and nominal voltage."""

    chemistry: Chemistry
    nominal_v: float


@dataclass(frozen=True, slots=True)
class Controller:
    """A charge controller: 'direct' joins the string to the battery by a switch (PWM)."""

    kind: ControllerKind
    most_v: float  #: highest open-circuit voltage its input bears
    drop_v: float  #: lost inside it while charging
    headroom_v: float = 0.0  #: an MPPT input must exceed the battery by this much
