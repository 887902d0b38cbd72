"""Where the setting blocks stand, as steps and pages say it."""

from __future__ import annotations

from panewright.pack.bench import Bench, listed, told
from panewright.structure.bead.bead import BLOCK_LONG_MM, block_long_mm

_NUMBERS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}


def block_words(bench: Bench) -> str:
    """How many, how long, and how far from the pane's left corner."""
    places, units = bench.design.structural.low.places_mm, bench.design.order.job.units
    if not places:
        return "no setting blocks, as the gap has no room for them: the bead carries the pane"
    long = block_long_mm(bench.design.structural.pane.short_mm)
    cut = "" if long == BLOCK_LONG_MM else ", cut shorter,"
    number = _NUMBERS.get(len(places), str(len(places)))
    where = listed([told(place, units) for place in places])
    return (
        f"{number} setting blocks of {told(long, units)}{cut} in the gap at the low edge, "
        f"their middles {where} from the pane's left corner"
    )
