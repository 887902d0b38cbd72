"""What closes the back: a laminate of plastics, glass, a board with metal skins, a plastic board.

It keeps the string's voltage from a hand, and bears the heat behind the cells for life. Behind an air gap,
where screws hold it, wind must not pull it off over their heads:

    one screw holds = pi x washer x thickness x shear strength / 3

A factor of three for a plastic that creeps and is cut by the washer's rim: the shop's own rule.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.units import MM

Kind = Literal["laminate", "glass", "metal-skinned", "plastic"]
WASHER_MM = 12.0  #: under the head of a screw M5; common practice
APART_MM = 150.0  #: screws of a board along the frame; common practice
FROM_END_MM = 50.0  #: the first from a rail's end, clear of the corner; common practice
BOARD_HOLE_MM = 5.5  #: for a screw M5, as elsewhere in the frame
PULL_FACTOR = 3.0
_SHEET = "the sheet's own data"


@dataclass(frozen=True, slots=True)
class Back:
    """A back as its data sheet says."""

    name: str
    kind: Kind
    thickness_mm: float
    holds_v: float  #: greatest system voltage (partial discharge)
    bears_c: float  #: for life (relative thermal index, or softening)
    water_g_m2_day: float  #: at 38 degC and 90 %; 0 for glass and metal
    white: float  #: share of the light it scatters where silicon sees
    conducts_w_mk: float
    shear_pa: float
    mass_kg_m2: float

    def __post_init__(self) -> None:
        if not min(self.thickness_mm, self.conducts_w_mk, self.mass_kg_m2, self.shear_pa) > 0:
            raise ValueError(f"a back has a thickness, a mass and a strength, got {self}")
        if not (0 <= self.white <= 1 and self.water_g_m2_day >= 0 and self.holds_v >= 0):
            raise ValueError(f"a back scatters up to all light and lets water in, not out, got {self}")


@dataclass(frozen=True, slots=True)
class BackLoad:
    """What is asked of it."""

    system_v: float
    hottest_c: float  #: of the cells before it, leads open
    suction_pa: float = 0.0  #: wind, where screws hold it; 0 where it is bonded all over


def screw_holds_n(back: Back) -> float:
    """Pull at which one screw's washer may come through. [N]"""
    area_m2 = math.pi * WASHER_MM * back.thickness_mm * MM**2
    return area_m2 * back.shear_pa / PULL_FACTOR


def board_screws(rails_mm: Sequence[float]) -> int:
    """Screws of a board on all rails: one near either end of each, the others no farther apart than told.

    >>> board_screws([1000.0, 500.0, 1000.0, 500.0])
    24
    """
    return sum(1 + max(1, math.ceil((long - 2 * FROM_END_MM) / APART_MM - 1e-9)) for long in rails_mm)


def back_checks(back: Back, load: BackLoad, half_span_mm: float = 0.0) -> tuple[Check, ...]:
    """Voltage, heat, and pull where screws hold it; each carries half the board's width to the other side."""
    checks = (
        _check(
            "back sheet holds the system voltage",
            (load.system_v, back.holds_v, "V"),
            _SHEET,
            "Take a back sheet rated for more.",
        ),
        _check(
            "heat the back sheet bears",
            (load.hottest_c, back.bears_c, "degC"),
            f"hottest cell, leads open, against {_SHEET}",
            "Take a back sheet that bears more, or let air behind the panel.",
        ),
    )
    if not load.suction_pa:
        return checks
    pull_n = load.suction_pa * APART_MM * half_span_mm * MM**2
    pull = _check(
        "back board holds under its screws",
        (pull_n, screw_holds_n(back), "N"),
        f"shear round a washer of {WASHER_MM:g} mm, screws {APART_MM:g} mm apart, factor 3: shop rule",
        "Set the screws closer, take larger washers or a thicker board.",
    )
    return (*checks, pull)


def _check(rule: str, held: tuple[float, float, str], source: str, cure: str) -> Check:
    demand, limit, unit = held
    return Check(rule, demand, limit, unit, source, cure, "enclosure")


def choose_back(backs: Sequence[Back], load: BackLoad) -> Back:
    """The first that holds voltage and heat; the first of all where none does."""
    return next((back for back in backs if all(c.passed for c in back_checks(back, load)[:2])), backs[0])
