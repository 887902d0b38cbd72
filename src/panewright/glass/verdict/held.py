"""A pane on two sides or on clips under its loads, held against one rule book.

ASCE: on two sides ASTM E1300's failure model over the whole pane, and beside it what a free edge may bear;
clips are not covered, and drilled glass is not either. EN: EN 16612 takes the largest principal stress of any
holding, with a weaker edge. Plastics are covered by neither.

Four sides are `verdict`'s.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panewright.check import Check
from panewright.glass.laminated import effective
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane
from panewright.glass.plastic import plastic, softened
from panewright.glass.plate.bending import Elastic, Plate
from panewright.glass.plate.field import STEEPEST, SupportedBent, bend_supported
from panewright.glass.plate.holding import Clips, Pressing, Sides, Supported
from panewright.glass.plate.path import WIDEST
from panewright.glass.strength import e1300, en16612
from panewright.glass.strength.field_breakage import load_multiple
from panewright.glass.verdict.proof import Family, PaneProof, told

_ROOM = "glass"
_CURE = "Take thicker or tempered glass, a smaller pane, or hold it on four sides."
_NARROWER = "Bring the sides nearer to one another: take another number of columns."


def judge_supported(
    pane: Pane, family: Family, loads: tuple[PaneLoad, ...], sides: Sides, clips: Clips | None = None
) -> tuple[Check, ...]:
    """Every check of a pane that is not held on four sides."""
    if sides == "four sides":
        raise ValueError("a pane on four sides is judged by judge_pane")
    if not loads:
        raise ValueError("a pane is judged under at least one load")
    slowest = max(load.duration_s for load in loads)  # plastics creep; glass does not
    held = Supported(plate_of(pane, family, slowest), sides, clips)
    judged = _asce(pane, held, loads) if family == "ASCE" else _en(pane, held, loads)
    return (*judged, *_range(held, max(load.pressure_pa for load in loads)))


def prove_supported(
    pane: Pane, family: Family, loads: tuple[PaneLoad, ...], sides: Sides, clips: Clips | None = None
) -> PaneProof:
    """The same with the figures behind it."""
    checks = judge_supported(pane, family, loads, sides, clips)
    held = Supported(plate_of(pane, family, max(load.duration_s for load in loads)), sides, clips)
    strength = [load for load in loads if load.factored] or list(loads)
    service = [load for load in loads if not load.factored] or list(loads)
    hard, soft = (max(each, key=lambda load: load.pressure_pa) for each in (strength, service))
    bent, thick = _bent(held, hard.pressure_pa), held.plate.thickness_mm
    middle = bent.field.at(np.zeros(1), np.zeros(1)).principal(1.0)[0]
    return PaneProof(
        checks,
        _bent(held, soft.pressure_pa).deflection.value,
        bent.worst_mpa,
        None,
        bent.deflection.value / thick,
        float(middle[0, 0]),
        bent.away.along_mm,
        bent.away.across_mm,
        hard.name,
        thick,
    )


def plate_of(pane: Pane, family: Family, duration_s: float) -> Plate:
    """The pane with its family's glass, or with what is left of a plastic's modulus after so long."""
    elastic: Elastic = e1300.GLASS if family == "ASCE" else en16612.GLASS
    if pane.sheet.material != "glass":
        elastic = softened(plastic(pane.sheet.material, pane.sheet.name), duration_s)
    return Plate(pane.long_mm, pane.short_mm, _thickness_mm(pane), elastic)


def _thickness_mm(pane: Pane) -> float:
    """What bends; the formulas of laminated glass are for four sides, so here its plies act apart. [mm]"""
    plies = pane.sheet.plies
    if plies is None:
        return pane.sheet.thickness_mm
    apart = effective(plies, 0.0, 0.0)
    return min(apart.deflection_mm, apart.stress_mm)


def _covered(pane: Pane) -> bool:
    return pane.sheet.material == "glass"


def _asce(pane: Pane, held: Supported, loads: tuple[PaneLoad, ...]) -> Iterator[Check]:
    for load in loads:
        yield _asce_strength(pane, held, load)
        if held.clips is None:
            yield _asce_edge(pane, held, load)
    yield from _asce_scope(pane, loads)


def _asce_strength(pane: Pane, held: Supported, load: PaneLoad) -> Check:
    """On two sides the load against the failure model's, times the type factor of its duration."""
    limit, source = None, "ASTM E1300 covers edges held all along: clips are not covered"
    sheet = pane.sheet
    if held.clips is None:
        source = "ASTM E1300, failure prediction model on two sides, 8 in 1000, and glass type factor"
        multiple, known = load_multiple(held, Pressing(_UNIT_PA), e1300.FAILURE, e1300.SHORT_S)
        if known and _covered(pane) and sheet.surface == "plain":
            use = e1300.combined_use(load.parts or (load,), multiple * _UNIT_PA, sheet.treatment)
            limit = load.pressure_pa / use if use else None
    return Check(f"glass strength in {load.name}", load.pressure_pa, limit, "Pa", source, _CURE, _ROOM)


_UNIT_PA = 1000.0


def _asce_edge(pane: Pane, held: Supported, load: PaneLoad) -> Check:
    bent = _bent(held, load.pressure_pa)
    plain = _covered(pane) and pane.sheet.surface == "plain" and bent.known
    limit = e1300.edge_stress_mpa(pane.sheet.treatment, load.duration_s) if plain else None
    source = "ASTM E1300, allowable edge stress of clean cut glass, 8 in 1000"
    return Check(
        f"free edge of the glass in {load.name}",
        told(bent.edge_mpa, bent.known),
        limit,
        "MPa",
        source,
        _CURE,
        _ROOM,
    )


def _asce_scope(pane: Pane, loads: tuple[PaneLoad, ...]) -> Iterator[Check]:
    worst = max(load.pressure_pa for load in loads)
    source, cure = "ASTM E1300 scope", "Have a glass engineer prove a pane under so much load."
    yield Check("load within what E1300 covers", worst, e1300.SCOPE_PA, "Pa", source, cure, _ROOM)
    thin, cure = "ASTM E1300 table 4, thinnest designation", "Take glass of 2.5 mm or more."
    plies = pane.sheet.plies
    there = min(plies.outer_mm, plies.inner_mm) if plies else pane.sheet.thickness_mm
    yield Check("glass thick enough for E1300", e1300.THINNEST_MM, there, "mm", thin, cure, _ROOM)


def _en(pane: Pane, held: Supported, loads: tuple[PaneLoad, ...]) -> Iterator[Check]:
    factored = [load for load in loads if load.factored]
    for load in factored:
        yield from _en_strength(pane, held, load)
    if not factored:
        source = "EN 16612: needs factored loads"
        bent = _bent(held, max(load.pressure_pa for load in loads))
        yield Check(
            "glass strength",
            told(bent.worst_mpa, bent.known),
            None,
            "MPa",
            source,
            "Give loads with factors.",
            _ROOM,
        )
    service = max((load.pressure_pa for load in loads if not load.factored), default=0.0)
    yield _en_deflection(pane, _bent(held, service or max(load.pressure_pa for load in loads)))


def _en_strength(pane: Pane, held: Supported, load: PaneLoad) -> Iterator[Check]:
    """The whole pane, and its free edges apart: they are weaker."""
    bent, sheet = _bent(held, load.pressure_pa), pane.sheet
    asked = sheet.treatment, load.duration_s, sheet.surface
    known = bent.known and _covered(pane)
    body = en16612.strength_mpa(*asked) if known else None
    edge = en16612.edge_strength_mpa(*asked) if known else None
    source = "EN 16612 design strength against the plate's largest principal stress"
    yield Check(
        f"glass strength in {load.name}", told(bent.worst_mpa, bent.known), body, "MPa", source, _CURE, _ROOM
    )
    source = "EN 16612 design strength of a pulled edge, k_e 0.8 (recalled)"
    yield Check(
        f"free edge of the glass in {load.name}",
        told(bent.edge_mpa, bent.known),
        edge,
        "MPa",
        source,
        _CURE,
        _ROOM,
    )


def _en_deflection(pane: Pane, bent: SupportedBent) -> Check:
    """Span/65 and 50 mm: the span from held side to held side; on clips the short side, to be safe."""
    span = pane.long_mm if bent.supported.sides == "two short sides" else pane.short_mm
    limit = en16612.deflection_limit_mm(span) if bent.known and _covered(pane) else None
    source = "EN 16612 9.1.4: span/65 and 50 mm"
    return Check(
        "glass deflection", told(bent.deflection.value, bent.known), limit, "mm", source, _CURE, _ROOM
    )


def _range(held: Supported, pressure_pa: float) -> Iterator[Check]:
    """Whether the plate's theory reaches so far."""
    plate, bent = held.plate, _bent(held, pressure_pa)
    source = "range of this program's plate: small rotations, a load that grows along its path"
    yield Check("sides of the pane alike enough", plate.aspect, WIDEST, "-", source, _NARROWER, _ROOM)
    rule = "deflection within plate theory"
    limit = STEEPEST * plate.short_mm
    ended = not bent.known and bent.deflection.value <= limit  # the path turned back before
    yield Check(rule, bent.deflection.value, None if ended else limit, "mm", source, _CURE, _ROOM)


def _bent(held: Supported, pressure_pa: float) -> SupportedBent:
    return bend_supported(held, Pressing(pressure_pa))
