"""Things bought that need no proof: how much of each one panel takes.

A use may be sold by the piece, the metre, the square metre, the kilogram or the litre; each use says how
much of each it takes. All amounts without a geometry behind them are common practice, no source. Of each
use the first row of the shelf that serves is taken.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from panewright.price.bill import PIECES, Group, Need
from panewright.price.money import exact
from panewright.shelf.shelf import Row, Shelf, Sundry, Use

LEADS_M = 1.8  #: both leads together
SEAM_FLUX_L = 0.0002  #: flux for one ribbon along one busbar
SEAM_SOLDER_KG = 0.00005  #: solder added where the ribbon's own coat does not do
JOINT_SOLDER_KG = 0.0004  #: solder on a bus joint
BACK_WASTE, FILM_WASTE, POUR_WASTE = 0.05, 0.10, 0.0  # the pour's own waste is in its mass
BOX_DIODES = 2  #: diodes that the first box on the shelf takes; a larger box follows it
THIN_LEAD_A = 25.0  #: what the first lead on the shelf carries in a bundle in the sun


@dataclass(frozen=True, slots=True)
class Amounts:
    """What sundries are counted by, for one panel."""

    encapsulation: str
    pane_m2: float
    round_m: float
    pour_kg: float
    pour_l: float
    diodes: int
    corners: int
    corner_screws: int
    brackets: int
    drains: int
    seams: int  #: ribbons along busbars, both sides counted
    joints: int  #: on bus ribbons and leads
    isc_a: float


@dataclass(frozen=True, slots=True)
class Taken:
    """How one use is counted in each way it may be sold, and how much of it is lost."""

    use: Use
    group: Group
    by: Mapping[str, float]
    waste: float = 0.0
    stays: bool = True  #: whether it is still there in the finished panel
    place: int = 0  #: which of the shelf's rows of that use; the last where there are fewer


def taken(amounts: Amounts) -> Iterator[Taken]:
    """Every use of one panel."""
    poured, film = amounts.encapsulation == "silicone pour", amounts.encapsulation == "film"
    air = amounts.encapsulation == "air gap"
    film_m2 = 2 * amounts.pane_m2
    flux_l = amounts.seams * SEAM_FLUX_L
    solder_kg = amounts.seams * SEAM_SOLDER_KG + amounts.joints * JOINT_SOLDER_KG
    yield Taken("corner", "frame", {"each": amounts.corners})
    yield Taken("screw", "frame", {"each": amounts.corner_screws})
    yield Taken("bracket", "frame", {"each": amounts.brackets})
    yield Taken("bolt", "frame", {"each": amounts.brackets})
    yield Taken("drain", "frame", {"each": amounts.drains})
    yield Taken("block", "seal", {"each": 2})
    yield Taken("tape", "seal", {"metre": amounts.round_m if air else 0.0}, 0.05)
    yield Taken("box", "electrical", {"each": 1}, place=int(amounts.diodes > BOX_DIODES))
    yield Taken("lead", "electrical", {"metre": LEADS_M}, place=int(amounts.isc_a > THIN_LEAD_A))
    yield Taken("earth", "electrical", {"each": 1})
    pour = {"kilogram": amounts.pour_kg, "litre": amounts.pour_l} if poured else {}
    yield Taken("encapsulant", "closing", pour, POUR_WASTE)
    yield Taken("film", "closing", {"square metre": film_m2} if film else {}, FILM_WASTE)
    yield Taken("back sheet", "closing", {"square metre": amounts.pane_m2}, BACK_WASTE)
    yield Taken("label", "closing", {"each": 1})
    yield Taken("flux", "consumables", {"litre": flux_l, "kilogram": 0.8 * flux_l}, 0.2, stays=False)
    yield Taken("solder", "consumables", {"kilogram": solder_kg}, 0.2)


def sundry_needs(amounts: Amounts, shelf: Shelf) -> tuple[Need, ...]:
    """Sundries of one panel, priced where the shelf has them."""
    return tuple(need for use in taken(amounts) if (need := _need(use, shelf)).one > 0)


def _need(use: Taken, shelf: Shelf) -> Need:
    row = _row(use, shelf)
    if row is None:
        sold_by, quantity = next(iter(use.by.items()), ("each", 0.0))
        return Need(use.group, use.use, exact(quantity), sold_by, None, source="not on the shelf")
    quantity = _quantity(use, row)
    mass = quantity * row.part.mass_kg if use.stays else 0.0
    return Need(
        use.group,
        row.name,
        exact(quantity),
        row.sold_by,
        row.price,
        exact(use.waste),
        mass_kg=mass,
        source=row.source,
    )


def _row(use: Taken, shelf: Shelf) -> Row[Sundry] | None:
    rows = [row for row in shelf.sundries if row.part.use == use.use]
    return rows[min(use.place, len(rows) - 1)] if rows else None


def _quantity(use: Taken, row: Row[Sundry]) -> float:
    """Amount in the way the row is sold; a pack of unknown content counts as one a panel."""
    if row.sold_by in use.by:
        return use.by[row.sold_by]
    return 1.0 if row.sold_by in PIECES and any(use.by.values()) else 0.0
