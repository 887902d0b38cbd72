"""Lay-up, pane, bead and frame together: a wider seat makes a larger pane, a larger pane a stiffer rail.

Rails are tried lightest first. For each the pane follows from the lay-up inside its seat, then bead,
brackets and sheet; the first rail whose every rule holds is taken, or the nearest where none does.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from panewright.frame.rail import Rail
from panewright.panel.holding.field import Field, rails
from panewright.panel.holding.held import Held
from panewright.panel.holding.seated import (
    Framed,
    bears_a_bolt,
    framed_by,
    is_barred_by_short,
    seated_on,
)
from panewright.panel.holding.standing import Standing, held_by, stood_with
from panewright.structure.nearness import far_from_passing
from panewright.structure.rails.frame_choice import FrameRow


@lru_cache(maxsize=32)
def hold(field: Field) -> Held:
    """The lightest rail that holds, with all that goes with it; the nearest where none does.

    Rails heavier than the one taken are not looked at.
    Kept for the next round, which mostly asks the same again.
    """
    tried: list[Framed] = []
    stood: dict[Rail, Standing] = {}
    for rail in rails(field):
        seated = seated_on(field, rail)
        if field.brief and (not bears_a_bolt(seated) or is_barred_by_short(field, seated)):
            continue
        tried.append(framed := framed_by(field, seated))
        if _able(framed):
            stood[rail] = stood_with(field, framed)
            if stood[rail].settles:
                return held_by(field, stood[rail], _all_rows(tried, stood))
    if field.brief:  # nothing holds: now those count that were passed over
        known = {framed.frame.rail: framed for framed in tried}
        tried = [known.get(rail) or framed_by(field, seated_on(field, rail)) for rail in rails(field)]
    nearest = min(tried, key=_order_of_trial)
    rail = nearest.frame.rail
    if rail not in stood:
        stood[rail] = stood_with(field, nearest)
    return held_by(field, stood[rail], _all_rows(tried, stood))


def _all_rows(tried: Iterable[Framed], stood: dict[Rail, Standing]) -> tuple[FrameRow, ...]:
    """Rows of every rail: as judged with its own sheet, or as tried with the first one."""
    rows: list[FrameRow] = []
    for framed in tried:
        again = stood.get(framed.frame.rail)
        rows += again.rows if again else framed.rows
    return tuple(rows)


def _order_of_trial(framed: Framed) -> tuple[bool, int, float, float]:
    """Rails that hold or may first, lightest first; then the rest by how far they are from holding."""
    row = framed.frame
    able = _able(framed)
    checks = row.checks + framed.low.checks
    unknown, worst = (0, row.mass_kg_m) if able else far_from_passing(checks)
    return not able, unknown, worst, row.rail.seat_mm


def _able(framed: Framed) -> bool:
    """Whether a rail holds, or may with other places of its brackets and blocks."""
    return any(each.passed or each.hopeful for each in framed.rows) and framed.low.hopeful
