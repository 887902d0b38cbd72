"""The shaded cells of a design: how many watts, how hot, and whether they stay cool enough.

The panel is short-circuited in full sun at STC: the worst it can be held at, and cold cells push harder than
warm ones. One cell is shaded as badly as can be. The panel stands in the site's record heat with a breeze of
1 m/s; its leads joined, it gives no power away. What further heat does to a cell of this build is read off
the panel's own heat balance. Cells that differ only by a few milliohm of bus are judged once.

Before there is a lay-up, the same rule says how many cells may lie under one diode.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from panewright.cell.diode import Diode
from panewright.cell.model import CellModel
from panewright.check import Check
from panewright.circuit.hot.guard import FILM_GIVES_WAY_C, SOLDER_MELTS_C, HeatLimit
from panewright.circuit.hot.heat import Cooling, HotHeat, Spread, hot_heat, spot_bears_w
from panewright.circuit.hot.shades import Shades
from panewright.circuit.hot.spot import HotSpot, hottest
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.place import CellAt
from panewright.climate.heat import Encapsulation, Temperatures
from panewright.enclosure.bypass import FIRST_DROP_V
from panewright.panel.electric.wiring import Wired


@dataclass(frozen=True, slots=True)
class Hot:
    """The worst shaded cell of a design."""

    spot: HotSpot
    absorbed_w: float  #: what that cell takes in
    heat: HotHeat
    spot_radius_mm: float  #: of the one spot of the upper bound
    spot_bears_w: float  #: watts in one such spot that stay within the limit, the cell in full sun
    checks: tuple[Check, ...]


def judge_hot(
    wired: Wired, network: Network, heat: Temperatures, encapsulation: Encapsulation = "silicone pour"
) -> Hot:
    """The cell that becomes hottest in its worst shade, and its rule; `network` is the panel at STC."""
    cooling = cooling_of(heat)
    judged = [_judged(wired, network, places, cooling, encapsulation) for places in _alike(network)]
    return max(judged, key=lambda hot: hot.heat.even_c)


@lru_cache(maxsize=64)
def most_cool_cells(most: int, cell: Diode, limit: HeatLimit) -> int:
    """Cells under one bypass diode, no more than `most`, of which a shaded one stays within the limit.

    One at least: where even a pair gets too hot, diodes are of no help. Ribbons are left out; they only help.
    """

    def too_hot(count: int) -> bool:
        return not limit.check(_under_a_diode(cell, count)).passed

    near = _near(most, cell.breakdown_v, cell.saturation_a)  # where it was last: mostly where it is again
    guess = near[-1] if near else most
    low, high = (guess + 1, most) if not too_hot(guess) else (1, guess - 1)
    if guess < low <= high and too_hot(low):
        high = low - 1
    found = low - 1 + bisect_left(range(low, high + 1), True, key=too_hot)
    near[:] = [max(1, found)]
    return near[0]


@lru_cache(maxsize=32)
def _near(_most: int, _breakdown_v: float, _saturation_a: float) -> list[int]:
    """The answer for the last cell of that kind, behind another pane: where to look first, no more."""
    return []


def heat_limit(
    model: CellModel, wafer_mm: float, heat: Temperatures, encapsulation: Encapsulation
) -> HeatLimit:
    """What such a cell may reach where the panel stands."""
    return _limit(Spread(model.area_mm2, wafer_mm=wafer_mm), cooling_of(heat), encapsulation)


def most_c(encapsulation: Encapsulation) -> float:
    """Temperature at which joints let go, or the film where there is one. [degC]"""
    return FILM_GIVES_WAY_C if encapsulation == "film" else SOLDER_MELTS_C


@lru_cache(maxsize=128)
def _under_a_diode(cell: Diode, count: int) -> HotSpot:
    """The worst shade of one of so many cells, driven by the others and by the diode's drop.

    Kept, for the same cell is asked for again behind panes that shed its heat otherwise.
    """
    run = Substring((cell,) * count, (0.0,) * count)
    return hottest(Network((String((run,)),)), CellAt(0, 1), at=-FIRST_DROP_V)


def cooling_of(heat: Temperatures) -> Cooling:
    """Record heat, full sun, a breeze: the line through the idle cell and one at its limit.

    That line meets no heat at all above the record heat, as the hotter a cell, the better it sheds.
    """
    k_m2_w, sun_w_m2 = heat.spot_k_m2_w, heat.sun_heat_w_m2
    return Cooling(heat.breezy_cell_c - k_m2_w * sun_w_m2, k_m2_w, sun_w_m2)


def absorbed_w(network: Network, place: CellAt, shades: Sequence[float]) -> tuple[float, ...]:
    """What one cell takes in under each share of shade, the panel short-circuited. [W]"""
    held = Shades(network, place, np.asarray(shades, dtype=float)).held(np.array(0.0))
    return tuple(float(watts) for watts in held.absorbed_w)


def _alike(network: Network) -> tuple[tuple[CellAt, ...], ...]:
    """Places of one kind of cell under as many, together."""
    found: dict[object, list[CellAt]] = {}
    for s, string in enumerate(network.strings):
        number = 1
        for substring in string.substrings:
            last, places = None, list[CellAt]()
            for k, cell in enumerate(substring.cells):
                if cell is not last:  # mostly they are one
                    kind = (cell, len(substring.cells), substring.bypass, len(string.substrings))
                    last, places = cell, found.setdefault(kind, [])
                places.append(CellAt(s, number + k))
            number += len(substring.cells)
    return tuple(tuple(places) for places in found.values())


def _judged(
    wired: Wired,
    network: Network,
    places: tuple[CellAt, ...],
    cooling: Cooling,
    encapsulation: Encapsulation,
) -> Hot:
    spot = replace(hottest(network, places[0]), alike=len(places))
    model = wired.models[(places[0].number - 1) % len(wired.models)]
    wafer = wired.layup.cells[0].shape.thickness_mm
    spread = Spread(model.area_mm2 * (1 - _cut_off(wired, places[0])), wafer_mm=wafer)
    limit = _limit(spread, cooling, encapsulation)
    return Hot(
        spot=spot,
        absorbed_w=max(0.0, spot.absorbed_w),
        heat=hot_heat(spot, spread, cooling),
        spot_radius_mm=spread.spot_radius_mm,
        spot_bears_w=spot_bears_w(limit.most_c, spread, cooling),
        checks=(limit.check(spot),),
    )


def _cut_off(wired: Wired, place: CellAt) -> float:
    """Share of a cell's area behind a crack, which sheds none of its heat. [-]"""
    number = place.string * wired.layup.plan.in_series + place.number
    return next((each.cut_off for each in wired.unlike if each.number == number), 0.0)


def _limit(spread: Spread, cooling: Cooling, encapsulation: Encapsulation) -> HeatLimit:
    """What the joints bear, and the film where there is one."""
    if encapsulation == "film":
        return HeatLimit(spread, cooling, most_c(encapsulation), "film gives way, common practice")
    return HeatLimit(spread, cooling)
