"""Laminated glass under all its loads: each ply judged by the rule book of its family.

ASCE: ASTM E1300 with the effective thickness of the ply that is stressed harder. EN: EN 16612, each ply's
largest stress on a pane of its effective thickness. Deflection by the effective thickness for deflection.
A pane whose two plies act apart is still proved: as two panes on each other.
"""

from __future__ import annotations

from panewright.check import Check
from panewright.glass import laminated
from panewright.glass.laminated import Effective
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Plies
from panewright.glass.plate.bending import Bent, Elastic, Plate, bend
from panewright.glass.strength import e1300, en16612
from panewright.glass.verdict.en_checks import en_deflection, en_strength
from panewright.glass.verdict.proof import (
    ROOM,
    THICKER,
    Family,
    PaneProof,
    governing,
    proof_of,
    range_checks,
    told,
    unproved,
    worst_of,
)


def judge_laminated(pane: Pane, plies: Plies, family: Family, loads: tuple[PaneLoad, ...]) -> PaneProof:
    """Every check of a laminated pane under its loads."""
    return _judge_asce(pane, plies, loads) if family == "ASCE" else _judge_en(pane, plies, loads)


def _bent(pane: Pane, thickness_mm: float, elastic: Elastic, load: PaneLoad) -> Bent:
    return bend(Plate(pane.long_mm, pane.short_mm, thickness_mm, elastic), load.pressure_pa)


def _judge_asce(pane: Pane, plies: Plies, loads: tuple[PaneLoad, ...]) -> PaneProof:
    each = [laminated.astm(plies, pane.short_mm, load) for load in loads]
    soft = _softest(pane, e1300.GLASS, loads, each)
    hard = [_bent(pane, one.stress_mm, e1300.GLASS, load) for one, load in zip(each, loads, strict=True)]
    strength = [_asce_strength(pane, plies, load, bent) for load, bent in zip(loads, hard, strict=True)]
    heaviest = max(loads, key=lambda load: load.pressure_pa)
    thinnest = min(one.deflection_mm for one in each)
    plate = Plate(pane.long_mm, pane.short_mm, thinnest, e1300.GLASS)
    checks = (*strength, *_scope(plies, heaviest), *range_checks(plate, heaviest.pressure_pa))
    worst = max(hard, key=lambda bent: bent.worst_mpa)
    thick = each[loads.index(heaviest)].stress_mm
    nfl = e1300.non_factored_load_pa(pane.long_mm, pane.short_mm, thick)
    shown = nfl if pane.sheet.surface == "plain" else None  # E1300 knows no other
    return proof_of(checks, soft, worst, shown, governing(strength, loads), pane.sheet.thickness_mm)


def _softest(pane: Pane, elastic: Elastic, loads: tuple[PaneLoad, ...], each: list[Effective]) -> Bent:
    """The load that bows the pane furthest."""
    bents = (_bent(pane, one.deflection_mm, elastic, load) for one, load in zip(each, loads, strict=True))
    return max(bents, key=lambda bent: bent.deflection_mm)


def _asce_strength(pane: Pane, plies: Plies, load: PaneLoad, bent: Bent) -> Check:
    limit = None
    if bent.known and pane.sheet.surface == "plain":
        limit = laminated.resistance_pa(pane, plies, load)
    source = "ASTM E1300, effective thickness of the ply stressed harder, 8 in 1000, and glass type factor"
    cure = THICKER
    if pane.sheet.surface != "plain":
        cure = f"E1300 does not cover {pane.sheet.surface} glass: take plain glass, or design by EN."
    return Check(f"glass strength in {load.name}", load.pressure_pa, limit, "Pa", source, cure, ROOM)


def _scope(plies: Plies, heaviest: PaneLoad) -> tuple[Check, Check]:
    """What E1300 covers: so much load, and plies of 2.5 mm glass or more."""
    load = Check(
        "load within what E1300 covers",
        heaviest.pressure_pa,
        e1300.SCOPE_PA,
        "Pa",
        "ASTM E1300 scope",
        "Have a glass engineer prove a pane under so much load.",
        ROOM,
    )
    thick = Check(
        "glass thick enough for E1300",
        e1300.THINNEST_MM,
        min(plies.outer_mm, plies.inner_mm),
        "mm",
        "ASTM E1300 table 4, thinnest designation, each ply",
        "Take plies of 2.5 mm or more.",
        ROOM,
    )
    return load, thick


def _judge_en(pane: Pane, plies: Plies, loads: tuple[PaneLoad, ...]) -> PaneProof:
    factored = tuple(load for load in loads if load.factored)
    service = tuple(load for load in loads if not load.factored) or loads
    soft = _softest(pane, en16612.GLASS, service, [laminated.en(plies, load) for load in service])
    hard = [_hardest(pane, plies, load) for load in factored or loads]
    against = "the largest stress of either ply, effective thickness"
    strength = [
        en_strength(pane.sheet, bent, load, against)
        for bent, load in zip(hard[: len(factored)], factored, strict=True)
    ]
    heaviest = worst_of(loads) or loads[0]
    thinnest = min(laminated.en(plies, load).deflection_mm for load in loads)
    plate = Plate(pane.long_mm, pane.short_mm, thinnest, en16612.GLASS)
    checks = [
        *strength,
        en_deflection(pane, soft, "; effective thickness"),
        *range_checks(plate, heaviest.pressure_pa),
    ]
    worst = max(hard, key=lambda bent: bent.worst_mpa)
    if not factored:
        checks.append(
            unproved("glass strength", told(worst.worst_mpa, worst.known), "EN 16612: needs factored loads")
        )
    name = governing(strength, factored) if factored else heaviest.name
    return proof_of(checks, soft, worst, None, name, pane.sheet.thickness_mm)


def _hardest(pane: Pane, plies: Plies, load: PaneLoad) -> Bent:
    """The ply that is stressed harder."""
    each = laminated.en(plies, load)
    bents = (_bent(pane, thick, en16612.GLASS, load) for thick in (each.outer_mm, each.inner_mm))
    return max(bents, key=lambda bent: bent.worst_mpa)
