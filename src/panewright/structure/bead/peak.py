"""The bead where the pane pulls on it hardest: beside a corner, above what the trapezium rule says.

The rules of record spread suction as q b/2 and keep a reserve for what that leaves out. A far bent pane
hangs in its corners (`glass.plate.reaction`): on an edge that does not give, its pull there is up to two or
three times q b/2 over a short length. A rail and a soft bead spread it, so this is the most it can be. It is
held against the least strength that silicone of its kind must show in a tension test, with no further
reserve: the check of record stands beside with its own. Our own reckoning; neither book asks for it.

[C] ASTM C1184: structural silicone bears 0.345 MPa in tension at least (recalled).
[T] ETAG 002: design stress is a sixth of the strength that 95 of 100 samples pass (recalled).
"""

from __future__ import annotations

from panewright.check import Check
from panewright.glass.pane import Pane
from panewright.glass.plate.reaction import edge_reaction
from panewright.glass.verdict.held import plate_of
from panewright.seal.sealant import Bead
from panewright.structure.loads import Loads

_GUST_S = 3.0
LEAST_STRENGTH_PA = 345e3  #: [C]
RESERVE = 6.0  #: [T]


def judge_peak(pane: Pane, bead: Bead, loads: Loads) -> Check:
    """Largest tension in the bead under suction, edges taken as stiff."""
    push = edge_reaction(plate_of(pane, loads.family, _GUST_S), loads.suction_pa)
    asce = loads.family == "ASCE"
    strength = LEAST_STRENGTH_PA if asce else RESERVE * bead.sealant.design_pa
    covered = bead.sealant.structural and bead.sealant.design_pa > 0 and push.known
    source = "ASTM C1184, least strength" if asce else "ETAG 002, design stress six times"
    return Check(
        "bead tension where the pane pulls hardest",
        push.peak_n_per_mm / bead.bite_mm,
        strength * 1e-6 if covered else None,
        "MPa",
        f"shop's own reckoning: edge reaction of the pane on stiff edges; {source}",
        "Draw a wider bead." if covered else "Take a silicone sold for structural glazing.",
        "seal",
    )
