"""Cells as the maker sorts them: by what the meter says, which is not quite what they are.

Light and current move Imp and power of a reading together; where the top of a curve is flat Imp is read too
high and Vmp as much too low, which leaves the power alone; the voltage moves the power by itself.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.peak import peak
from panewright.cell.root import Array
from panewright.circuit.mismatch.own_power import own_power_w
from panewright.lots.standing.trust import Trust

TRUST = Trust()  #: the errors of a bench with one good hand meter


@dataclass(frozen=True, slots=True)
class Read:
    """What a meter says of each cell."""

    power_w: Array
    imp_a: Array


def read(cells: Diodes, dice: np.random.Generator, trust: Trust = TRUST) -> Read:
    """Each cell read once; errors that all readings share move none before another and are left out."""
    true_w, count = own_power_w(cells), cells.light_a.size
    together, voltage, top = dice.standard_normal((3, count))
    together *= np.hypot(trust.current_share, trust.light_share)
    return Read(
        true_w * (1 + together + trust.voltage_share * voltage),
        peak(cells).imp_a * (1 + together + trust.top_share * top),
    )
