"""What panels drive without a battery: a heater, or a direct-current motor with a fan or a centrifugal pump.

A motor with a field of its own, a permanent magnet's, gives back E = k w and pulls with T = k I:

    V = k w + R I,    k I = T0 + c w^2

T0 is friction, c the drag of fan or pump. From standing it must first overcome a greater friction. So current
rises with voltage along one line, and falls along the panels': there is one working point [A].

Affinity laws [K]: flow goes with the speed, head with its square, shaft power with its cube. With them a
pump's curve at any speed follows from the one at its rated speed,

    H = a w^2 - b Q^2,    and a pipe asks for  H = lift + r Q^2

[A] J. Appelbaum, IEEE Trans. Energy Conversion EC-1, 1986, p. 17: motors on solar generators (recalled).
[K] I. Karassik and others, Pump Handbook, chapter on centrifugal pumps: affinity laws (recalled).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

WATER_N_M3 = 998.2 * 9.80665  #: weight of water at 20 degC
_HOUR_S = 3600.0
_BEST_PUMP = 0.92  # no centrifugal pump turns more of its shaft's power into water
_RPM = 2 * math.pi / 60


@dataclass(frozen=True, slots=True)
class Heater:
    """A resistance; its figure is its voltage."""

    ohm: float
    most_v: float

    def __post_init__(self) -> None:
        _must_be_above_0("a heater", self.ohm, self.most_v)

    def volt(self, at: Floats) -> Floats:
        """Voltage. [V]"""
        return at

    def amp(self, at: Floats) -> Floats:
        """Current. [A]"""
        return at / self.ohm

    @property
    def most(self) -> float:
        """Its greatest voltage."""
        return self.most_v

    @property
    def still_ohm(self) -> float:
        """Its own."""
        return self.ohm

    @property
    def start_a(self) -> float:
        """Any current heats."""
        return 0.0


@dataclass(frozen=True, slots=True)
class Motor:
    """A motor by its plate; what turns on its shaft is apart. Its winding from its sheet or an ohmmeter."""

    rated_v: float
    rated_a: float
    rpm: float
    ohm: float
    friction_nm: float = 0.0  #: of its bearings and seals, turning
    start_nm: float = 0.0  #: of the same, standing
    most_v: float = 0.0  #: that it bears; 0 for its rated voltage

    def __post_init__(self) -> None:
        _must_be_above_0("a motor", self.rated_v, self.rated_a, self.rpm, self.ohm)
        if not (self.rated_a * self.ohm < self.rated_v and 0 <= self.friction_nm < self.k * self.rated_a):
            raise ValueError(
                f"a motor drops less than its voltage, and its friction less than its pull: {self}"
            )
        if not (self.start_nm == 0 or self.start_nm >= self.friction_nm) or not 0 <= self.most_v < math.inf:
            raise ValueError(f"standing friction is no less than turning, voltages are 0 or more, got {self}")

    @property
    def k(self) -> float:
        """Volts a radian a second, newton metres an ampere."""
        return (self.rated_v - self.rated_a * self.ohm) / (self.rpm * _RPM)


@dataclass(frozen=True, slots=True)
class Fan:
    """A fan by one point; its flow goes with its speed."""

    rpm: float
    flow_m3_h: float
    shaft_w: float

    def __post_init__(self) -> None:
        _must_be_above_0("a fan", self.rpm, self.flow_m3_h, self.shaft_w)

    @property
    def drag(self) -> float:
        """Torque over the square of the speed. [N m s2]"""
        return self.shaft_w / (self.rpm * _RPM) ** 3

    def flow(self, speed: Floats) -> Floats:
        """Air at a speed in radians a second. [m3/h]"""
        return np.asarray(self.flow_m3_h * speed / (self.rpm * _RPM))


@dataclass(frozen=True, slots=True)
class Pipe:
    """How high and through what water is lifted."""

    lift_m: float  #: from the water's face to the outlet
    friction_m: float = 0.0  #: lost in pipe and bends at the flow beside
    at_m3_h: float = 1.0

    def __post_init__(self) -> None:
        if not (
            0 <= self.lift_m < math.inf and 0 <= self.friction_m < math.inf and 0 < self.at_m3_h < math.inf
        ):
            raise ValueError(f"a pipe lifts and rubs 0 m or more, at a flow above 0, got {self}")


@dataclass(frozen=True, slots=True)
class Pump:
    """A centrifugal pump at its rated speed: head at no flow, and one point with the shaft's power there."""

    rpm: float
    shut_m: float
    flow_m3_h: float
    head_m: float
    shaft_w: float
    pipe: Pipe

    def __post_init__(self) -> None:
        _must_be_above_0("a pump", self.rpm, self.shut_m, self.flow_m3_h, self.head_m, self.shaft_w)
        if not self.head_m < self.shut_m:
            raise ValueError(f"a pump's head falls with the flow: {self.head_m} m lies under {self.shut_m} m")
        if not self.best_share < _BEST_PUMP:
            raise ValueError(f"no pump makes {self.best_share:.0%} of its shaft's power into water: {self}")

    @property
    def drag(self) -> float:
        """Torque over the square of the speed. [N m s2]"""
        return self.shaft_w / (self.rpm * _RPM) ** 3

    @property
    def falls(self) -> float:
        """By how much head falls with the square of the flow. [h2/m5]"""
        return (self.shut_m - self.head_m) / self.flow_m3_h**2

    @property
    def best_share(self) -> float:
        """Of the shaft's power, what is in the water at the best flow."""
        best = math.sqrt(self.shut_m / (3 * self.falls))
        return WATER_N_M3 * best / _HOUR_S * 2 / 3 * self.shut_m / self.shaft_w

    def flow(self, speed: Floats) -> Floats:
        """Water at a speed in radians a second; none while the head does not reach the lift. [m3/h]

        >>> small = Pump(2900, 20.0, 3.0, 12.0, 250.0, Pipe(8.0))
        >>> small.flow(np.array([2900, 2000, 1700]) * np.pi / 30).round(2).tolist()
        [3.67, 1.3, 0.0]
        """
        rubs = self.pipe.friction_m / self.pipe.at_m3_h**2
        over = self.shut_m * (speed / (self.rpm * _RPM)) ** 2 - self.pipe.lift_m
        return np.asarray(np.sqrt(np.maximum(over, 0.0) / (self.falls + rubs)))


@dataclass(frozen=True, slots=True)
class Turning:
    """A motor with what it turns; its figure is its speed in radians a second."""

    motor: Motor
    load: Fan | Pump

    def volt(self, at: Floats) -> Floats:
        """Voltage at a speed. [V]"""
        return np.asarray(self.motor.k * at + self.motor.ohm * self.amp(at))

    def amp(self, at: Floats) -> Floats:
        """Current at a speed. [A]"""
        return np.asarray((self.motor.friction_nm + self.load.drag * np.asarray(at) ** 2) / self.motor.k)

    @property
    def most_v(self) -> float:
        """Voltage that the motor bears."""
        return self.motor.most_v or self.motor.rated_v

    @property
    def most(self) -> float:
        """Speed at that voltage: of R c / k w^2 + k w + R T0 / k = V."""
        motor, drag = self.motor, self.load.drag
        square, left = motor.ohm * drag / motor.k, self.most_v - motor.ohm * motor.friction_nm / motor.k
        return 2 * left / (motor.k + math.sqrt(motor.k**2 + 4 * square * left))

    @property
    def still_ohm(self) -> float:
        """The winding."""
        return self.motor.ohm

    @property
    def start_a(self) -> float:
        """Current that overcomes the friction of standing."""
        return max(self.motor.start_nm, self.motor.friction_nm) / self.motor.k


Line = Heater | Turning
"""A load by one figure that rises from 0: its voltage, or its speed."""


def _must_be_above_0(name: str, *figures: float) -> None:
    if not all(0 < figure < math.inf for figure in figures):
        raise ValueError(f"{name} has figures above 0, got {', '.join(f'{figure:g}' for figure in figures)}")
