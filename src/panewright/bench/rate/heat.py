"""How hot the cells were, and how that was known.

    back sensor    T = T_back + 3 K G / 1000 on an open rack (figure of an open library after King 2004, seen)
    infrared gun   the same, but a gun sees emissivity and sky as well: 2.5 K (common practice, no source)
    Voc itself     T = 25 + (Voc1 / Voc - 1 / f) / (beta f) (procedure 2 of IEC 60891 turned round; IEC
                   60904-5 has the thought); Voc at STC is then what it was taken for, and is not rated
    the air        Faiman's rise above the air: 5 K (common practice, no source)

Each is a rule, not a number: with the light moved by its uncertainty the cells' temperature moves too.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.bench.rate.doubt import Doubt, read_by, together
from panewright.bench.rate.instrument import Instrument
from panewright.climate.rise import faiman_c
from panewright.curve.moved.coefficients import STC_C, STC_W_M2, Coefficients
from panewright.errors import BenchError, Problem

How = Literal["back sensor", "infrared gun", "Voc itself", "the air"]
BEHIND_K, BEHIND_SIGMA_K = 3.0, 1.0  #: open rack, full sun; scatter by common practice
GUN_SIGMA_K = 2.5
AIR_SIGMA_K = 5.0
COLDEST_C, HOTTEST_C = -40.0, 120.0  #: cells of a panel that is swept


@dataclass(frozen=True, slots=True)
class Heat:
    """A rule for the cells' temperature, and how sure it is."""

    how: How
    read_c: float  #: behind the panel or in the air; what Voc tells has none: 25
    doubts: tuple[Doubt, ...]
    behind_k: float = 0.0  #: cells over their back in full sun
    wind_m_s: float = 0.0
    by_voc: Coefficients | None = None  #: with the Voc at STC that was taken for true
    instrument: Instrument | None = None

    @property
    def unrated(self) -> tuple[str, ...]:
        """Figures that cannot be rated by such a temperature."""
        return ("voc_v", "vmp_v") if self.how == "Voc itself" else ()

    @property
    def sigma_k(self) -> float:
        """One standard uncertainty, in a light that is known."""
        return together(self.doubts)

    def cell_c(self, light_w_m2: float, voc_v: float | None = None) -> float:
        """The cells in that light; `BenchError` where it cannot be. [degC]"""
        found = self._cell_c(light_w_m2, voc_v)
        if not COLDEST_C < found < HOTTEST_C:
            reason = f"No cell in the sun is that hot or cold: {COLDEST_C:g} to {HOTTEST_C:g} degC."
            cure = "Look at the reading, its unit, and where the sensor sat."
            raise BenchError([Problem(reason, cure, key=f"heat by {self.how}", value=f"{found:.4g} degC")])
        return found

    def _cell_c(self, light_w_m2: float, voc_v: float | None) -> float:
        if self.how == "the air":
            return faiman_c(light_w_m2, self.read_c, self.wind_m_s)
        if self.by_voc is None:
            return self.read_c + self.behind_k * light_w_m2 / STC_W_M2
        if voc_v is None:
            reason = "The sweep ends short of open circuit, so Voc tells no temperature."
            raise BenchError([Problem(reason, "Sweep past open circuit, or measure behind the panel.")])
        fall = self.by_voc.fall(light_w_m2)
        share = voc_v / self.by_voc.voc_v - 1 / fall
        return STC_C + share / (self.by_voc.beta_per_k.value * fall)


def by_back(
    back_c: float, sensor: Instrument, behind_k: float = BEHIND_K, behind_sigma_k: float = BEHIND_SIGMA_K
) -> Heat:
    """By a sensor stuck to the back, behind a cell."""
    doubts = (
        read_by("back sensor", sensor, back_c),
        Doubt("cells over their back", behind_sigma_k),
        Doubt("cells unlike each other", 1.0),
    )
    return Heat("back sensor", back_c, doubts, behind_k, instrument=sensor)


def by_gun(back_c: float, gun: Instrument, behind_k: float = BEHIND_K) -> Heat:
    """By an infrared gun on the back; never on the glass, which mirrors the sky."""
    doubts = (
        read_by("infrared gun", gun, back_c),
        Doubt("emissivity and mirrored sky", GUN_SIGMA_K),
        Doubt("cells over their back", BEHIND_SIGMA_K),
        Doubt("cells unlike each other", 1.0),
    )
    return Heat("infrared gun", back_c, doubts, behind_k, instrument=gun)


def by_voc(predicted: Coefficients, voc_share: float = 0.01) -> Heat:
    """By Voc itself, taken for the predicted one to a share of it (common practice: 1 %)."""
    per_k = abs(predicted.beta_per_k.value)
    doubts = (Doubt("Voc taken for true", voc_share / per_k),)  # its slope is moved with the coefficients
    return Heat("Voc itself", STC_C, doubts, by_voc=predicted)


def by_air(air_c: float, wind_m_s: float, thermometer: Instrument) -> Heat:
    """By the air and the wind: where nothing else is at hand."""
    doubts = (
        read_by("thermometer", thermometer, air_c),
        Doubt("rise above the air", AIR_SIGMA_K),
    )
    return Heat("the air", air_c, doubts, wind_m_s=wind_m_s, instrument=thermometer)
