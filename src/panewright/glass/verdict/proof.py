"""What a rule book says of a pane, and the figures behind it; what all proofs of panes share."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from panewright.check import Check
from panewright.glass.load import PaneLoad
from panewright.glass.plate.bending import Bent, Plate, Sagged
from panewright.glass.plate.path import WIDEST

Family = Literal["ASCE", "EN"]
ROOM = "glass"
THICKER = "Take thicker glass, tempered glass, or a smaller pane."
RANGE_RULES = frozenset(  #: what fails where the plate's theory ends
    ("sides of the pane alike enough", "plate theory within its range", "deflection within plate theory")
)
_STIFFER = "Take a thicker sheet or a smaller pane."


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

    @property
    def known(self) -> bool:
        """Whether the plate's theory reaches so far; else the figures are those at the end of its range."""
        return all(check.passed for check in self.checks if check.rule in RANGE_RULES)


def told(figure: float, known: bool) -> float:
    """A figure of the plate; not a number where its theory does not reach so far."""
    return figure if known else math.nan


def range_checks(plate: Plate, pressure_pa: float) -> Iterator[Check]:
    """Whether the plate's theory reaches so far."""
    source = "range in which more functions change nothing: von Karman plate of this program"
    slender = "Bring the sides nearer to one another: take another number of columns."
    yield Check("sides of the pane alike enough", plate.aspect, WIDEST, "-", source, slender, ROOM)
    if plate.aspect <= WIDEST:
        known = plate.known_pa
        yield Check("plate theory within its range", pressure_pa, known, "Pa", source, _STIFFER, ROOM)


def proof_of(
    checks: Iterable[Check],
    service: Bent | Sagged,
    strength: Bent,
    nfl: float | None,
    name: str,
    thickness: float,
) -> PaneProof:
    """The checks with the figures of the worst load at either level."""
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


def worst_of(loads: Iterable[PaneLoad]) -> PaneLoad | None:
    """The largest load; None where there is none."""
    return max(loads, key=lambda load: load.pressure_pa, default=None)


def governing(strength: list[Check], loads: tuple[PaneLoad, ...]) -> str:
    """Name of the load whose check is used up most."""
    pairs = zip(strength, loads, strict=True)
    return max(pairs, key=lambda pair: pair[0].utilisation)[1].name


def unproved(rule: str, demand_mpa: float, source: str, cure: str = "Give loads with factors.") -> Check:
    """A demand that no rule covers."""
    return Check(rule, demand_mpa, None, "MPa", source, cure, ROOM)
