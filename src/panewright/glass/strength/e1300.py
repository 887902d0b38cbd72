"""ASTM E1300: the load a glass pane held on four edges may bear with 8 in 1000 broken under it.

Complete with its own figures (E 71.7 GPa, nu 0.22); nothing of EN is mixed in. Load resistance = non-factored
load x glass type factor. Not covered by this practice: patterned, wired, etched or drilled glass,
plastics, thickness under the 2.5 mm designation, and more than 15 kPa.

[E] ASTM E1300: factors of table 1 (recalled); model constants (recalled); scope of -12a and -16 (seen);
    edges may give way by L/175 (-24, 6.2.4, seen); stress that a free edge may bear, appendix (recalled).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from math import log

from panewright.glass.load import PaneLoad
from panewright.glass.pane import Treatment
from panewright.glass.plate.bending import Elastic, Plate, area_m2
from panewright.glass.plate.path import WIDEST, load_path
from panewright.glass.strength.breakage import FATIGUE, REFERENCE_S, K, M, load_for_integral

GLASS = Elastic(71.7e9, 0.22)
FAILURE = 0.008  #: probability of breakage that the practice accepts
SHORT_S = 3.0
LONG_S = 30 * 86400.0
SCOPE_PA = 15e3
THINNEST_MM = 2.16  #: minimum thickness of the 2.5 mm designation, table 4
EDGE_SHARE = 175  #: supported edge may deflect its length over this
EDGE_MPA = {"annealed": 16.6, "heat-strengthened": 36.5, "tempered": 73.0}  #: clean cut, 3 s, 8 in 1000
_TYPE = {"annealed": (1.0, 0.43), "heat-strengthened": (2.0, 1.3), "tempered": (4.0, 3.0)}  # short, long


@lru_cache(maxsize=512)
def non_factored_load_pa(
    long_mm: float,
    short_mm: float,
    thickness_mm: float,
    failure: float = FAILURE,
    duration_s: float = SHORT_S,
) -> float:
    """Even load that breaks an annealed pane with this probability. [Pa]

    A pane too slack for the plate's path gets the load at the end of what is known, which is less than the
    true one; one too slender that at the widest known sides, which may be more. A proof refuses both.

    >>> round(non_factored_load_pa(1500, 1200, 5.56))
    2510
    """
    if not 0 < failure < 1:
        raise ValueError(f"a probability lies between 0 and 1, not at {failure:g}")
    plate = Plate(long_mm, short_mm, thickness_mm, GLASS)
    path = load_path(min(plate.aspect, WIDEST), GLASS.poisson)
    risk = -log(1 - failure)
    stress_pa = plate.stress_unit_mpa * 1e6 * (duration_s / REFERENCE_S) ** (1 / FATIGUE)
    wanted = risk / (K * stress_pa**M * area_m2(plate) / plate.aspect)  # areas in b^2
    return load_for_integral(path, wanted) * plate.load_unit_pa


def duration_factor(duration_s: float) -> float:
    """Share of the 3 s resistance left to annealed glass under a longer load. [-]

    >>> round(duration_factor(86400), 4)
    0.5264
    """
    return float((SHORT_S / duration_s) ** (1 / FATIGUE))


def type_factor(treatment: Treatment, duration_s: float) -> float | None:
    """Glass type factor of table 1; between and beyond 3 s and 30 days by the power law through both. [-]

    None for a treatment the practice does not list.

    >>> type_factor("tempered", 3.0)
    4.0
    """
    if treatment not in _TYPE:
        return None
    short, long = _TYPE[treatment]
    if duration_s <= SHORT_S:
        return short
    exponent = log(duration_s / SHORT_S) / log(LONG_S / SHORT_S)
    return float(short * (long / short) ** exponent)


def edge_stress_mpa(treatment: Treatment, duration_s: float) -> float | None:
    """Stress that a free edge may bear; a longer load wears it down as it does the pane. [MPa]

    None for a treatment the practice does not list.

    >>> round(edge_stress_mpa("tempered", 30 * 86400.0), 2)
    54.75
    """
    lasting, short = type_factor(treatment, duration_s), type_factor(treatment, SHORT_S)
    if lasting is None or short is None:
        return None
    return EDGE_MPA[treatment] * lasting / short


def combined_use(loads: Iterable[PaneLoad], non_factored_pa: float, treatment: Treatment) -> float | None:
    """Share of the pane's resistance that loads of unlike length use up together: their shares add. [-]

    Each load is divided by its own resistance, which turns it into the 3 s load that tires the glass as much.
    """
    use = 0.0
    for load in loads:
        factor = type_factor(treatment, load.duration_s)
        if factor is None:
            return None
        use += load.pressure_pa / (non_factored_pa * factor)
    return use


def edge_limit_mm(edge_mm: float) -> float:
    """How far a rail may sag under a glass edge at the design load. [mm]"""
    return edge_mm / EDGE_SHARE
