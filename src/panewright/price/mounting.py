"""What of a panel's mounting is sent with it, as needs with a price. It is no part of the panel's own mass.

Post, concrete and blocks are had at the site: no list buys them, no box holds them and no panel waits.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from panewright.price.bill import Need
from panewright.price.money import exact
from panewright.shelf.shelf import Row, Shelf
from panewright.structure.mounting.choice import MountingProof


def mounting_needs(proof: MountingProof, shelf: Shelf) -> Iterator[Need]:
    """Screws and bolts of one panel; what the shelf lacks has no price."""
    for part in (each for each in proof.parts if not each.at_site):
        row = _row(part.name, shelf)
        price, source = (row.price, row.source) if row else (None, "not on the shelf")
        mass = part.count * row.part.mass_kg if row else 0.0
        yield Need("mounting", part.name, exact(part.count), part.sold_by, price, source=source, sent_kg=mass)


def _row(name: str, shelf: Shelf) -> Row[Any] | None:
    """A part by its name on the shelf; all of these are sold by the piece."""
    groups: tuple[tuple[Row[Any], ...], ...] = (shelf.wood_screws, shelf.sundries)
    return next((row for group in groups for row in group if row.name == name), None)
