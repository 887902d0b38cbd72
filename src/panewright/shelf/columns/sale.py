"""How any row is sold, and how it is bought."""

from __future__ import annotations

from panewright.shelf.key import Key

SALE = (
    Key("row", "name", "text", "as an order writes it", "4 mm low-iron tempered", True),
    Key("row", "price", "money", "of one as sold, in the shelf's currency", "1.20", True),
    Key(
        "row",
        "sold_by",
        "choice",
        "",
        "each",
        True,
        choices=("each", "metre", "square metre", "bar", "cartridge", "kilogram", "litre"),
    ),
    Key("row", "source", "text", "where the figures come from", "data sheet", True),
)
BUYING = (
    Key("row", "supplier", "text", "who sells it", "Marsh Glass (invented)", most=80),
    Key(
        "row", "lead_days", "count", "from ordering to the shop's door, Sundays counted", 7, least=0, most=400
    ),
    Key("row", "pack", "text", "only whole packs are sold: what is in one, in sold_by", "25", most=12),
    Key("row", "least", "text", "the least that is sold at once, in sold_by", "50", most=12),
)
"""What a row may say of buying it; each may be left out."""
