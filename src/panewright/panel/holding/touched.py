"""What a hand or a knee does to the pane of a design: a check where the order counts it, else shown apart."""

from __future__ import annotations

from panewright.check import Check
from panewright.climate.site import Family
from panewright.glass.pane import Pane
from panewright.glass.plate.holding import Sides
from panewright.glass.verdict.touch import judge_patch, surely_bears, surely_breaks, touch_checks
from panewright.order.order import Parts, Touched
from panewright.structure.panes.touch import touches
from panewright.structure.rails.seat import mass_kg_m2
from panewright.units import GRAVITY_M_S2

_COUNTED: dict[Touched, tuple[str, ...]] = {
    "none": (),
    "hand": ("one hand",),
    "knee": ("one hand", "one knee"),
}


def touched(pane: Pane, family: Family, sides: Sides) -> tuple[Check, ...]:
    """A hand and a knee on the pane as it lies flat, with all behind it, whatever the order asks."""
    return judge_patch(pane, family, touches(family), _weight_pa(pane), sides=sides)


def asked_touches(pane: Pane, family: Family, parts: Parts) -> tuple[Check, ...]:
    """Those touches that the order counts, as checks of the design."""
    counted = _COUNTED[parts.touched]
    asked = tuple(touch for touch in touches(family) if touch.name.startswith(counted))
    return touch_checks(pane, family, asked, _weight_pa(pane), sides=parts.held) if counted else ()


def doubtful_touches(pane: Pane, family: Family, parts: Parts, use: float = 1.0) -> tuple[Check, ...]:
    """The same, but none where the pane is sure to hold them all, or to be used less than `use` by them. [-]

    For whoever asks only what fails, and of that the worst.
    """
    counted = _COUNTED[parts.touched]
    asked = tuple(touch for touch in touches(family) if touch.name.startswith(counted))
    if not counted or surely_bears(pane, family, asked, _weight_pa(pane), parts.held, use=use):
        return ()
    return asked_touches(pane, family, parts)


def worst_touches(pane: Pane, family: Family, parts: Parts, use: float = 1.0) -> tuple[Check, ...]:
    """The same of a pane that is settled; where the almanac's figure alone shows that it fails, by that."""
    if parts.touched != "hand":
        return doubtful_touches(pane, family, parts, use)
    asked = tuple(touch for touch in touches(family) if touch.name.startswith(_COUNTED["hand"]))
    told = surely_breaks(pane, family, asked, _weight_pa(pane), parts.held, use=use)
    return told or doubtful_touches(pane, family, parts, use)


def not_yet(_pane: Pane, _family: Family, _parts: Parts) -> tuple[Check, ...]:
    """None: they are asked once all else of the design is known."""
    return ()


def _weight_pa(pane: Pane) -> float:
    return mass_kg_m2(pane.sheet) * GRAVITY_M_S2
