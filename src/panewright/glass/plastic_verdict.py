"""A plastic sheet under all its loads: no rule book covers it, and the shop's own reckoning stands beside.

Deflection with a modulus that creeps, stress against crazing, and what the sheet's strain does to the cells.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.check import Check
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane
from panewright.glass.plastic import LASTING_S, Plastic, plastic, softened
from panewright.glass.plate.bending import Bent, Plate, bend
from panewright.glass.proof import ROOM, Family, PaneProof, proof_of, range_checks, unproved

_CELL_STRAIN = 8e-4  # a wafer carried along bears about 100 MPa at 130 GPa (recalled)


def judge_plastic(pane: Pane, family: Family, loads: tuple[PaneLoad, ...]) -> PaneProof:
    """No rule book covers it; the shop's own reckoning by a modulus that creeps."""
    name = pane.sheet.material
    kind = plastic("acrylic" if name == "acrylic" else "polycarbonate", pane.sheet.name)
    plates = [_plate(pane, kind, load) for load in loads]
    bents = [bend(plate, load.pressure_pa) for plate, load in zip(plates, loads, strict=True)]
    softest = max(bents, key=lambda bent: bent.deflection_mm)
    hardest = max(bents, key=lambda bent: bent.worst_mpa)
    at = bents.index(hardest)
    checks = [
        _not_covered(family, name, hardest),
        *_own_checks(name, kind, plates, bents, loads),
        *range_checks(plates[bents.index(softest)], softest.pressure_pa),
    ]
    return proof_of(checks, softest, hardest, None, loads[at].name, pane.sheet.thickness_mm)


def _not_covered(family: Family, name: str, bent: Bent) -> Check:
    book = "ASTM E1300" if family == "ASCE" else "EN 16612"
    cure = f"{book} proves glass only: take glass, or let the sheet's maker vouch for {name}."
    return unproved(f"{name} strength", bent.worst_mpa, f"{book} does not cover plastics", cure)


def _own_checks(
    name: str, kind: Plastic, plates: list[Plate], bents: list[Bent], loads: tuple[PaneLoad, ...]
) -> Iterator[Check]:
    """Crazing under lasting loads, and what the sheet's strain does to the cells on it."""
    for bent, load in zip(bents, loads, strict=True):
        if load.duration_s >= LASTING_S:
            rule = f"{name} stress against crazing in {load.name}"
            limit = kind.lasting_mpa if bent.known else None
            cure = "Take a thicker sheet or glass."
            yield Check(rule, bent.worst_mpa, limit, "MPa", kind.source, cure, ROOM)
    strain = max(b.worst_mpa * 1e6 / p.elastic.young_pa for b, p in zip(bents, plates, strict=True))
    yield Check(
        f"stretch of the {name} that cells can follow",
        strain * 100,
        _CELL_STRAIN * 100 if all(bent.known for bent in bents) else None,
        "%",
        "shop's own reckoning: a wafer carried along breaks at about 100 MPa (recalled)",
        "Cells crack on a sheet that bows so far: take a thicker sheet, a smaller pane or glass.",
        ROOM,
    )


def _plate(pane: Pane, kind: Plastic, load: PaneLoad) -> Plate:
    elastic = softened(kind, load.duration_s)
    return Plate(pane.long_mm, pane.short_mm, pane.sheet.thickness_mm, elastic)
