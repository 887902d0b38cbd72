"""Offers side by side: what a delivered watt costs, with all that may go wrong in it.

Each offer is played through many times, with the same seed: drawn, made into panels, broken, and each panel
solved exactly as a circuit. What a delivered watt costs is the cost of all deliveries over the watts of all
panels that are sold: those that reach the rating, where one is asked. An order that no delivery completes has
its cost too. Offers are ranked by it; who fears bad luck more than he likes good luck adds `caution` times
the way from there to the worst twentieth of orders.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.root import Array
from panewright.circuit.mismatch.own_power import own_power_w
from panewright.circuit.trials import Trials, most_power
from panewright.lots.buying.metered import read
from panewright.lots.buying.needed import Needed, needed
from panewright.lots.buying.offer import Offer, drawn_cells
from panewright.lots.buying.order import Played, Want, played
from panewright.lots.buying.rate import Rate

ORDERS = 200
_TRIED, _LOTS = 20_000, 40  # cells, to know how many fall under the least grade; lots a sample may be of
NEVER = Decimal("Infinity")  #: what a watt costs where none is sold


@dataclass(frozen=True, slots=True)
class Compared:
    """One offer, played through."""

    offer: Offer
    need: Needed  #: the first delivery
    cost: Decimal  #: of the first delivery
    mean_cost: Decimal  #: of all deliveries
    per_watt: Decimal  #: all money over all watts sold; `NEVER` where none is
    per_watt_low: Decimal  #: 5 and 95 % of all orders lie under these
    per_watt_high: Decimal
    short: float  #: share of orders that have to buy again
    again_cost: Decimal  #: what those pay for it on average
    watts: float  #: of a panel, mean
    watts_low: float  #: 5 % of panels lie under it
    mismatch: float  #: loss against the sum of the cells, mean
    reached: float  #: share of wanted panels that are made and reach the rating
    undelivered: float  #: share of orders that no delivery completes
    rating_w: float | None  #: as asked
    per_watt_all: tuple[float, ...]  #: one for each order, in the order played

    def score(self, caution: float) -> float:
        """What offers are ranked by. [currency/W]"""
        mean, high = float(self.per_watt), float(self.per_watt_high)
        return mean + caution * max(high - mean, 0.0) if caution and mean < high else mean


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an offer stands where it stands, in words."""

    costs: str  #: what it costs and gives
    beside: str  #: against the best one; '' of that

    @property
    def words(self) -> str:
        """Both."""
        return f"{self.costs} {self.beside}".rstrip()


@dataclass(frozen=True, slots=True)
class Ranking:
    """Offers from the best on, and why."""

    offers: tuple[Compared, ...]
    reasons: tuple[Reason, ...]  #: one for each offer


def compare(
    offers: Sequence[Offer], want: Want, seed: int, orders: int = ORDERS, *, caution: float = 0.0
) -> Ranking:
    """Offers played through and ranked."""
    if not offers or orders < 2:
        raise ValueError(f"a comparison has an offer and two orders or more, got {len(offers)}, {orders}")
    found = [_compared(offer, want, seed, orders) for offer in offers]
    ranked = tuple(sorted(found, key=lambda each: (each.score(caution), -each.reached, each.mean_cost)))
    return Ranking(ranked, tuple(_reason(each, ranked[0]) for each in ranked))


def _compared(offer: Offer, want: Want, seed: int, orders: int) -> Compared:
    rates = (offer.defects, *want.steps, *_under_grade(offer, want, seed))
    need = needed(want.cells, rates, want.sure, offer.pack)
    dice = np.random.default_rng(seed)
    games = [played(offer, want, (need.packs, rates), dice) for _ in range(orders)]
    return _told((offer, want, need), games, _watts(games, want))


def _under_grade(offer: Offer, want: Want, seed: int) -> tuple[Rate, ...]:
    """Cells that are set aside because they are too weak, as a step of its own."""
    if not (offer.measured and want.least_w > 0):
        return ()
    dice = np.random.default_rng(seed)
    lots = 1 if offer.sample is None else _LOTS
    weak = [read(drawn_cells(offer, _TRIED // lots, dice), dice).power_w < want.least_w for _ in range(lots)]
    share = float(np.mean(weak))
    if share == 1.0:
        raise ValueError(f"{offer.name}: no cell reaches {want.least_w:g} W")
    return (Rate.known("under the least grade", share),)


def _watts(games: Sequence[Played], want: Want) -> tuple[Array, Array]:
    """Power of every panel, and of its cells one by one: (orders, panels); nothing of one not made."""
    names = Diodes.__slots__
    cells = Diodes(*(np.concatenate([getattr(game.cells, name) for game in games]) for name in names))
    parts = [part for string in want.network.strings for part in string.substrings]
    joints = np.array([ohm for part in parts for ohm in part.joints_ohm])
    own = own_power_w(replace(cells, series_ohm=cells.series_ohm + joints)).sum(axis=-1)
    power = most_power(Trials(want.network, cells)).power_w
    shape = (len(games), want.panels)
    made = np.arange(want.panels) < np.array([[game.made] for game in games])
    return power.reshape(shape) * made, own.reshape(shape) * made


def _told(asked: tuple[Offer, Want, Needed], games: Sequence[Played], watts: tuple[Array, Array]) -> Compared:
    """The orders of one offer as figures."""
    (offer, want, need), (power, own) = asked, watts
    made, first = power > 0, offer.cost(need.packs)
    reach = made if want.rating_w is None else power >= want.rating_w
    costs, sold = np.array([float(game.cost) for game in games]), (power * reach).sum(axis=1)
    each = np.divide(costs, sold, out=np.full(costs.shape, np.inf), where=sold > 0)
    again = [game.cost - first for game in games if game.deliveries > 1]
    low, high = np.quantile(each, 0.05, method="lower"), np.quantile(each, 0.95, method="higher")
    return Compared(
        offer=offer,
        need=need,
        cost=first,
        mean_cost=_money(float(costs.mean())),
        per_watt=_money(float(costs.sum() / sold.sum()) if sold.any() else np.inf, "0.0001"),
        per_watt_low=_money(float(low), "0.0001"),
        per_watt_high=_money(float(high), "0.0001"),
        short=len(again) / len(games),
        again_cost=_money(float(sum(again, Decimal(0))) / len(again)) if again else Decimal(0),
        watts=float(power[made].mean()) if made.any() else 0.0,
        watts_low=float(np.quantile(power[made], 0.05)) if made.any() else 0.0,
        mismatch=float(1 - power.sum() / own.sum()) if made.any() else 0.0,
        reached=float(reach.mean()),
        undelivered=float(np.mean([game.made < want.panels for game in games])),
        rating_w=want.rating_w,
        per_watt_all=tuple(each.tolist()),
    )


def _money(amount: float, step: str = "0.01") -> Decimal:
    return Decimal(repr(amount)).quantize(Decimal(step)) if np.isfinite(amount) else NEVER


def _reason(each: Compared, best: Compared) -> Reason:
    """An offer in words, beside the best."""
    odds = f"{each.need.bought} cells, enough with {min(each.need.sure, 0.999):.1%}"
    own = (
        f"{odds}, {each.watts:.1f} W a panel, {max(each.mismatch, 0.0):.2%} lost to unequal cells, "
        f"{each.short:.0%} of orders buy again{_sold(each)}"
    )
    if each.per_watt == NEVER:
        return Reason(f"{each.offer.name} sells nothing for {each.mean_cost}: {own}.", "")
    span = f"{each.per_watt_low} to {price_words(each.per_watt_high)}"
    costs = f"{each.offer.name} costs {each.per_watt} a watt ({span}): {own}."
    if each is best:
        return Reason(costs, "")
    ahead = float(np.mean(np.array(each.per_watt_all) < np.array(best.per_watt_all)))
    dearer = float(each.per_watt / best.per_watt - 1) if best.per_watt else 0.0
    beside = f"{dearer:.1%} more than {best.offer.name}; in {ahead:.0%} of orders it comes out cheaper"
    return Reason(costs, f"That is {beside}.")


def _sold(each: Compared) -> str:
    """How many panels count, and orders that were never complete; '' where all is well."""
    rated = "" if each.rating_w is None else f", {each.reached:.0%} of panels reach {each.rating_w:g} W"
    never = f", {each.undelivered:.0%} of orders are never complete" if each.undelivered else ""
    return rated + never


def price_words(per_watt: Decimal) -> str:
    """A price of a watt; in words where nothing is sold.

    >>> price_words(Decimal("0.5")), price_words(NEVER)
    ('0.5', 'nothing sold')
    """
    return "nothing sold" if per_watt == NEVER else str(per_watt)
