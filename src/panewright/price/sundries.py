"""Things bought that need no proof, as needs with a price.

How much of each one panel takes stands in `structure/sundries.py`.
"""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache

from panewright.price.bill import PIECES, Group, Need
from panewright.price.money import exact
from panewright.shelf.shelf import Shelf, Use
from panewright.structure.sundries import PATCH_KG, Amounts, Sold, sold

GROUP: dict[Use, Group] = {
    "corner": "frame",
    "screw": "frame",
    "bracket": "frame",
    "bolt": "frame",
    "drain": "frame",
    "cleat": "frame",
    "tapping screw": "frame",
    "rivet": "frame",
    "stainless rivet": "frame",
    "isolator": "frame",
    "block": "seal",
    "tape": "seal",
    "box": "electrical",
    "lead": "electrical",
    "plug": "electrical",
    "ferrule": "electrical",
    "sleeve": "electrical",
    "crossing film": "electrical",
    "earth": "electrical",
    "encapsulant": "closing",
    "film": "closing",
    "back sheet": "closing",
    "board screw": "closing",
    "desiccant": "closing",
    "vent": "closing",
    "label": "closing",
    "flux": "consumables",
    "solder": "consumables",
    "filler": "consumables",
}


@lru_cache(maxsize=64)
def sundry_needs(amounts: Amounts, shelf: Shelf) -> tuple[Need, ...]:
    """Sundries of one panel, priced where the shelf has them; kept for other numbers of panels."""
    return tuple(_need(each, _once(each, amounts)) for each in sold(amounts, shelf))


def _once(each: Sold, amounts: Amounts) -> Decimal:
    """Silicone of the trial patch, in the measure that the pour is sold by."""
    if each.taken.use != "encapsulant" or each.sold_by in PIECES or not amounts.pour_kg:
        return Decimal(0)
    return exact(each.quantity * PATCH_KG / amounts.pour_kg)


def _need(each: Sold, once: Decimal) -> Need:
    row, use, group = each.row, each.taken.use, GROUP[each.taken.use]
    amount = exact(each.quantity)
    if row is None:
        source = "not on the shelf in this size" if use in _SIZED else "not on the shelf"
        return Need(group, each.name, amount, each.sold_by, None, source=source, use=use, once=once)
    return Need(
        group,
        row.name,
        amount,
        row.sold_by,
        row.price,
        exact(each.taken.waste),
        mass_kg=each.mass_kg,
        source=row.source,
        use=use,
        once=once,
    )


_SIZED: frozenset[Use] = frozenset(
    {"screw", "tapping screw", "rivet", "stainless rivet", "bolt", "earth", "drain", "block"}
)
