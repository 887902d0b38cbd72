"""Ground that a post stands in, and surfaces that ballast lies on.

[I] IBC 2012 to 2021 table 1806.2 (read in public texts): vertical and lateral bearing, friction of
    foundations.
[P] Figures for EN: drained angle or undrained strength and weight of a loose or soft ground, bearing of a
    small shallow foot. Common practice, no source: EN 1997-1 has no table, the ground is to be looked at.
[F] Friction of concrete on what lies under it, wet. Common practice, no source, the low end of what is
    told: measure it on the surface itself. Ice leaves a tenth.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.units import PSF_PA

Ground = Literal["gravel", "sand", "clay"]
Surface = Literal["gravel", "sand", "clay", "concrete", "bitumen", "membrane", "ice"]

FOOT_M = 0.3048


@dataclass(frozen=True, slots=True)
class Soil:
    """One class of ground in both families' terms."""

    name: Ground
    asce_bearing_pa: float  #: [I] vertical
    asce_lateral_pa_m: float  #: [I] for each metre of depth
    en_bearing_pa: float  #: [P]
    friction_deg: float  #: [P] drained; 0 where the ground is reckoned by its cohesion
    cohesion_pa: float  #: [P] undrained
    weight_n_m3: float  #: [P]


def _soil(name: Ground, psf: float, psf_ft: float, en: tuple[float, float, float, float]) -> Soil:
    return Soil(name, psf * PSF_PA, psf_ft * PSF_PA / FOOT_M, *en)


_SOILS = {
    one.name: one
    for one in (
        _soil("gravel", 3000, 200, (150e3, 35.0, 0.0, 18e3)),
        _soil("sand", 2000, 150, (100e3, 30.0, 0.0, 17e3)),
        _soil("clay", 1500, 100, (75e3, 0.0, 30e3, 18e3)),
    )
}
_IBC_FRICTION = {"gravel": 0.35, "sand": 0.25}  # [I]
_WET_FRICTION: dict[Surface, float] = {
    "gravel": 0.40,
    "sand": 0.35,
    "clay": 0.25,
    "concrete": 0.45,
    "bitumen": 0.40,
    "membrane": 0.25,
    "ice": 0.10,
}


def soil(name: Ground) -> Soil:
    """The figures of a ground."""
    return _SOILS[name]


def friction(surface: Surface, family: Literal["ASCE", "EN"]) -> tuple[float, str]:
    """Coefficient of concrete on a wet surface, and where it comes from. [-]

    >>> friction("gravel", "ASCE")[0], friction("gravel", "EN")[0]
    (0.35, 0.4)
    """
    if family == "ASCE" and surface in _IBC_FRICTION:
        return _IBC_FRICTION[surface], "IBC table 1806.2 (read)"
    return _WET_FRICTION[surface], "wet, common practice, no source: measure it"
