"""What stands in [range]: lists whose entries are read by the order's own keys.

Whatever a list varies must not stand in the order's own sections besides: it would be said twice.
"""

from __future__ import annotations

from dataclasses import dataclass

from panewright.order.schema import KEYS
from panewright.shelf.key import Key

SECTION = "range"
MOST_SIZES = 5000  #: more are no catalogue a person reads; about two and a half minutes on two cores
MOST_CELLS = 1000  #: in one panel, as in an order
MOST_PRICES = 6  #: columns of prices that a page bears


@dataclass(frozen=True, slots=True)
class ListKey:
    """A list of the range: the order's key that its entries are read by."""

    name: str
    entry: Key
    example: str
    comment: str
    required: bool = False
    most: int = 200  #: entries
    bars: tuple[str, ...] = ()  #: keys of the order that the list stands for

    @property
    def dotted(self) -> str:
        """The key with its section, 'range.rows'."""
        return f"{SECTION}.{self.name}"


def _list(name: str, entry: str, example: str, comment: str, **more: bool) -> ListKey:
    return ListKey(name, KEYS[entry], example, comment, bars=(entry,), **more)


LISTS = {
    key.name: key
    for key in (
        _list("cells", "cell.name", '["156 mm mono", "125 mm mono"]', "cells of the shelf"),
        ListKey(
            "cuts",
            KEYS["cell.cut"],
            '["whole", "half"]',
            "into what each cell is cut",
            bars=("cell.cut", "cell.parts"),
        ),
        _list("columns", "layout.columns", "[2, 4, 6]", "columns of cells, side by side", required=True),
        _list("rows", "layout.rows", "[6, 9, 12]", "cells in a column", required=True),
        _list("glass", "parts.glass", '["4 mm low-iron tempered"]', "sheets of the shelf"),
        _list("rails", "parts.rail", '["angle 30 x 30 x 3 mm"]', "rails of the shelf"),
        ListKey(
            "quantities",
            KEYS["order.panels"],
            "[1, 5, 25]",
            "of one size, each with its price",
            most=MOST_PRICES,
            bars=("order.panels",),
        ),
    )
}
ALWAYS_BARRED = ("load.cells", "layout.cells_in_series")  #: follow from columns and rows
