"""What the array costs, what a kWh of it costs, and a ready-made panel beside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from panewright.array.plan.legs import taken
from panewright.array.plan.plan import Balance, Controlled, Leg, Placed
from panewright.array.sized import Prices
from panewright.array.worth import Beside, Kind, Life, Outlay, beside_bought, per_kwh, renewals_of
from panewright.order.site.site import Site

_WH = 1000.0
_CENT = Decimal("0.01")


@dataclass(frozen=True)
class Paid:
    """Money, in the site's currency."""

    capital: Decimal
    per_kwh: Decimal | None  #: of what is used; None where nothing is
    beside: Beside | None
    prices: Prices  #: for other sizes


def paid(
    site: Site,
    panels: Sequence[Placed],
    strings: int,
    legs: Sequence[Leg],
    got: tuple[Controlled, Balance | None],
) -> Paid:
    """All of it; `got` is what reaches the load or, without one, the controller's output."""
    money, (controlled, balance) = site.money, got
    rated_w = sum(panel.member.rated_w for panel in panels)
    wires = sum(taken(leg.chosen).price * leg.count for leg in legs)
    bank_kwh = site.bank.nominal_wh / _WH if site.bank else 0.0
    own = money.panel_w * _exact(rated_w) + money.string * strings
    bank = money.bank_kwh * _exact(bank_kwh)
    fixed = money.fixed + _exact(wires)
    life = Life(money.years, money.interest)
    hourly = site.generator.per_hour if site.generator else Decimal(0)
    prices = Prices(
        (own / strings).quantize(_CENT), money.bank_kwh, fixed.quantize(_CENT), money.a_year, hourly
    )
    kwh = float(balance.served_kwh.sum() if balance else controlled.output_kwh.sum())
    if not kwh > 0:
        return Paid((own + bank + fixed).quantize(_CENT), None, None, prices)
    renewed = renewals_of(bank, balance.bank_years, money.years) if balance else ()
    a_year = money.a_year + hourly * _exact(balance.generator_hours if balance else 0.0)
    cost = per_kwh(Outlay(own + bank + fixed, a_year, renewed), kwh, life)
    bought = Kind(money.bought_w, Life(money.bought_years, money.interest))
    beside = beside_bought(Kind(money.panel_w, life), bought, kwh / rated_w)
    return Paid((own + bank + fixed).quantize(_CENT), cost, beside, prices)


def _exact(amount: float) -> Decimal:
    return Decimal(f"{amount:.6f}")
