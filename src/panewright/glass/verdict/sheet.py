"""A pane under all its loads, held against one rule book.

ASCE: ASTM E1300 with the loads at allowable level. EN: EN 16612, strength under the factored loads,
deflection under the others. Neither covers plastics: for those the checks say so and the shop's own
reckoning stands beside.
"""

from __future__ import annotations

from collections.abc import Iterator

from panewright.check import Check
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plate.bending import Elastic, Plate, bend, sag
from panewright.glass.strength import e1300, en16612
from panewright.glass.verdict.en_checks import en_deflection, en_strength
from panewright.glass.verdict.laminated import judge_laminated
from panewright.glass.verdict.plastic import judge_plastic
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


def judge_pane(pane: Pane, family: Family, loads: tuple[PaneLoad, ...]) -> PaneProof:
    """Every check of a pane under its loads, in the rule book of one family."""
    if not loads:
        raise ValueError("a pane is judged under at least one load")
    if family not in ("ASCE", "EN"):
        raise ValueError(f"the rule books are ASCE and EN, not {family!r}")
    if family == "ASCE" and any(load.factored for load in loads):
        raise ValueError("ASTM E1300 takes loads at allowable level, not factored ones")
    if pane.sheet.material != "glass":
        return judge_plastic(pane, family, loads)
    if pane.sheet.plies:
        return judge_laminated(pane, pane.sheet.plies, family, loads)
    return _judge_asce(pane, loads) if family == "ASCE" else _judge_en(pane, loads)


def _plate(pane: Pane, elastic: Elastic) -> Plate:
    return Plate(pane.long_mm, pane.short_mm, pane.sheet.thickness_mm, elastic)


def _judge_asce(pane: Pane, loads: tuple[PaneLoad, ...]) -> PaneProof:
    plate = _plate(pane, e1300.GLASS)
    nfl = e1300.non_factored_load_pa(pane.long_mm, pane.short_mm, pane.sheet.thickness_mm)
    worst = max(loads, key=lambda load: load.pressure_pa)
    # past what is known of the plate its load is that of the range's end, and proves nothing
    known = nfl if worst.pressure_pa <= plate.known_pa else None
    strength = [_asce_strength(pane.sheet, known, load) for load in loads]
    checks = (*strength, *_asce_scope(pane, worst), *range_checks(plate, worst.pressure_pa))
    bent = bend(plate, worst.pressure_pa)
    shown = nfl if pane.sheet.surface == "plain" else None  # E1300 knows no other
    return proof_of(checks, bent, bent, shown, governing(strength, loads), pane.sheet.thickness_mm)


def _asce_strength(sheet: Sheet, nfl: float | None, load: PaneLoad) -> Check:
    """Load against resistance: type factor for each part's duration times the non-factored load."""
    use = None
    if nfl is not None and sheet.surface == "plain":
        use = e1300.combined_use(load.parts or (load,), nfl, sheet.treatment)
    limit = load.pressure_pa / use if use else None
    source = "ASTM E1300, failure prediction model, 8 in 1000, and glass type factor"
    cure = THICKER
    if limit is None and sheet.surface != "plain":
        cure = f"E1300 does not cover {sheet.surface} glass: take plain glass, or design by EN throughout."
    elif limit is None and nfl is not None:
        cure = "Say whether the glass is annealed, heat-strengthened or tempered."
    return Check(f"glass strength in {load.name}", load.pressure_pa, limit, "Pa", source, cure, ROOM)


def _asce_scope(pane: Pane, worst: PaneLoad) -> Iterator[Check]:
    yield Check(
        "load within what E1300 covers",
        worst.pressure_pa,
        e1300.SCOPE_PA,
        "Pa",
        "ASTM E1300 scope",
        "Have a glass engineer prove a pane under so much load.",
        ROOM,
    )
    yield Check(
        "glass thick enough for E1300",
        e1300.THINNEST_MM,
        pane.sheet.thickness_mm,
        "mm",
        "ASTM E1300 table 4, thinnest designation",
        "Take glass of 2.5 mm or more.",
        ROOM,
    )


def _judge_en(pane: Pane, loads: tuple[PaneLoad, ...]) -> PaneProof:
    plate = _plate(pane, en16612.GLASS)
    factored = tuple(load for load in loads if load.factored)
    service = tuple(load for load in loads if not load.factored)
    bents = [bend(plate, load.pressure_pa) for load in factored]
    against = "the plate's largest principal stress"
    strength = [
        en_strength(pane.sheet, bent, load, against) for bent, load in zip(bents, factored, strict=True)
    ]
    heaviest = max(loads, key=lambda load: load.pressure_pa)
    worst = worst_of(factored) or heaviest
    hard = bents[factored.index(worst)] if factored else bend(plate, worst.pressure_pa)
    soft = sag(plate, (worst_of(service) or worst).pressure_pa)
    checks = [*strength, en_deflection(pane, soft), *range_checks(plate, heaviest.pressure_pa)]
    if not factored:
        checks.append(
            unproved("glass strength", told(hard.worst_mpa, hard.known), "EN 16612: needs factored loads")
        )
    name = governing(strength, factored) if factored else worst.name
    return proof_of(checks, soft, hard, None, name, pane.sheet.thickness_mm)
