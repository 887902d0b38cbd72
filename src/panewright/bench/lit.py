"""How much of the light reaches the cells at a step: it is read bare, behind the pane with air, or closed in.

bare               on the template or on an open board, nothing before the cells but their ribbons
behind the pane    on the glass, nothing bonded yet: both faces of the pane throw light back
closed             the finished panel
"""

from __future__ import annotations

from typing import Literal

from panewright.panel.design import Design
from panewright.panel.electric.light import bare_of, behind_air, light_of
from panewright.panel.electric.watts import lit_of

State = Literal["bare", "behind the pane", "closed"]

_STATES: dict[str, dict[str, State]] = {
    "silicone pour": {"join-columns": "behind the pane", "polarity": "behind the pane"},
    "film": {"join-columns": "behind the pane"},
    "air gap": {"join-columns": "bare", "polarity": "bare"},
}


def state_at(design: Design, step: str) -> State:
    """What lies before the cells when the meter is read in a step after the columns were strung."""
    return _STATES[design.order.parts.encapsulation].get(step, "closed")


def light_at(design: Design, step: str) -> float:
    """Share of the irradiance that reaches the silicon then. [-]"""
    lit, state = lit_of(design), state_at(design, step)
    if state == "closed":
        return design.electrical.light
    seen = bare_of(lit) if state == "bare" else behind_air(lit)
    return design.electrical.light * seen.share / light_of(lit).share
