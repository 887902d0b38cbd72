"""EN 16612's two questions to a pane on four sides, single or laminated: its stress and its deflection."""

from __future__ import annotations

from panewright.check import Check
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.bending import Bent, Sagged
from panewright.glass.strength import en16612
from panewright.glass.verdict.proof import ROOM, THICKER, told


def en_strength(sheet: Sheet, bent: Bent, load: PaneLoad, against: str) -> Check:
    """The largest stress, told in words what of, against the design strength of the load's duration."""
    limit = en16612.strength_mpa(sheet.treatment, load.duration_s, sheet.surface) if bent.known else None
    stress, rule = told(bent.worst_mpa, bent.known), f"glass strength in {load.name}"
    return Check(rule, stress, limit, "MPa", f"EN 16612 design strength against {against}", THICKER, ROOM)


def en_deflection(pane: Pane, bent: Bent | Sagged, how: str = "") -> Check:
    """How far the pane gives way, `how` it was reckoned put behind the rule."""
    limit = en16612.deflection_limit_mm(pane.short_mm) if bent.known else None
    source = f"EN 16612 9.1.4: short side/65 and 50 mm{how}"
    cure = "Take thicker glass or a narrower pane."
    return Check("glass deflection", told(bent.deflection_mm, bent.known), limit, "mm", source, cure, ROOM)
