"""The lay-up settled under the wind on its own size."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from panewright.climate.site import RAILS_MM, Site, Size
from panewright.climate.snow.snow import SnowLoad, snow_pressure
from panewright.climate.wind.load import WindLoad, wind_pressures
from panewright.order.order import Order
from panewright.panel.electric import electrical
from panewright.panel.settling import Asked, Taken, settle
from panewright.shelf.shelf import Shelf
from panewright.units import MM

_SIZES = 4  # an end for rounds in which the size and the wind on it chase each other


def asked_of(order: Order, shelf: Shelf) -> Asked:
    """What the site does; the rail stands above the pane's low edge, so snow does not slide off."""
    return Asked(order, shelf, *_weather(order.site), electrical.read_cells(order))


@lru_cache(maxsize=8)
def _weather(site: Site) -> tuple[WindLoad, SnowLoad]:
    """Kept, for sizes of one catalogue stand on one site."""
    return wind_pressures(site), snow_pressure(site, free_to_slide=False)


def settled(first: Asked) -> tuple[Asked, Taken]:
    """The lay-up settled; where the wind asks for its size, settled again under the wind on that size."""
    asked, taken = first, settle(first)
    if not first.order.site.by_roof_rule:
        return asked, taken
    size = _size(taken)
    for _ in range(_SIZES):
        asked = replace(first, wind=wind_pressures(first.order.site, size))
        taken = settle(asked)
        found = _size(taken)
        if found.area_m2 >= size.area_m2 and found.long_mm <= size.long_mm:
            break
        size = Size(min(size.area_m2, found.area_m2), max(size.long_mm, found.long_mm))
    return asked, taken


def _size(taken: Taken) -> Size:
    """The pane's area, and its long side up the slope with the rails round it."""
    pane = taken.held.pane
    return Size(pane.long_mm * pane.short_mm * MM**2, pane.long_mm + RAILS_MM)
