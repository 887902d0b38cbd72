"""How far readings may be off, one standard deviation each; and where nothing was written down."""

from __future__ import annotations

from dataclasses import dataclass, fields


@dataclass(frozen=True, slots=True)
class Trust:
    """Errors of readings from row to row, and those that all rows share.

    What all rows share moves every cell alike: it does not blur which cell is better, and is told apart.
    Common practice of a bench with one good hand meter, no source; a better one is worth its own figures.
    """

    current_share: float = 0.003  #: of each current, from reading to reading
    voltage_share: float = 0.002  #: of each voltage
    light_share: float = 0.005  #: of the light, from row to row
    heat_k: float = 0.5  #: of the cell's heat, from row to row [K]
    top_share: float = 0.005  #: by which Imp is read too high and Vmp as much too low: the top is flat
    shunt_share: float = 0.2  #: of a shunt resistance, as a factor
    reverse_share: float = 0.3  #: of a reverse current, as a factor; the law itself is rough there
    current_digit_a: float = 0.0  #: last digit of a current, as a standard deviation
    voltage_digit_v: float = 0.0
    meter_ohm: float = 0.0  #: of the ammeter and its leads while Isc was read
    common_light_share: float = 0.03  #: of the light, the same in all rows
    common_current_share: float = 0.01  #: of the currents: the meter's gain
    common_voltage_share: float = 0.005
    common_heat_k: float = 1.5
    unread_light_share: float = 0.02  #: from row to row where no light was written down
    unread_heat_k: float = 4.0
    unread_common_heat_k: float = 10.0  #: of all rows alike where no heat was written down

    def __post_init__(self) -> None:
        for each in fields(self):
            if not 0 <= getattr(self, each.name) < float("inf"):
                raise ValueError(f"an error is zero or more, got {each.name} {getattr(self, each.name)}")
        if not (self.current_share > 0 and self.voltage_share > 0):
            raise ValueError(f"no meter reads without error, got {self}")


@dataclass(frozen=True, slots=True)
class Moment:
    """Light and heat of the rows that do not tell them; None: not known either."""

    irradiance_w_m2: float | None = None
    cell_c: float | None = None
