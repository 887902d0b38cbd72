"""The board behind an air gap: it carries the cells, lies on the seats and is held by screws along them.

Wind must not pull it off over the screws' heads:

    one screw holds = pi x washer x thickness x shear strength / 3

A factor of three for a plastic that creeps and is cut by the washer's rim: the shop's own rule.

Under its own mass and that of cells and ribbons it sags as a plate that lies free on four sides:

    sag = 16 q a^4 / (pi^6 D) x sum of sin(m pi / 2) sin(n pi / 2) / (m n (m^2 + n^2 (a / b)^2)^2), m, n odd
    D = E t^3 / (12 (1 - 0.3^2))

a short, b long, between the screws (Navier; Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells,
art. 30, recalled). What a deep sag pulls straight again is left out, on the safe side. It may sag by half the
gap: a panel is turned over when it is carried, and wind bends the pane towards the cells. A board wider than
250 of its thicknesses drums in the wind. Both limits: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from panewright.check import Check
from panewright.enclosure.back_sheet import Back, BackLoad, Kind, back_checks
from panewright.enclosure.conduction import AIR_GAP_MM
from panewright.units import MM

WASHER_MM = 12.0  #: under the head of a tapping screw 5.5 mm; common practice
APART_MM = 150.0  #: screws of a board along the frame; common practice
FROM_END_MM = 50.0  #: the first from a rail's end, clear of the corner; common practice
PULL_FACTOR = 3.0
WITH_RIBBONS = 1.5  #: cells with ribbons, solder and dabs of glue, over the cells alone; common practice
SAG_MM = AIR_GAP_MM / 2
THICKNESSES = 250.0  #: widest span between screws
STIFF_PA: dict[Kind, float] = {
    "laminate": 3.0e9,  # polyester, along the sheet; recalled
    "glass": 70.0e9,  # EN 572-1
    "metal-skinned": 34.0e9,  # skins of aluminium a tenth of the board thick; derived
    "plastic": 0.4e9,  # polypropylene after years under load, a third of its first modulus; recalled
}
_G_M_S2 = 9.81
_POISSON = 0.3
_TERMS = (1, 3, 5, 7, 9, 11, 13)


@dataclass(frozen=True, slots=True)
class Screwed:
    """A board between its screws, and what it carries."""

    long_mm: float  #: between the lines of screws
    short_mm: float
    suction_pa: float  #: wind
    cells_kg_m2: float  #: as if they lay all over it, with their ribbons
    apart_mm: float = APART_MM  #: the farthest two screws


def screw_holds_n(back: Back) -> float:
    """Pull at which one screw's washer may come through. [N]"""
    area_m2 = math.pi * WASHER_MM * back.thickness_mm * MM**2
    return area_m2 * back.shear_pa / PULL_FACTOR


def sag_mm(back: Back, held: Screwed) -> float:
    """How far the middle hangs when the panel lies flat. [mm]"""
    load_pa = _G_M_S2 * (back.mass_kg_m2 + held.cells_kg_m2)
    stiff_pa = back.stiff_pa or STIFF_PA[back.kind]
    plate_nm = stiff_pa * (back.thickness_mm * MM) ** 3 / (12 * (1 - _POISSON**2))
    waves = sum(
        math.sin(m * math.pi / 2)
        * math.sin(n * math.pi / 2)
        / (m * n * (m**2 + (n * held.short_mm / held.long_mm) ** 2) ** 2)
        for m, n in product(_TERMS, repeat=2)
    )
    return 16 * load_pa * (held.short_mm * MM) ** 4 * waves / (math.pi**6 * plate_nm) / MM


def board_places(long_mm: float) -> tuple[float, ...]:
    """Screws along one rail: one near either end, the others evenly between, to a millimetre. [mm]

    >>> board_places(500.0)
    (50.0, 183.0, 317.0, 450.0)
    """
    between = max(0.0, long_mm - 2 * FROM_END_MM)
    bays = max(1, math.ceil(between / APART_MM - 1e-9))
    inner = (round(FROM_END_MM + between * number / bays) for number in range(1, bays))
    return (FROM_END_MM, *map(float, inner), FROM_END_MM + between)


def farthest_mm(rails_mm: Sequence[Sequence[float]]) -> float:
    """The farthest two screws beside each other on any rail. [mm]"""
    ordered = [sorted(places) for places in rails_mm]
    return max((b - a for places in ordered for a, b in pairwise(places)), default=APART_MM)


def pull_n(held: Screwed) -> float:
    """Of wind on one screw, where each carries half the board's width. [N]"""
    return held.suction_pa * held.apart_mm * held.short_mm / 2 * MM**2


def board_checks(back: Back, held: Screwed) -> tuple[Check, ...]:
    """Pull at its screws, where each carries half the board's width; sag, span, no screws through glass."""
    return (
        Check(
            "back board holds under its screws",
            pull_n(held),
            screw_holds_n(back),
            "N",
            f"shear round a washer of {WASHER_MM:g} mm, screws {held.apart_mm:.0f} mm apart, factor 3",
            "Set the screws closer, take larger washers or a thicker board.",
            "enclosure",
        ),
        Check(
            "back board stiff enough for its cells",
            sag_mm(back, held),
            SAG_MM,
            "mm",
            "a plate on four sides under board and cells; half the air gap: common practice, no source",
            "Take a stiffer or thicker board, or a narrower panel.",
            "enclosure",
        ),
        Check(
            "back board's span between its screws",
            held.short_mm,
            THICKNESSES * back.thickness_mm,
            "mm",
            f"{THICKNESSES:g} times its thickness: common practice, no source",
            "Take a thicker board, or a narrower panel.",
            "enclosure",
        ),
        *_glass(back),
    )


def _glass(back: Back) -> tuple[Check, ...]:
    if back.kind != "glass":
        return ()
    cure = "Take a board behind an air gap; glass goes on a pour or a film."
    return (
        Check("screws through a back of glass", 1.0, 0.0, "-", "no screw bears on glass", cure, "enclosure"),
    )


def every_check(back: Back, load: BackLoad, held: Screwed | None) -> tuple[Check, ...]:
    """Of a back; of a board, with what screws and cells ask of it."""
    return (*back_checks(back, load), *(board_checks(back, held) if held else ()))


def choose_back(backs: Sequence[Back], load: BackLoad, held: Screwed | None = None) -> Back:
    """The first that holds every rule; else, of those that fail the fewest, the nearest to holding."""
    return min(backs, key=lambda back: _fails(every_check(back, load, held)))


def _fails(checks: Sequence[Check]) -> tuple[int, float]:
    """How many fail, and how far beyond its limit the worst of them stands."""
    failed = [check for check in checks if not check.passed]
    return len(failed), max((_beyond(check) for check in failed), default=0.0)


def _beyond(check: Check) -> float:
    return check.demand / check.limit if check.limit else math.inf
