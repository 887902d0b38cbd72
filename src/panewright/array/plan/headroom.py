"""Wires by what the hottest string leaves them.

In record heat a string works lowest, while the battery asks for its absorption voltage: what lies between is
all that the runs before the controller may take. Where the runs that cost least take more, thicker ones are
taken: of all pairs that keep every rule and leave enough, the one of least cost over life.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import product

from panewright.array.limits import string_hot_v
from panewright.array.plan.legs import DOWN, STRINGS, chosen_again, lost_v
from panewright.array.plan.plan import Leg, Placed
from panewright.array.plan.strung import Strung, least_v
from panewright.order.site.site import Site
from panewright.wire.chosen import Option
from panewright.wire.rules import Run

_WHY = "what the hottest string leaves over the controller's least voltage: physics"
_HAIR_V = 1e-9


def headroom_v(site: Site, panels: Sequence[Placed], found: Strung, hot_c: float) -> float:
    """What the runs before the controller may take; less than nothing where no wire serves. [V]"""
    strings = (tuple(panels[p].plate for p in row) for rows in found.inputs for row in rows)
    return min(string_hot_v(string, hot_c) for string in strings) - least_v(site)


def thick_enough(site: Site, legs: Sequence[Leg], spare_v: float) -> tuple[Leg, ...]:
    """The runs, thicker where they take more than `spare_v`; as they are where none serves."""
    if site.box.straight or lost_v(legs) <= spare_v:
        return tuple(legs)
    before = [leg for leg in legs if leg.name in (STRINGS, DOWN)]
    serving = [
        pair
        for pair in product(*(_offered(leg) for leg in before))
        if sum(row.drop_v for row in pair) <= spare_v
    ]
    if not serving:
        return tuple(legs)
    best = min(serving, key=lambda pair: _cost(before, pair))
    all_v = sum(row.drop_v for row in best)
    most_v = {leg.name: spare_v - all_v + row.drop_v for leg, row in zip(before, best, strict=True)}
    return tuple(_held(site, leg, most_v[leg.name]) if leg in before else leg for leg in legs)


def _offered(leg: Leg) -> list[Option]:
    """Sizes that keep every other rule; the thickest where none does."""
    return [row for row in leg.chosen.looked_at if row.holds] or [leg.chosen.looked_at[-1]]


def _cost(before: Sequence[Leg], pair: Sequence[Option]) -> float:
    return sum(leg.count * row.cost for leg, row in zip(before, pair, strict=True))


def _held(site: Site, leg: Leg, most_v: float) -> Leg:
    """A run that may lose no more than that, nor more than it might before."""
    share = (most_v + _HAIR_V) / leg.run.working_v
    if share >= leg.run.drop_share or leg.chosen.taken is None:
        return leg
    run: Run = replace(leg.run, drop_share=share, drop_why=_WHY)
    return chosen_again(site, leg, run)


def heat_cure(legs: Sequence[Leg], spare_v: float, usual: str) -> str:
    """What would let the hottest string finish the charge."""
    if spare_v <= 0:
        return (
            f"No wire serves: without any, hot panels lie {-spare_v:.2f}\u2009V too low. Put more panels or "
            "cells in series."
        )
    thick = [leg.chosen.looked_at[-1] for leg in legs if leg.name in (STRINGS, DOWN)]
    least = sum(row.drop_v for row in thick)
    if least <= spare_v:
        return usual
    names = " and ".join(dict.fromkeys(row.size.name for row in thick))
    return (
        f"Hot panels leave {spare_v:.2f}\u2009V for the runs, and the thickest as sold ({names}) "
        f"take {least:.2f}\u2009V: shorten them to {100 * spare_v / least:.0f}\u2009% of their length, or "
        "put more panels or cells in series."
    )
