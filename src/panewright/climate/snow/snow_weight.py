"""How heavy snow is that lies for long: from a load to a depth, and back.

ASCE: 0.13 pg + 14 pcf, pg in psf, 30 pcf at most ([A] 7.7.1, recalled). EN: 2 kN/m3 ([E] 6.2, read), that of
    snow some days old; fresh snow is lighter and old snow heavier (annex E, recalled: 1.0, and 2.5 to 3.5).

[A] ASCE 7-16. [E] EN 1991-1-3.
"""

from __future__ import annotations

from panewright.climate.site import Family
from panewright.units import PCF_N_M3, PSF_PA

EN_SNOW_N_M3 = 2000.0


def snow_weight_n_m3(family: Family, ground_pa: float) -> float:
    """Weight of lying snow. [N/m3]

    >>> round(snow_weight_n_m3("ASCE", 30 * PSF_PA) / PCF_N_M3, 1), snow_weight_n_m3("EN", 800)
    (17.9, 2000.0)
    """
    if family == "EN":
        return EN_SNOW_N_M3
    return min(0.13 * ground_pa / PSF_PA + 14, 30.0) * PCF_N_M3
