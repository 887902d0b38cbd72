"""The keys of a part that an order describes in full, in place of a name from the shelf."""

from __future__ import annotations

from dataclasses import replace

from panewright.shelf.carriage import FOAM
from panewright.shelf.columns.closing import BACK, FILM, POUR
from panewright.shelf.columns.electric import STRIP
from panewright.shelf.columns.fixings import BLOCK, POST, WOOD_SCREW
from panewright.shelf.columns.frame import RAIL, SEALANT, SHEET
from panewright.shelf.key import Key


def _within(section: str, columns: tuple[Key, ...]) -> tuple[Key, ...]:
    """Columns of a part as keys of a table inside an order; what the material tells need not be written."""
    return tuple(replace(column, section=section) for column in columns)


_MATERIAL = replace(
    SHEET[0], required=False, default="glass", reason="a pane is glass unless it says otherwise"
)
_BUS = (replace(STRIP[0], example="5 mm"), replace(STRIP[1], example="0.2 mm"), STRIP[2])
#: the columns of each part that an order may describe in full
IN_FULL = {
    "parts.tab": _within("parts.tab", STRIP),
    "parts.bus": _within("parts.bus", _BUS),
    "parts.glass": _within("parts.glass", (_MATERIAL, *SHEET[1:])),
    "parts.rail": _within("parts.rail", RAIL),
    "parts.sealant": _within("parts.sealant", SEALANT),
    "parts.pour": _within("parts.pour", POUR),
    "parts.film": _within("parts.film", FILM),
    "parts.back": _within("parts.back", BACK),
    "mounting.screw": _within("mounting.screw", WOOD_SCREW),
    "mounting.post": _within("mounting.post", POST),
    "mounting.block": _within("mounting.block", BLOCK),
    "crate.foam": _within("crate.foam", FOAM),
}
