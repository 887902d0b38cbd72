"""A lot behind a panel's cover, which lets only a share of the light through to the silicon.

Light current and shunt follow the light as in `cell/model.py`: IL ~ G, Rsh ~ 1 / G; the rest stays.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from panewright.cell.curve import current_a, voltage_v
from panewright.cell.peak import peak
from panewright.lots.standing.standing import Standing


def covered(lot: Standing, share: float) -> Standing:
    """Every cell as it stands where that share of 1000 W/m2 reaches it. [A, V, W]"""
    if not 0 < share <= 1:
        raise ValueError(f"a cover lets a share of the light through, above 0 and 1 at most, got {share:g}")
    cells = replace(lot.cells, light_a=lot.cells.light_a * share, shunt_ohm=lot.cells.shunt_ohm / share)
    rest = np.zeros(len(lot.marks))
    top = peak(cells)
    dimmer = top.power_w / lot.power_w
    return replace(
        lot,
        cells=cells,
        isc_a=current_a(cells, rest),
        voc_v=voltage_v(cells, rest),
        imp_a=top.imp_a,
        vmp_v=top.vmp_v,
        power_w=top.power_w,
        power_sd_w=lot.power_sd_w * dimmer,
        power_low_w=lot.power_low_w * dimmer,
        power_high_w=lot.power_high_w * dimmer,
        imp_sd_a=lot.imp_sd_a * share,
    )
