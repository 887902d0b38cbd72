"""Laminating film: sizes to cut, and how far it has cross-linked.

Peroxide in the film falls apart in the heat and ties its chains together. Taken as of the first order:

    gel = most (1 - exp(-sum of k dt)),    k = k150 exp(-(E / R) (1/T - 1/T150))

The gel content is what a hot solvent no longer takes out: 75 to 95 % is the window, less creeps in the sun,
more turns brittle and yellows (common practice of the trade; the film's sheet decides).

[W] G. M. Wallner and others, Polymers 14, 2022, art. 1441, abstract (seen): 155 kJ/mol for EVA and POE
    alike; POE takes up to 1.6 times as long to 95 %.
[T] K. Thaworn and others, Open J. Polym. Chem. 2, 2012, p. 77, abstract (seen): peroxyester cures EVA out
    within 5 to 8 min at 150 to 160 degC. Read as: nine tenths in 8 min at 150 degC. Slow films take three
    times as long (memory).
[P] National laboratory in the USA, 1996 abstract (seen): about 80 % gel in 4 min programmed at 155 degC.
[F] A film maker's sheet (seen): shrinks less than 3 % along and 1 % across in 3 min at 100 degC; gel above
    85 %.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from panewright.enclosure.arrhenius import slower

Kind = Literal["EVA", "POE"]
ENERGY_J_MOL = 155e3  #: [W]
KNOWN_C = 150.0
MOST_GEL = 0.95  #: of a film cured out; memory
GEL_LEAST, GEL_MOST = 0.75, 0.95
NINE_TENTHS_MIN: dict[Kind, float] = {"EVA": 8.0, "POE": 12.8}  #: at 150 degC [T] [W]


@dataclass(frozen=True, slots=True)
class Film:
    """A laminating film, as its data sheet says."""

    name: str = "EVA film 0.45 mm"
    kind: Kind = "EVA"
    thickness_mm: float = 0.45
    shrinks_along: float = 0.03
    shrinks_across: float = 0.01
    soft_c: float = 80.0  #: flows under a press; EVA melts at 60 to 75 degC, memory
    nine_tenths_min: float = 8.0  #: to nine tenths of its most gel, at 150 degC
    most_c: float = 160.0  #: hotter it yellows and blows bubbles; memory
    density_kg_m3: float = 960.0

    def __post_init__(self) -> None:
        if not (self.thickness_mm > 0 and self.nine_tenths_min > 0):
            raise ValueError(f"a film has a thickness and takes time to cure, got {self}")
        if not 0 <= self.shrinks_across <= self.shrinks_along < 0.5:
            raise ValueError(f"a film shrinks more along than across, got {self}")


@dataclass(frozen=True, slots=True)
class Sheet:
    """One piece to cut."""

    long_mm: float
    short_mm: float


def per_min(film: Film, at_c: float) -> float:
    """Rate of the cross-linking. [1/min]  [T] [W]

    >>> round(per_min(Film(), 150.0), 3), round(per_min(Film(), 140.0), 3)
    (0.288, 0.099)
    """
    return math.log(10.0) / film.nine_tenths_min / slower(ENERGY_J_MOL, KNOWN_C, at_c)


def gel(film: Film, held: Iterable[tuple[float, float]]) -> float:
    """Gel content after (minutes, degC) in turn. [-]

    >>> round(gel(Film(), [(4.0, 155.0)]), 2), round(gel(Film(), [(15.0, 145.0)]), 2)
    (0.81, 0.88)
    """
    return MOST_GEL * (1 - math.exp(-sum(per_min(film, at_c) * minutes for minutes, at_c in held)))


def cut_sheet(film: Film, pane_long_mm: float, pane_short_mm: float, back_mm: float) -> Sheet:
    """Film to cut so that, shrunk, it ends `back_mm` from the pane's edge; the roll runs along the long side.

    >>> cut_sheet(Film(), 1500.0, 650.0, 12.0)
    Sheet(long_mm=1522.0, short_mm=633.0)
    """
    long_mm, short_mm = pane_long_mm - 2 * back_mm, pane_short_mm - 2 * back_mm
    if min(long_mm, short_mm) <= 0:
        raise ValueError(f"no film is left {back_mm:g} mm inside {pane_long_mm:g} x {pane_short_mm:g} mm")
    return Sheet(
        math.ceil(long_mm / (1 - film.shrinks_along)) * 1.0,
        math.ceil(short_mm / (1 - film.shrinks_across)) * 1.0,
    )
