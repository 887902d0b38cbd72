"""What a hand or a knee does to the pane of a design: shown apart, and reckoned only when it is asked for."""

from __future__ import annotations

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.pane import Pane
from panewright.glass.plate.holding import Sides
from panewright.glass.touch_verdict import judge_patch
from panewright.structure.loads import GRAVITY_M_S2
from panewright.structure.seat import mass_kg_m2
from panewright.structure.touch import touches


def touched(pane: Pane, family: Family, sides: Sides) -> tuple[Check, ...]:
    """A hand and a knee on the pane as it lies flat, with all that lies behind it.

    No load of the place and no part of the verdict: nobody walks on a panel.
    """
    weight_pa = mass_kg_m2(pane.sheet) * GRAVITY_M_S2
    return judge_patch(pane, family, touches(family), weight_pa, sides=sides)
