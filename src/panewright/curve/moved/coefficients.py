"""What a panel does with heat and light: the coefficients by which its curves are moved.

Shares refer to Isc and Voc at STC. Each procedure has a series resistance of its own: procedure 1 takes the
voltage's rise with light for a drop in it, procedure 2 has a term for that rise.

[I] IEC 60891:2021, procedures 1 and 2 (form recalled; the form of 2009 seen in a public routine).
[T] 5, 50 and 95 % of 20 946 crystalline modules of a public list: alpha 0.00024, 0.00051, 0.00095, beta
    -0.0040, -0.0034, -0.0028 per kelvin (derived).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, log
from typing import Literal

Whence = Literal["measured curves", "the panel's own circuit", "a nameplate", "recalled"]

STC_W_M2, STC_C = 1000.0, 25.0


@dataclass(frozen=True, slots=True)
class Coefficient:
    """One figure, its standard uncertainty, and where it comes from."""

    value: float
    sigma: float
    whence: Whence

    def __post_init__(self) -> None:
        if not (isfinite(self.value) and 0 <= self.sigma < float("inf")):
            raise ValueError(f"a coefficient is a number with an uncertainty of 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class Series:
    """Series resistance of one procedure, and its curve correction with heat."""

    ohm: Coefficient
    kappa_ohm_k: Coefficient


@dataclass(frozen=True, slots=True)
class Coefficients:
    """All that procedures 1 and 2 ask of one panel."""

    isc_a: float  #: at STC
    voc_v: float  #: at STC
    alpha_per_k: Coefficient  #: of Isc, as a share
    beta_per_k: Coefficient  #: of Voc, as a share
    first: Series  #: for procedure 1
    second: Series  #: for procedure 2 of 2021
    b1: Coefficient  #: f(G) = 1 + B1 ln(1000/G) + B2 ln(1000/G)^2
    b2: Coefficient
    light_w_m2: tuple[float, float] = (200.0, 1100.0)  #: in which f(G) is known; common practice

    def __post_init__(self) -> None:
        if not (self.isc_a > 0 and self.voc_v > 0):
            raise ValueError(f"Isc and Voc at STC are above zero, got {self.isc_a}, {self.voc_v}")
        if not 0 < self.light_w_m2[0] <= self.light_w_m2[1]:
            raise ValueError(f"light is known from a little to more, got {self.light_w_m2}")

    @property
    def alpha_a_k(self) -> float:
        """Change of Isc. [A/K]"""
        return self.alpha_per_k.value * self.isc_a

    @property
    def beta_v_k(self) -> float:
        """Change of Voc. [V/K]"""
        return self.beta_per_k.value * self.voc_v

    def fall(self, irradiance_w_m2: float) -> float:
        """f(G): by what Voc at STC is divided in that light, [I]."""
        x = log(STC_W_M2 / irradiance_w_m2)
        return 1 + self.b1.value * x + self.b2.value * x**2


def typical(isc_a: float, voc_v: float) -> Coefficients:
    """Of any crystalline panel, where nothing else is known: [T]; resistances by common practice, no source.

    A series resistance of 7.5 % of Voc / Isc is right within a third for soldered panels; it and kappa are
    those of the 36 multi cells in the tests, as shares.
    """
    ohm = voc_v / isc_a
    series = Series(_recalled(0.075 * ohm, 0.025 * ohm), _recalled(4.6e-4 * ohm, 3e-4 * ohm))
    return Coefficients(
        isc_a=isc_a,
        voc_v=voc_v,
        alpha_per_k=_recalled(0.000512, 0.00021),
        beta_per_k=_recalled(-0.003374, 0.00036),
        first=series,
        second=series,
        b1=_recalled(0.046, 0.006),
        b2=_recalled(0.0024, 0.0024),
    )


def from_nameplate(isc_a: float, voc_v: float, alpha_per_k: float, beta_per_k: float) -> Coefficients:
    """With the two slopes of a nameplate, each taken to a tenth of itself (common practice, no source)."""
    like = typical(isc_a, voc_v)
    return Coefficients(
        isc_a=isc_a,
        voc_v=voc_v,
        alpha_per_k=Coefficient(alpha_per_k, abs(alpha_per_k) / 10, "a nameplate"),
        beta_per_k=Coefficient(beta_per_k, abs(beta_per_k) / 10, "a nameplate"),
        first=like.first,
        second=like.second,
        b1=like.b1,
        b2=like.b2,
    )


def _recalled(value: float, sigma: float) -> Coefficient:
    return Coefficient(value, sigma, "recalled")
