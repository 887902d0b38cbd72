"""A plastic sheet under all its loads: no rule book covers it, and the shop's own reckoning stands beside.

Deflection with a modulus that creeps, stress against crazing under the lasting loads as they are, without
factors, and the heat the sheet bears. What its strain does to the cells on it:
`structure/panes/bonded_cells.py`.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.check import Check
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plastic import LASTING_S, Plastic, plastic, softened
from panewright.glass.plate.bending import Bent, Plate, bend
from panewright.glass.verdict.proof import ROOM, Family, PaneProof, proof_of, range_checks, told, unproved


def judge_plastic(pane: Pane, family: Family, loads: tuple[PaneLoad, ...]) -> PaneProof:
    """No rule book covers it; the shop's own reckoning by a modulus that creeps."""
    name = pane.sheet.material
    kind = plastic("acrylic" if name == "acrylic" else "polycarbonate", pane.sheet.name)
    plates = [_plate(pane, kind, load) for load in loads]
    bents = [bend(plate, load.pressure_pa) for plate, load in zip(plates, loads, strict=True)]
    service = [bent for bent, load in zip(bents, loads, strict=True) if not load.factored] or bents
    softest = max(service, key=lambda bent: bent.deflection_mm)
    hardest = max(bents, key=lambda bent: bent.worst_mpa)
    farthest = max(bents, key=lambda bent: bent.w_over_t)
    at = bents.index(hardest)
    checks = [
        _not_covered(family, name, hardest),
        *_crazing(name, kind, bents, loads),
        *range_checks(plates[bents.index(farthest)], farthest.pressure_pa),
    ]
    return proof_of(checks, softest, hardest, None, loads[at].name, pane.sheet.thickness_mm)


def heat_check(sheet: Sheet, hottest_c: float) -> Check:
    """The hottest a plastic cover gets against what its maker lets it bear for good."""
    name = sheet.material
    kind = plastic("acrylic" if name == "acrylic" else "polycarbonate", sheet.name)
    source = (
        "shop's own reckoning: service temperature of sheet makers (acrylic seen, polycarbonate recalled)"
    )
    cure = "Take glass, or polycarbonate for acrylic; cast acrylic bears more than extruded."
    return Check(f"heat of the {name} cover", hottest_c, kind.service_c, "degC", source, cure, ROOM)


def _not_covered(family: Family, name: str, bent: Bent) -> Check:
    book = "ASTM E1300" if family == "ASCE" else "EN 16612"
    cure = f"{book} proves glass only: take glass, or let the sheet's maker vouch for {name}."
    return unproved(
        f"{name} strength", told(bent.worst_mpa, bent.known), f"{book} does not cover plastics", cure
    )


def _crazing(name: str, kind: Plastic, bents: list[Bent], loads: tuple[PaneLoad, ...]) -> Iterator[Check]:
    """Stress under lasting loads at service level."""
    for bent, load in zip(bents, loads, strict=True):
        if load.duration_s >= LASTING_S and not load.factored:
            rule = f"{name} stress against crazing in {load.name}"
            limit = kind.lasting_mpa if bent.known else None
            cure = "Take a thicker sheet or glass."
            yield Check(rule, told(bent.worst_mpa, bent.known), limit, "MPa", kind.source, cure, ROOM)


def _plate(pane: Pane, kind: Plastic, load: PaneLoad) -> Plate:
    elastic = softened(kind, load.duration_s)
    return Plate(pane.long_mm, pane.short_mm, pane.sheet.thickness_mm, elastic)
