"""What a kWh costs over the life of an array, and what a hand-built panel may cost beside a bought one.

    simple      (capital x CRF + cost a year) / energy a year, CRF = i (1 + i)^n / ((1 + i)^n - 1)
    whole       all costs brought to today / all energy brought to today; energy falls by the degradation,
                from the second year on

Energy is what is used: an off-grid array's spilt light pays for nothing. Costs fall at the end of their year.
A battery that is renewed leaves nothing at the end. A panel's life and degradation are judged apart: it
carries its price over its own life, so a cheap panel that fails early is not cheap.

[LCOE] a national laboratory's simple levelised cost of energy (seen); degradation 0.5 % a year: Jordan and
       Kurtz 2013, median of nearly 2000 rates (seen).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

DEGRADATION = 0.005  #: a year [LCOE]
_SHOWN = Decimal("0.0001")  #: of a currency's unit: a kWh costs cents, whose tenths matter
_KEPT_DIGITS = 9


@dataclass(frozen=True, slots=True)
class Life:
    """How long, at which interest, and what is lost each year."""

    years: int
    rate: float  #: interest a year above inflation
    degradation: float = DEGRADATION

    def __post_init__(self) -> None:
        if self.years < 1 or not 0 <= self.rate < 1 or not 0 <= self.degradation < 1:
            raise ValueError(
                f"a life has a year or more, interest and degradation from 0 up to 1, got {self}"
            )


@dataclass(frozen=True, slots=True)
class Renewal:
    """Something bought anew in a later year."""

    year: int
    cost: Decimal


@dataclass(frozen=True, slots=True)
class Outlay:
    """What an array costs, in one currency."""

    capital: Decimal
    a_year: Decimal
    renewals: tuple[Renewal, ...] = ()

    def __post_init__(self) -> None:
        if min(self.capital, self.a_year, *(renewal.cost for renewal in self.renewals)) < 0:
            raise ValueError(f"costs are 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of panel."""

    per_w: Decimal  #: price of a watt
    life: Life


@dataclass(frozen=True, slots=True)
class Beside:
    """A hand-built panel and a bought one of the same watts."""

    own_per_kwh: Decimal  #: of the panel alone
    bought_per_kwh: Decimal
    break_even_per_w: Decimal  #: what a hand-built watt may cost to give a kWh at the bought one's cost

    @property
    def own_pays(self) -> bool:
        """Whether the hand-built panel's kWh is not dearer."""
        return self.own_per_kwh <= self.bought_per_kwh


def capital_recovery(rate: float, years: int) -> float:
    """What each year has to give back of 1 spent today. [1/year] [LCOE]

    >>> round(capital_recovery(0.05, 25), 10), capital_recovery(0.0, 25)
    (0.0709524573, 0.04)
    """
    if rate == 0:
        return 1 / years
    return rate / -math.expm1(-years * math.log1p(rate))


def years_worth(rate: float, years: int) -> float:
    """What 1 in each year is worth today. [years]"""
    return 1 / capital_recovery(rate, years)


def simple_per_kwh(outlay: Outlay, kwh_a_year: float, life: Life) -> Decimal:
    """Cost of a kWh that does not become less over the years; renewals are left out. [LCOE]"""
    _asked(kwh_a_year)
    yearly = float(outlay.capital) * capital_recovery(life.rate, life.years) + float(outlay.a_year)
    return _kept(yearly / kwh_a_year)


def per_kwh(outlay: Outlay, first_kwh: float, life: Life) -> Decimal:
    """Cost of a kWh with degradation and renewals, all brought to today. [LCOE]"""
    _asked(first_kwh)
    late = [renewal.year for renewal in outlay.renewals if not 0 < renewal.year <= life.years]
    if late:
        raise ValueError(f"renewals fall in years 1 to {life.years}, got {late}")
    renewed = sum(float(renewal.cost) / (1 + life.rate) ** renewal.year for renewal in outlay.renewals)
    running = float(outlay.a_year) * years_worth(life.rate, life.years)
    return _kept((float(outlay.capital) + running + renewed) / (first_kwh * energy_worth(life)))


def energy_worth(life: Life) -> float:
    """All energy of a life, brought to today, against its first year's. [years]

    >>> round(energy_worth(Life(25, 0.0)) / 25, 8)
    0.94223806
    """
    kept, grown = 1 - life.degradation, 1 + life.rate
    return sum(kept ** (year - 1) / grown**year for year in range(1, life.years + 1))


def renewals_of(cost: Decimal, lasts_years: float, years: int) -> tuple[Renewal, ...]:
    """A thing bought anew whenever it is worn out; in a life's last year nobody buys another.

    >>> [renewal.year for renewal in renewals_of(Decimal(400), 7.5, 25)]
    [8, 15, 23]
    """
    if not lasts_years > 0:
        raise ValueError(f"a thing lasts longer than 0 years, got {lasts_years}")
    worn = (math.ceil(lasts_years * n - 1e-9) for n in range(1, math.ceil(years / lasts_years) + 1))
    return tuple(Renewal(year, cost) for year in worn if year < years)


def beside_bought(own: Kind, bought: Kind, kwh_per_w: float) -> Beside:
    """Both carry their price over their own lives; `kwh_per_w` is what a watt gives in its first year."""
    _asked(kwh_per_w)
    own_kwh, bought_kwh = (kwh_per_w * energy_worth(kind.life) for kind in (own, bought))
    return Beside(
        own_per_kwh=_kept(float(own.per_w) / own_kwh),
        bought_per_kwh=_kept(float(bought.per_w) / bought_kwh),
        break_even_per_w=_kept(float(bought.per_w) * own_kwh / bought_kwh),
    )


def shown(per_unit: Decimal, currency: str, unit: str = "kWh") -> str:
    """A price of a small unit as it is written, to a hundredth of a cent.

    >>> shown(Decimal("0.113145898"), "EUR")
    '0.1131\u2009EUR/kWh'
    """
    return f"{per_unit.quantize(_SHOWN, rounding=ROUND_HALF_UP)}\u2009{currency}/{unit}"


def _asked(kwh: float) -> None:
    if not 0 < kwh < math.inf:
        raise ValueError(f"energy of a year is above 0 kWh, got {kwh}")


def _kept(amount: float) -> Decimal:
    return Decimal(repr(round(amount, _KEPT_DIGITS)))
