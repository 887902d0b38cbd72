"""A pane under all its loads, held against one rule book.

ASCE: ASTM E1300 with the loads at allowable level. EN: EN 16612, strength under the factored loads,
deflection under the others. Neither covers plastics: for those the checks say so and the shop's own
reckoning stands beside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.glass import e1300, en16612
from panewright.glass.load import PaneLoad
from panewright.glass.pane import Pane, Sheet
from panewright.glass.plastic import LASTING_S, Plastic, plastic, softened
from panewright.glass.plate.bending import Bent, Elastic, Plate, bend
from panewright.glass.plate.path import WIDEST

Family = Literal["ASCE", "EN"]
_ROOM = "glass"
_STIFFER = "Take a thicker sheet or a smaller pane."
_THICKER = "Take thicker glass, tempered glass, or a smaller pane."
_CELL_STRAIN = 8e-4  # a wafer carried along bears about 100 MPa at 130 GPa (recalled)


@dataclass(frozen=True, slots=True)
class PaneProof:
    """What a pane's rule book says, and the figures behind it."""

    checks: tuple[Check, ...]
    deflection_mm: float  #: at the middle, under the worst load at service level
    peak_mpa: float  #: largest tension anywhere, under the worst load at strength level
    non_factored_load_pa: float | None  #: ASTM E1300, annealed, 3 s; None for EN and plastics
    w_over_t: float  #: deflection over thickness, at strength level
    centre_mpa: float = 0.0  #: tension at the middle, beside the peak
    peak_long_mm: float = 0.0  #: place of the peak from the middle
    peak_short_mm: float = 0.0
    governing: str = ""  #: name of the load that uses up most of the strength
    thickness_mm: float = 0.0  #: as proved


def judge_pane(pane: Pane, family: Family, loads: tuple[PaneLoad, ...]) -> PaneProof:
    """Every check of a pane under its loads, in the rule book of one family."""
    if not loads:
        raise ValueError("a pane is judged under at least one load")
    if family not in ("ASCE", "EN"):
        raise ValueError(f"the rule books are ASCE and EN, not {family!r}")
    if family == "ASCE" and any(load.factored for load in loads):
        raise ValueError("ASTM E1300 takes loads at allowable level, not factored ones")
    if pane.sheet.material != "glass":
        return _judge_plastic(pane, family, loads)
    return _judge_asce(pane, loads) if family == "ASCE" else _judge_en(pane, loads)


def _plate(pane: Pane, elastic: Elastic) -> Plate:
    return Plate(pane.long_mm, pane.short_mm, pane.sheet.thickness_mm, elastic)


def _worst(loads: Iterable[PaneLoad]) -> PaneLoad | None:
    return max(loads, key=lambda load: load.pressure_pa, default=None)


def _range_checks(plate: Plate, pressure_pa: float) -> Iterator[Check]:
    """Whether the plate's theory reaches so far."""
    source = "range in which more functions change nothing: von Karman plate of this program"
    slender = "Bring the sides nearer to one another: take another number of columns."
    yield Check("sides of the pane alike enough", plate.aspect, WIDEST, "-", source, slender, _ROOM)
    if plate.aspect <= WIDEST:
        known = plate.known_pa
        yield Check("plate theory within its range", pressure_pa, known, "Pa", source, _STIFFER, _ROOM)


def _proof(
    checks: Iterable[Check], service: Bent, strength: Bent, nfl: float | None, name: str, thickness: float
) -> PaneProof:
    return PaneProof(
        tuple(checks),
        service.deflection_mm,
        strength.worst_mpa,
        nfl,
        strength.w_over_t,
        strength.centre_mpa,
        strength.peak_long_mm,
        strength.peak_short_mm,
        name,
        thickness,
    )


def _judge_asce(pane: Pane, loads: tuple[PaneLoad, ...]) -> PaneProof:
    plate = _plate(pane, e1300.GLASS)
    nfl = e1300.non_factored_load_pa(pane.long_mm, pane.short_mm, pane.sheet.thickness_mm)
    worst = max(loads, key=lambda load: load.pressure_pa)
    # past what is known of the plate its load is that of the range's end, and proves nothing
    known = nfl if worst.pressure_pa <= plate.known_pa else None
    strength = [_asce_strength(pane.sheet, known, load) for load in loads]
    checks = (*strength, *_asce_scope(pane, worst), *_range_checks(plate, worst.pressure_pa))
    bent = bend(plate, worst.pressure_pa)
    return _proof(checks, bent, bent, nfl, _governing(strength, loads), pane.sheet.thickness_mm)


def _asce_strength(sheet: Sheet, nfl: float | None, load: PaneLoad) -> Check:
    """Load against resistance: type factor for each part's duration times the non-factored load."""
    use = None
    if nfl is not None and sheet.surface == "plain":
        use = e1300.combined_use(load.parts or (load,), nfl, sheet.treatment)
    limit = load.pressure_pa / use if use else None
    source = "ASTM E1300, failure prediction model, 8 in 1000, and glass type factor"
    cure = _THICKER
    if limit is None and sheet.surface != "plain":
        cure = f"E1300 does not cover {sheet.surface} glass: take plain glass, or design by EN throughout."
    elif limit is None and nfl is not None:
        cure = "Say whether the glass is annealed, heat-strengthened or tempered."
    return Check(f"glass strength in {load.name}", load.pressure_pa, limit, "Pa", source, cure, _ROOM)


def _asce_scope(pane: Pane, worst: PaneLoad) -> Iterator[Check]:
    yield Check(
        "load within what E1300 covers",
        worst.pressure_pa,
        e1300.SCOPE_PA,
        "Pa",
        "ASTM E1300 scope",
        "Have a glass engineer prove a pane under so much load.",
        _ROOM,
    )
    yield Check(
        "glass thick enough for E1300",
        e1300.THINNEST_MM,
        pane.sheet.thickness_mm,
        "mm",
        "ASTM E1300 table 4, thinnest designation",
        "Take glass of 2.5 mm or more.",
        _ROOM,
    )


def _governing(strength: list[Check], loads: tuple[PaneLoad, ...]) -> str:
    """Name of the load whose check is used up most."""
    pairs = zip(strength, loads, strict=True)
    return max(pairs, key=lambda pair: pair[0].utilisation)[1].name


def _judge_en(pane: Pane, loads: tuple[PaneLoad, ...]) -> PaneProof:
    plate = _plate(pane, en16612.GLASS)
    factored = tuple(load for load in loads if load.factored)
    service = tuple(load for load in loads if not load.factored)
    bents = [bend(plate, load.pressure_pa) for load in factored]
    strength = [_en_strength(pane.sheet, bent, load) for bent, load in zip(bents, factored, strict=True)]
    heaviest = max(loads, key=lambda load: load.pressure_pa)
    worst = _worst(factored) or heaviest
    hard = bents[factored.index(worst)] if factored else bend(plate, worst.pressure_pa)
    soft = bend(plate, (_worst(service) or worst).pressure_pa)
    checks = [*strength, _en_deflection(pane, soft), *_range_checks(plate, heaviest.pressure_pa)]
    if not factored:
        checks.append(_unproved("glass strength", hard.worst_mpa, "EN 16612: needs factored loads"))
    name = _governing(strength, factored) if factored else worst.name
    return _proof(checks, soft, hard, None, name, pane.sheet.thickness_mm)


def _unproved(rule: str, demand_mpa: float, source: str, cure: str = "Give loads with factors.") -> Check:
    return Check(rule, demand_mpa, None, "MPa", source, cure, _ROOM)


def _en_strength(sheet: Sheet, bent: Bent, load: PaneLoad) -> Check:
    limit = en16612.strength_mpa(sheet.treatment, load.duration_s, sheet.surface) if bent.known else None
    source = "EN 16612 design strength against the plate's largest principal stress"
    return Check(f"glass strength in {load.name}", bent.worst_mpa, limit, "MPa", source, _THICKER, _ROOM)


def _en_deflection(pane: Pane, bent: Bent) -> Check:
    limit = en16612.deflection_limit_mm(pane.short_mm) if bent.known else None
    cure = "Take thicker glass or a narrower pane."
    source = "EN 16612 9.1.4: short side/65 and 50 mm"
    return Check("glass deflection", bent.deflection_mm, limit, "mm", source, cure, _ROOM)


def _judge_plastic(pane: Pane, family: Family, loads: tuple[PaneLoad, ...]) -> PaneProof:
    """No rule book covers it; the shop's own reckoning by a modulus that creeps."""
    name = pane.sheet.material
    kind = plastic("acrylic" if name == "acrylic" else "polycarbonate", pane.sheet.name)
    plates = [_plate(pane, softened(kind, load.duration_s)) for load in loads]
    bents = [bend(plate, load.pressure_pa) for plate, load in zip(plates, loads, strict=True)]
    softest = max(bents, key=lambda bent: bent.deflection_mm)
    hardest = max(bents, key=lambda bent: bent.worst_mpa)
    at = bents.index(hardest)
    checks = [
        _not_covered(family, name, hardest),
        *_own_checks(name, kind, plates, bents, loads),
        *_range_checks(plates[bents.index(softest)], softest.pressure_pa),
    ]
    return _proof(checks, softest, hardest, None, loads[at].name, pane.sheet.thickness_mm)


def _not_covered(family: Family, name: str, bent: Bent) -> Check:
    book = "ASTM E1300" if family == "ASCE" else "EN 16612"
    cure = f"{book} proves glass only: take glass, or let the sheet's maker vouch for {name}."
    return _unproved(f"{name} strength", bent.worst_mpa, f"{book} does not cover plastics", cure)


def _own_checks(
    name: str, kind: Plastic, plates: list[Plate], bents: list[Bent], loads: tuple[PaneLoad, ...]
) -> Iterator[Check]:
    """Crazing under lasting loads, and what the sheet's strain does to the cells on it."""
    for bent, load in zip(bents, loads, strict=True):
        if load.duration_s >= LASTING_S:
            rule = f"{name} stress against crazing in {load.name}"
            limit = kind.lasting_mpa if bent.known else None
            cure = "Take a thicker sheet or glass."
            yield Check(rule, bent.worst_mpa, limit, "MPa", kind.source, cure, _ROOM)
    strain = max(b.worst_mpa * 1e6 / p.elastic.young_pa for b, p in zip(bents, plates, strict=True))
    yield Check(
        f"stretch of the {name} that cells can follow",
        strain * 100,
        _CELL_STRAIN * 100 if all(bent.known for bent in bents) else None,
        "%",
        "shop's own reckoning: a wafer carried along breaks at about 100 MPa (recalled)",
        "Cells crack on a sheet that bows so far: take a thicker sheet, a smaller pane or glass.",
        _ROOM,
    )
