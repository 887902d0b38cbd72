"""What closes the back: a laminate of plastics, glass, a board with metal skins, a plastic board.

It keeps the string's voltage from a hand, and bears the heat behind the cells for life. Behind an air gap it
is a board that carries the cells between its screws: back_board.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from panewright.check import Check

Kind = Literal["laminate", "glass", "metal-skinned", "plastic"]
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
    stiff_pa: float | None = None  #: modulus in bending, under load for years; by its kind where not told

    def __post_init__(self) -> None:
        if (
            not min(self.thickness_mm, self.conducts_w_mk, self.mass_kg_m2, self.shear_pa) > 0
            or self.stiff_pa == 0
        ):
            raise ValueError(f"a back has a thickness, a mass and a strength, got {self}")
        if not (0 <= self.white <= 1 and self.water_g_m2_day >= 0 and self.holds_v >= 0):
            raise ValueError(f"a back scatters up to all light and lets water in, not out, got {self}")


@dataclass(frozen=True, slots=True)
class BackLoad:
    """What is asked of it."""

    system_v: float
    hottest_c: float  #: of the cells before it, leads open


def back_checks(back: Back, load: BackLoad) -> tuple[Check, Check]:
    """Voltage and heat."""
    return (
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


def _check(rule: str, held: tuple[float, float, str], source: str, cure: str) -> Check:
    demand, limit, unit = held
    return Check(rule, demand, limit, unit, source, cure, "enclosure")
