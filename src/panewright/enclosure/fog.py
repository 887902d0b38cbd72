"""An air gap behind the pane: when it fogs.

Air shut in at the bench brings its damp along; a clear night cools the pane below the air, and below the
dew point of what is shut in. Water also comes through: a bead of silicone lets it pass almost like air, a
plastic back sheet even more, by its area. What comes in is

    water a day = permeance x (vapour outside - vapour inside)

until inside is as damp as outside. A desiccant takes it up first. When that is full, or where there is
none, the gap fogs in every clear night that would fog the same pane outside; only a vent lets it dry again
by day.

The damp outside is not in an order. It is taken as 75 % at the middle of the record heat and cold: common
practice, no source; near water it is more, in a dry land less.

[B] Water through cured silicone sealant: 15 to 20 g/m2 a day through 2 mm at 38 degC and 90 % (memory); pure
    silicone rubber passes three times that (36000 barrer, memory). Butyl tape: a hundredth (memory).
[D] Molecular sieve takes a fifth of its mass, whatever the humidity (a desiccant maker, seen).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.enclosure.moist_air import dew_point_c, saturation_pa, water_g_m3
from panewright.units import MM

Gap = Literal["vented", "sealed"]
SILICONE_G_M_DAY_PA = 17.0 * 0.002 / (0.9 * 6632.0)  #: [B] through a metre, a square metre, a pascal
TEST_PA = 0.9 * 6632.0  #: across a sheet whose loss is told at 38 degC and 90 %
SIEVE_SHARE = 0.2  #: [D]
OUTSIDE_HUMIDITY = 0.75
_DAYS = 365.25


@dataclass(frozen=True, slots=True)
class Enclosed:
    """The space and its walls."""

    volume_l: float
    bead_mm: float  #: its length, all round
    bead_high_mm: float  #: glue line: what the water walks through is as high
    bead_wide_mm: float  #: bite: and as wide
    back_m2: float
    back_g_m2_day: float  #: through the back at 38 degC and 90 %; 0 for glass and metal

    def __post_init__(self) -> None:
        if not min(self.volume_l, self.bead_mm, self.bead_high_mm, self.bead_wide_mm) > 0:
            raise ValueError(f"an air gap has room and a bead round it, got {self}")


@dataclass(frozen=True, slots=True)
class Damp:
    """Air at the bench, and the weather."""

    shop_c: float
    shop_humidity: float
    cold_c: float  #: record cold of the air
    heat_c: float  #: record heat
    night_drop_k: float  #: the pane below the air on a clear night
    desiccant_g: float = 0.0

    @property
    def mean_c(self) -> float:
        """The middle of the records. [degC]"""
        return (self.cold_c + self.heat_c) / 2

    @property
    def outside_pa(self) -> float:
        """Vapour in the air outside, over the year. [Pa]"""
        return OUTSIDE_HUMIDITY * saturation_pa(self.mean_c)

    @property
    def enclosed_pa(self) -> float:
        """Vapour in the air that the bench shuts in. [Pa]"""
        return self.shop_humidity * saturation_pa(self.shop_c)


@dataclass(frozen=True, slots=True)
class Fog:
    """When it fogs."""

    gap: Gap
    enclosed_dew_c: float  #: of the air shut in at the bench
    night_pane_c: float  #: of the pane on a usual clear night
    fogs_above: float  #: humidity outside at which a vented gap fogs on a clear night
    grams_a_day: float  #: of water that comes in while it is dry inside
    desiccant_days: float  #: that the desiccant takes it up
    damp_days: float  #: until the gap is as damp as outside, all but a third, without desiccant

    @property
    def clear_years(self) -> float:
        """Until it fogs on a usual clear night; none for a vented gap. [yr]"""
        if self.gap == "vented":
            return 0.0
        shut_in = 0.0 if self.enclosed_dew_c > self.night_pane_c else self.damp_days
        return (self.desiccant_days or shut_in) / _DAYS

    @property
    def sieve_g_a_year(self) -> float:
        """Molecular sieve that takes up a year's water. [g]"""
        return self.grams_a_day * _DAYS / SIEVE_SHARE


def grams_a_day_pa(space: Enclosed) -> float:
    """Water through bead and back for each pascal between outside and inside. [g/(d Pa)]"""
    bead_m2_m = space.bead_mm * space.bead_high_mm / space.bead_wide_mm * MM
    return SILICONE_G_M_DAY_PA * bead_m2_m + space.back_g_m2_day * space.back_m2 / TEST_PA


def fog(space: Enclosed, damp: Damp, gap: Gap) -> Fog:
    """When a gap fogs; a sealed one with desiccant is shut in dry.

    >>> space = Enclosed(10.0, 4200.0, 6.0, 9.0, 1.0, back_g_m2_day=0.0)
    >>> dry = fog(space, Damp(23.0, 0.5, -14.0, 37.0, 7.0, desiccant_g=60.0), "sealed")
    >>> round(dry.enclosed_dew_c, 1), round(dry.grams_a_day, 3), round(dry.clear_years, 1)
    (12.0, 0.016, 2.0)
    """
    permeance = grams_a_day_pa(space)
    a_day = permeance * damp.outside_pa
    night_c = damp.mean_c - damp.night_drop_k
    held_g_pa = water_g_m3(1.0, damp.mean_c) * space.volume_l / 1000
    taken_g = max(0.0, SIEVE_SHARE * damp.desiccant_g - _shut_in_g(space, damp))
    return Fog(
        gap=gap,
        enclosed_dew_c=dew_point_c(damp.enclosed_pa),
        night_pane_c=night_c,
        fogs_above=min(1.0, saturation_pa(night_c) / saturation_pa(damp.mean_c)),
        grams_a_day=a_day,
        desiccant_days=taken_g / a_day,
        damp_days=held_g_pa / permeance,
    )


def _shut_in_g(space: Enclosed, damp: Damp) -> float:
    """Water that the bench's own air brings along. [g]"""
    return water_g_m3(damp.enclosed_pa, damp.shop_c) * space.volume_l / 1000


def fog_check(found: Fog, wanted_years: float) -> Check:
    """The gap stays clear for as long as the order wants."""
    return Check(
        rule="air gap free of fog",
        demand=wanted_years,
        limit=found.clear_years,
        unit="yr",
        source="water through bead and back against the desiccant; permeability from memory",
        cure="Seal it with more desiccant and a back of glass or metal; or pour silicone, or laminate.",
        room="enclosure",
    )
