"""What sound solder between ribbon and cell resists: next to nothing, and that is the point of it.

Along a cell the current crosses evenly, through the coat of the ribbon and the contacts at its two faces, in
front and again behind:

    R = (rho_c + rho_coat t_coat) / (k w) (1 / L_front + 1 / L_back)

A cold joint is another matter: see `circuit/damage.py`.

[D] M. I. Devoto et al., Contact resistivity of ECA bonded joints, AIP Conf. Proc., 2021,
    doi 10.1063/5.0055980: conductive glues reach 0.108 to 5.7 mohm cm2 (public abstract, seen). Solder lies
    below the best of them; a tenth of it is taken here, from memory.
"""

from __future__ import annotations

from panewright.ribbon.resistance import TabRun
from panewright.ribbon.strip import Strip
from panewright.units import MM

CONTACT_OHM_MM2 = 1e-3  #: both faces of a soldered joint, 0.01 mohm cm2 [D]


def solder_ohm(strip: Strip, run: TabRun) -> float:
    """The resistance in series with a cell which loses what the solder under its tabs loses. [ohm]

    >>> tabs = TabRun(busbars=3, length_mm=156.0, gap_mm=3.0)
    >>> round(solder_ohm(Strip("2 x 0.15", 2.0, 0.15), tabs), 8)
    2.14e-06
    """
    layer_ohm_mm2 = CONTACT_OHM_MM2 + strip.coat_ohm_m / MM * strip.coat_mm
    front, back = run.length_mm - run.front_bare_mm, run.length_mm - run.back_bare_mm
    if min(front, back) <= 0:
        raise ValueError(f"a tab is soldered along some of its cell, got {run}")
    return layer_ohm_mm2 / (run.busbars * strip.width_mm) * (1 / front + 1 / back)
