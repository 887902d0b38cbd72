"""Cells that float: a wafer is twice as heavy as silicone, but air caught below carries it.

A film of air under a cell lifts it when it weighs down less than the silicone pushed aside:

    cell x silicon = (cell + film) x silicone        film = cell (silicon - silicone) / silicone   [A]

A cell 0.18 mm thick floats on 0.23 mm of air, so a bubble under a quarter of a cell that lies a millimetre
over the glass is enough. Ribbon and joints hold it a little; nobody counts on them.

[A] Archimedes. Silicon 2330 kg/m3 at 25 degC (handbook, memory). Air is nothing beside either.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.check import Check
from panewright.units import GRAVITY_M_S2, MM

SILICON_KG_M3 = 2330.0


@dataclass(frozen=True, slots=True)
class Floating:
    """What air it takes to lift a cell, and what holds it down."""

    film_mm: float  #: of air under the whole cell that just carries it
    share: float  #: of the cell over air as deep as the gap below it that carries it; 1 where none does
    hold_kg: float  #: on each cell, were the whole gap under it air
    checks: tuple[Check, ...]


def lifting_film_mm(cell_mm: float, liquid_kg_m3: float) -> float:
    """Thickness of air under a cell that just carries it; 0 where the cell floats without. [mm]  [A]

    >>> round(lifting_film_mm(0.18, 1030.0), 2)
    0.23
    """
    return max(0.0, cell_mm * (SILICON_KG_M3 - liquid_kg_m3) / liquid_kg_m3)


def lift_n(cell_mm: float, film_mm: float, liquid_kg_m3: float, area_mm2: float) -> float:
    """Push upward on a cell over so much air; less than nothing where it sinks. [N]  [A]"""
    kg_m2 = (liquid_kg_m3 * (cell_mm + film_mm) - SILICON_KG_M3 * cell_mm) * MM
    return kg_m2 * GRAVITY_M_S2 * area_mm2 * MM**2


def floating(cell_mm: float, area_mm2: float, gap_mm: float, liquid_kg_m3: float) -> Floating:
    """One cell `gap_mm` over the glass in a liquid silicone."""
    film_mm = lifting_film_mm(cell_mm, liquid_kg_m3)
    hold_n = max(0.0, lift_n(cell_mm, gap_mm, liquid_kg_m3, area_mm2))
    return Floating(film_mm, min(1.0, film_mm / gap_mm), hold_n / GRAVITY_M_S2, (_sinks(liquid_kg_m3),))


def _sinks(liquid_kg_m3: float) -> Check:
    return Check(
        rule="cells heavier than the pour",
        demand=liquid_kg_m3,
        limit=SILICON_KG_M3,
        unit="kg/m3",
        source="density of silicon, handbook (memory)",
        cure="Take a silicone without heavy filler.",
        room="enclosure",
    )
