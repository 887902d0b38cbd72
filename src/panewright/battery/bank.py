"""A battery bank as a store: what it is, how long it lasts, what is asked of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from panewright.battery.load import Battery, Chemistry
from panewright.battery.window import Window, charge_window

LEAD, LFP = 0, 1


@dataclass(frozen=True, slots=True)
class Life:
    """How a chemistry ages."""

    cycles: float  #: to four fifths of the capacity, at the depth beside
    depth: float
    years: float  #: on a shelf at 25 degC
    halves_k: float  #: hotter by so much, the years are half; infinite where heat counts little
    idle_share: float  #: of its charge lost in a month of rest at 25 degC
    most_c_rate: float  #: charge, of C10 in an hour
    deepest: float  #: share of the capacity that is used, at most, in daily work


LIVES: dict[Chemistry, Life] = {
    "flooded": Life(1200.0, 0.5, 8.0, 10.0, 0.05, 0.2, 0.5),
    "agm": Life(600.0, 0.5, 8.0, 10.0, 0.03, 0.25, 0.5),
    "gel": Life(900.0, 0.5, 10.0, 10.0, 0.03, 0.2, 0.5),
    "lfp": Life(3500.0, 0.8, 15.0, 15.0, 0.02, 0.5, 0.9),
}
"""Common practice, no source: makers' sheets differ by half and more, so a bank's own figures win."""


@dataclass(frozen=True, slots=True)
class Bank:
    """A bank at its place."""

    battery: Battery
    capacity_ah: float  #: at ten hours, of the whole bank at its voltage
    bank_c: float = 20.0
    life: Life | None = None  #: its maker's; None for its chemistry's

    def __post_init__(self) -> None:
        if not 0 < self.capacity_ah < 1e6:
            raise ValueError(f"a bank has a capacity above 0 Ah, got {self.capacity_ah:g}")
        if not -40 <= self.bank_c <= 60:
            raise ValueError(f"a bank stands at -40 to 60 degC, got {self.bank_c:g}")

    @property
    def aging(self) -> Life:
        """How it ages."""
        return self.life or LIVES[self.battery.chemistry]

    @property
    def window(self) -> Window:
        """Its voltages at its temperature."""
        return charge_window(self.battery, self.bank_c)

    @property
    def nominal_wh(self) -> float:
        """Capacity by nominal voltage. [Wh]"""
        return self.capacity_ah * self.battery.nominal_v


class Store(NamedTuple):
    """The same as numbers, for the loops."""

    kind: int  #: LEAD or LFP
    cells: float
    capacity_ah: float
    bank_c: float
    absorption_v: float  #: of the whole bank
    empty_v: float  #: loads are cut off here
    lowest: float  #: state of charge at which they are, too
    most_a: float  #: charge
    idle_a: float  #: at full charge
    may_charge: bool


def store_of(bank: Bank) -> Store:
    """The bank as numbers."""
    window, life, lfp = bank.window, bank.aging, bank.battery.chemistry == "lfp"
    idle = life.idle_share * bank.capacity_ah / (365.25 / 12 * 24) * 2 ** ((bank.bank_c - 25) / 10)
    return Store(
        LFP if lfp else LEAD,
        float(window.cells),
        bank.capacity_ah,
        bank.bank_c,
        window.absorption_v,
        window.empty_v,
        1 - life.deepest,
        life.most_c_rate * bank.capacity_ah,
        idle,
        not lfp or bank.bank_c >= 0,
    )


def life_years(bank: Bank, discharged_ah_year: float) -> float:
    """Years until four fifths of the capacity are left, by throughput or by time, whichever comes first.

    The charge that passes in a life is about the same whether it passes in deep cycles or shallow ones:
    common practice.

    >>> bank = Bank(Battery("agm", 12.0), 100.0, bank_c=25.0)
    >>> life_years(bank, 600 * 0.5 * 100 / 4), life_years(bank, 0.0)
    (4.0, 8.0)
    """
    life = bank.aging
    shelf = life.years * 2 ** (-max(bank.bank_c - 25, 0.0) / life.halves_k)
    passed = life.cycles * life.depth * bank.capacity_ah
    return min(shelf, passed / discharged_ah_year) if discharged_ah_year > 0 else shelf
