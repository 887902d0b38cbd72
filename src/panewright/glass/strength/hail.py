"""Hail on a pane: the weakest of the proofs. Glass breaks by chance flaws under a blow, and few have counted.

Demand: the energy of one ball of clear ice that hits square at its falling speed. Its mass is that of a
sphere, its speed that of the type test's table [I], between the table's balls by logarithms, outside it
4.6 sqrt(d/mm) m/s: the drag of the air makes the speed of a sphere go with the root of its diameter.

Limit: half the energy at which covers of toughened glass begin to break, drawn for 4 mm:

    toughened glass 4 mm    20.7 J, a ball of 45 mm; smaller ones "usually" do no harm [C]; half of it, 10.3 J
    other thickness         E as t^(10/3) below 4 mm and as t^2 above, whichever says less (see below)
    other treatment         E as f^(5/3) with the strengths of EN 572, 1863, 12150: heat-strengthened
                            0.41, annealed 0.20 of toughened glass
    patterned glass         likewise with 90, 55 and 33 MPa: tempered 0.62, heat-strengthened 0.27, annealed
                            0.12 of toughened plain glass
    acrylic, polycarbonate  as toughened glass; a test of 16 panels found acrylic the stronger at one
                            thickness [M], what the sun makes brittle is not in it

The powers are an argument, not a finding: the force of a blow goes with E^(3/5) (Hertz), bending stress under
it with force/t^2. Beside it stand [K]: cells behind 4.0 mm lost 0.8 % after a ball of 45 mm, behind 3.2 mm
12 %, behind 2.8 mm 22 %. Rows of hits, edges, ice that is not round, cells that crack behind a whole pane and
a second pane behind are not in it.

[I] IEC 61215-2 MQT 17, table of ice balls (recalled; 25 mm, 7.53 g, 23 m/s and 45 mm, 30.7 m/s seen).
[C] Report on impact tests of solar collectors (conference 2008, excerpt seen).
[M] D. Moore, A. Wilson, DOE/JPL-1012-78/6, 1978: simulated hail on 16 panels (abstract seen).
[K] Study of hail on panels with three glasses, Renewable Energy 2023 (news of it seen).
"""

from __future__ import annotations

from math import exp, log, pi, sqrt

from panewright.check import Check
from panewright.glass.pane import Pane, Sheet
from panewright.units import MM

ICE_KG_M3 = 920.0
BALLS = (  # [I]: diameter mm, mass g, speed m/s
    (12.5, 0.94, 16.0),
    (15.0, 1.63, 17.8),
    (25.0, 7.53, 23.0),
    (35.0, 20.7, 27.2),
    (45.0, 43.9, 30.7),
    (55.0, 80.2, 33.9),
    (65.0, 132.0, 36.7),
    (75.0, 203.0, 39.5),
)
_SPEED = 4.6  # m/s for a root of mm, within 2 % of the table
_DRAWN_MM, _BREAKS_J, _SAFE = 4.0, 20.7, 2.0  # [C]
_THIN, _THICK = 10 / 3, 2.0
_TOUGHENED_MPA = 120.0  # EN 12150-1, plain; the others as in `en16612`
_MPA = {
    ("annealed", "plain"): 45.0,
    ("heat-strengthened", "plain"): 70.0,
    ("annealed", "patterned"): 33.0,
    ("heat-strengthened", "patterned"): 55.0,
    ("tempered", "patterned"): 90.0,
}
_SOURCE = "the weakest of the proofs: half of what broke collector covers of 4 mm toughened glass, few tests"


def ball_mass_kg(diameter_mm: float) -> float:
    """Mass of a ball of clear ice. [kg]

    >>> round(ball_mass_kg(25.0) * 1000, 2)
    7.53
    """
    return ICE_KG_M3 * pi * (diameter_mm * MM) ** 3 / 6


def fall_m_s(diameter_mm: float) -> float:
    """How fast it falls. [m/s]  [I]

    >>> fall_m_s(25.0), round(fall_m_s(100.0), 1)
    (23.0, 46.0)
    """
    if not BALLS[0][0] <= diameter_mm <= BALLS[-1][0]:
        return _SPEED * sqrt(max(0.0, diameter_mm))
    above = next(k for k, (size, _, _) in enumerate(BALLS) if diameter_mm <= size)
    (small, _, slow), (large, _, fast) = BALLS[max(0, above - 1)], BALLS[above]
    if diameter_mm == large:
        return fast
    share = log(diameter_mm / small) / log(large / small)
    return exp(log(slow) + share * log(fast / slow))


def energy_j(diameter_mm: float) -> float:
    """Energy with which it hits. [J]

    >>> round(energy_j(25.0), 2), round(energy_j(45.0), 1)
    (1.99, 20.7)
    """
    return ball_mass_kg(diameter_mm) * fall_m_s(diameter_mm) ** 2 / 2


def limit_j(sheet: Sheet) -> float:
    """Energy up to which a sheet is taken to live; of laminated glass by its outer ply alone. [J]

    >>> solar = Sheet("4 mm", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)
    >>> round(limit_j(solar), 1)
    8.7
    """
    ratio = (sheet.plies.outer_mm if sheet.plies else sheet.thickness_mm) / _DRAWN_MM
    return float(_BREAKS_J / _SAFE * min(ratio**_THIN, ratio**_THICK) * _share(sheet))


def _share(sheet: Sheet) -> float:
    """Energy it bears, of what toughened plain glass of its thickness does. [-]"""
    return float((_MPA.get((sheet.treatment, sheet.surface), _TOUGHENED_MPA) / _TOUGHENED_MPA) ** (5 / 3))


def hail_check(pane: Pane, ball_mm: float) -> Check:
    """One ball against the pane."""
    cure = "Take a thicker or a tempered sheet, or cover the panel in hail."
    return Check("hail on the pane", energy_j(ball_mm), limit_j(pane.sheet), "J", _SOURCE, cure, "glass")


def largest_ball_mm(sheet: Sheet) -> float:
    """The largest ball that the limit lets pass. [mm]

    >>> round(largest_ball_mm(Sheet("4 mm", "glass", "tempered", "plain", 4.0, 3.8, 2500.0, 9e-6, 0.9)))
    36
    """
    low, high, limit = 0.0, 200.0, limit_j(sheet)
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if energy_j(middle) <= limit else (low, middle)
    return low
