"""What closes a panel, as sundries of the parts list: by mass, and by price as the shelf sells it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from panewright.enclosure.film import Film
from panewright.shelf.shelf import Row, Shelf, Sundry, Use
from panewright.units import MM

_LITRE_M3 = 1e-3


def film_kg_m2(film: Film) -> float:
    """A square metre of film. [kg/m2]"""
    return film.density_kg_m3 * film.thickness_mm * MM


def closing_rows(shelf: Shelf, use: Use) -> tuple[Row[Sundry], ...]:
    """Rows of what is poured, laminated or laid behind; nothing for any other use."""
    if use == "encapsulant":
        return _as_sundries(use, shelf.pours, lambda row: _pour_kg(row))
    if use == "film":
        return _as_sundries(use, shelf.films, lambda row: film_kg_m2(row.part))
    if use == "back sheet":
        return _as_sundries(use, shelf.backs, lambda row: row.part.mass_kg_m2)
    return ()


def _pour_kg(row: Row[Any]) -> float:
    return row.part.density_kg_m3 * _LITRE_M3 if row.sold_by == "litre" else 1.0


def _as_sundries(
    use: Use, rows: tuple[Row[Any], ...], mass_kg: Callable[[Row[Any]], float]
) -> tuple[Row[Sundry], ...]:
    return tuple(
        Row(row.name, Sundry(row.name, use, mass_kg(row)), row.price, row.sold_by, row.source) for row in rows
    )
