"""How hot and how cold the cells, the pane and the frame become where a panel stands.

Each figure is a steady heat balance of the panel's own layers (`climate/balance/`) in one kind of weather:

    hottest cell at work     record heat, 1000 W/m2, 1 m/s, giving its power
    usual cell               the same in air of 25 degC, or the record if lower
    hottest pane and rail    record heat, 1000 W/m2, dead calm, leads open
    coldest                  record cold, a clear calm night

The sky is clear throughout. The breeze of 1 m/s is that of the test of nominal cell temperature. A rail may
be anything between the air and the hottest rail: one side of a frame is in the sun, another in the shade.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from panewright.climate.balance.film import air_share
from panewright.climate.balance.layers import POURED, Layers
from panewright.climate.balance.rail import coldest_rail_c, hottest_rail_c
from panewright.climate.balance.steady import Heats, heats
from panewright.climate.balance.surroundings import Surroundings, clear_sky_c
from panewright.climate.reckoning import Reckoning
from panewright.climate.site import Site

Encapsulation = Literal["silicone pour", "film", "air gap"]

_FULL_SUN = 1000.0
_BREEZE_M_S = 1.0
_MILD_AIR_C = 25.0
_SPOT_C, _SPOT_W_M2 = 183.0, 2500.0  # solder of tin and lead melts; about the heat that gets a cell there
_LEAST_RISE_K = 10.0
_WALL_GAP_MM = 50.0  # nobody asks for it; common practice, no source


@dataclass(frozen=True, slots=True)
class Temperatures:
    """What the parts of a panel live through."""

    hot_cell_c: float  #: record heat, full sun, 1 m/s, at work: what the string's voltage is held against
    running_cell_c: float  #: usual sunny hour: 1000 W/m2, 25 degC air or the record if lower, 1 m/s
    hot_glass_c: float  #: record heat, full sun, dead calm, leads open: mean of the pane's faces
    hot_frame_c: float  #: the most a rail reaches in that hour
    hot_air_c: float  #: the record heat; the least the frame may have while the pane is hottest
    cold_c: float  #: the coldest of pane, frame and cells on a clear night at the record cold
    build_c: float  #: when pane and frame were joined
    reckoning: tuple[Reckoning, ...]
    # not a number where nobody reckoned them
    idle_cell_c: float = math.nan  #: the hottest a cell gets in full sun: dead calm, leads open
    hot_bead_c: float = math.nan  #: the hotter of the bead's neighbours, the pane's inner face and the rail
    cold_glass_c: float = math.nan  #: mean of the pane's faces on the cold night
    cold_frame_c: float = math.nan  #: the least a rail falls to that night
    breezy_cell_c: float = math.nan  #: record heat, full sun, 1 m/s, leads open
    hot_cover_c: float = math.nan  #: the pane's hottest face in that calm hour
    spot_k_m2_w: float = math.nan
    """Kelvin that such a cell gets hotter for each W/m2 of further heat, on the way to `spot_c`. [K m2/W]"""
    sun_heat_w_m2: float = math.nan  #: what the full sun puts into such a cell

    @property
    def cold_bead_c(self) -> float:
        """The colder of the bead's neighbours. [degC]"""
        return min(self.cold_glass_c, self.cold_frame_c)


@dataclass(frozen=True, slots=True)
class _Hours:
    """The balances that the figures are read from."""

    work: Heats
    usual: Heats
    still: Heats
    night: Heats
    hot_rail_c: float
    cold_rail_c: float


@lru_cache(maxsize=64)
def temperatures(
    site: Site, layers: Layers = POURED, build_c: float = 20.0, *, spot_c: float = _SPOT_C
) -> Temperatures:
    """What cells, pane and frame of such layers live through at a site; `spot_c` is what a cell may reach.

    Kept for the next round, which mostly asks the same again.
    """
    hours = _hours(site, layers)
    still, night = hours.still, hours.night
    breezy_c, spot_k_m2_w = _shedding(site, layers, spot_c)
    return Temperatures(
        hot_cell_c=hours.work.cell_c,
        running_cell_c=hours.usual.cell_c,
        hot_glass_c=still.pane_c,
        hot_frame_c=hours.hot_rail_c,
        hot_air_c=site.record_heat_c,
        cold_c=min(night.pane_c, night.cell_c, hours.cold_rail_c),
        build_c=build_c,
        reckoning=_steps(site, hours, build_c),
        idle_cell_c=still.cell_c,
        hot_bead_c=max(still.cover_c, hours.hot_rail_c),
        hot_cover_c=max(still.face_c, still.cover_c),
        cold_glass_c=night.pane_c,
        cold_frame_c=hours.cold_rail_c,
        breezy_cell_c=breezy_c,
        spot_k_m2_w=spot_k_m2_w,
        sun_heat_w_m2=layers.cell_takes * _FULL_SUN,
    )


def _hours(site: Site, layers: Layers) -> _Hours:
    calm, night = _sunny(site, site.record_heat_c, 0.0), _night(site)
    still, dark = heats(layers.idle, calm), heats(layers.idle, night)
    return _Hours(
        work=heats(layers, _sunny(site, site.record_heat_c, _BREEZE_M_S)),
        usual=heats(layers, _sunny(site, _usual_air_c(site), _BREEZE_M_S)),
        still=still,
        night=dark,
        hot_rail_c=hottest_rail_c(still.cover_c, calm),
        cold_rail_c=coldest_rail_c(dark.cover_c, night),
    )


def _shedding(site: Site, layers: Layers, spot_c: float) -> tuple[float, float]:
    """An idle cell in a breeze, and its rise for each W/m2 of further heat.

    The hotter a cell, the better it sheds. The rise is that of the whole way to `spot_c`, so a cell is told
    to pass it just when it does; one that stays cooler is up to 6 K hotter than this rise tells.
    """
    breeze = _sunny(site, site.record_heat_c, _BREEZE_M_S)
    idle_c = heats(layers.idle, breeze).cell_c

    def rise(heat_w_m2: float) -> float:
        return (heats(layers.idle, breeze, heat_w_m2).cell_c - idle_c) / heat_w_m2

    heat_w_m2 = _SPOT_W_M2
    for _ in range(2):  # then it meets `spot_c` within a few tenths of a kelvin
        heat_w_m2 = max(_LEAST_RISE_K, spot_c - idle_c) / rise(heat_w_m2)
    return idle_c, rise(heat_w_m2)


def _sunny(site: Site, air_c: float, wind_m_s: float) -> Surroundings:
    return _around(site, air_c, sun_w_m2=_FULL_SUN, wind_m_s=wind_m_s)


def _night(site: Site) -> Surroundings:
    return _around(site, site.record_cold_c, sun_w_m2=0.0, wind_m_s=0.0)


def _around(site: Site, air_c: float, *, sun_w_m2: float, wind_m_s: float) -> Surroundings:
    """Weather under a clear sky at the site; on high ground the air is thin and takes less heat."""
    return Surroundings(
        air_c,
        clear_sky_c(air_c),
        sun_w_m2,
        wind_m_s,
        site.tilt_deg,
        _gap_mm(site),
        air_share(site.altitude_m),
    )


def _gap_mm(site: Site) -> float | None:
    """What the air behind the panel has of room; None in the open."""
    if site.in_the_open:
        return None
    return site.roof_gap_mm if site.mounting == "roof-parallel" else _WALL_GAP_MM


def _usual_air_c(site: Site) -> float:
    return min(_MILD_AIR_C, site.record_heat_c)


def _steps(site: Site, hours: _Hours, build_c: float) -> tuple[Reckoning, ...]:
    heat_c, cold_c, still, night = site.record_heat_c, site.record_cold_c, hours.still, hours.night
    rows = (
        ("record heat of the air", heat_c),
        ("clear sky above it, radiating as at", clear_sky_c(heat_c)),
        ("hottest pane, 1000 W/m², dead calm, leads open", still.pane_c),
        ("hottest cell then", still.cell_c),
        ("hottest rail then, in the sun; in the shade the air's heat", hours.hot_rail_c),
        ("hottest bead then, as its hotter neighbour", max(still.cover_c, hours.hot_rail_c)),
        ("hottest cell at work, 1000 W/m², 1 m/s", hours.work.cell_c),
        (f"usual cell, 1000 W/m², {_usual_air_c(site):g} °C air, 1 m/s", hours.usual.cell_c),
        ("record cold of the air", cold_c),
        ("clear sky above it, radiating as at", clear_sky_c(cold_c)),
        ("coldest pane, a clear calm night", night.pane_c),
        ("coldest cell then", night.cell_c),
        ("coldest rail then", hours.cold_rail_c),
        ("pane and frame joined at", build_c),
    )
    told = tuple(Reckoning(words, value, "degC") for words, value in rows)
    if site.altitude_m == 0:
        return told
    words = f"weight of the air {site.altitude_m:g} m above the sea over that at the sea"
    return *told, Reckoning(words, air_share(site.altitude_m), "-")
