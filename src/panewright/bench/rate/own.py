"""Coefficients from the panel's own circuit: solved in several lights and heats, they are found as from
curves.

Where nobody measured curves of several lights and temperatures, the circuit as built is the best that is
known. Its uncertainty is not in the curves: cells of one kind scatter. Each slope is taken to 5 %, a
resistance to 10 % (common practice, no source).
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from panewright.circuit.trace import trace
from panewright.curve.measured import Measured
from panewright.curve.moved.coefficients import STC_C, STC_W_M2, Coefficient, Coefficients, Series
from panewright.curve.moved.found import coefficients
from panewright.panel.design import Design
from panewright.panel.electric.watts import wired_of
from panewright.panel.electric.wiring import Wired, network_at

LIGHTS_W_M2 = (400.0, 600.0, 800.0, STC_W_M2)
HEATS_C = (STC_C, 45.0, 65.0)
POINTS = 61
SLOPE_SHARE, OHM_SHARE = 0.05, 0.10


def own_coefficients(design: Design) -> Coefficients:
    """Of the panel of a design; of a serial, from its design as built."""
    return doubted(_found(wired_of(design)))


def own_curve(wired: Wired, irradiance_w_m2: float, cell_c: float) -> Measured:
    """The circuit's curve in that light and heat, exact at each point."""
    made = trace(network_at(wired, irradiance_w_m2, cell_c), POINTS)
    pairs = dict(zip(made.voltage_v, made.current_a, strict=True))
    return Measured(tuple(pairs), tuple(pairs.values()), irradiance_w_m2, cell_c)


@lru_cache(maxsize=16)
def _found(wired: Wired) -> Coefficients:
    """Kept, for one panel is rated many times."""
    cool = [own_curve(wired, light, STC_C) for light in LIGHTS_W_M2]
    hot = [own_curve(wired, STC_W_M2, heat) for heat in HEATS_C if heat != STC_C]
    return coefficients([*cool, *hot], "the panel's own circuit")


def doubted(by: Coefficients) -> Coefficients:
    """With what cells of one kind scatter."""
    return replace(
        by,
        alpha_per_k=_wider(by.alpha_per_k, SLOPE_SHARE),
        beta_per_k=_wider(by.beta_per_k, SLOPE_SHARE),
        first=_wider_series(by.first),
        second=_wider_series(by.second),
        b1=_wider(by.b1, SLOPE_SHARE),
        b2=_wider(by.b2, SLOPE_SHARE),
    )


def _wider_series(own: Series) -> Series:
    return Series(_wider(own.ohm, OHM_SHARE), _wider(own.kappa_ohm_k, OHM_SHARE))


def _wider(own: Coefficient, share: float) -> Coefficient:
    return replace(own, sigma=(own.sigma**2 + (share * own.value) ** 2) ** 0.5)
