"""Cells as they were laid become part of what is told of a panel: each at its place, by its own figures."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from panewright.cell.diodes import Diodes
from panewright.cell.key_points import key_points
from panewright.cell.peak import peak
from panewright.desk.deals.deal import Deal
from panewright.errors import CurveError, Problem, RecordError
from panewright.panel.electric.own import Rated, own_model
from panewright.panel.happened import PlacedFrom

if TYPE_CHECKING:
    from panewright.desk import Made
    from panewright.desk.deals.kept import KeptDeal
    from panewright.desk.shop.who import Who
    from panewright.ledger.open import Ledger


def cells_told(ledger: Ledger, kept: KeptDeal, serial: str, made: Made, hand: Who) -> tuple[PlacedFrom, ...]:
    """Every cell of a serial that is laid, marked in the records; `RecordError` while one is missing."""
    from panewright.ledger.serials.laid import laid
    from panewright.ledger.stores.lots import Cell, add_cells, cells_of

    there = laid(ledger, serial)
    count = len(made.design.layup.cells)
    ours = sum(each.lot == kept.lot for each in there)
    if ours < count:
        cure = "Lay the rest first, or tell them one by one under As built."
        raise RecordError([Problem(f"{ours} of {count} cells of this deal are laid.", cure, key="cells")])
    rated = rated_by(kept.deal, made)
    known = {each.mark for each in cells_of(ledger, kept.lot)}
    if fresh := [Cell(each.cell) for each in there if each.cell not in known]:
        add_cells(ledger, kept.lot, fresh, by=hand.by, at=hand.at, tap=f"{hand.tap}m" if hand.tap else "")
    return tuple(PlacedFrom(each.place, each.lot, each.cell, rated(each.cell, each.place)) for each in there)


def rated_by(deal: Deal, made: Made) -> Callable[[str, int], Rated | None]:
    """Each cell as shares of its kind's figures, both behind the cover; None for one no nameplate tells."""
    cells = Diodes.of_table(np.array(deal.figures))
    tops = peak(cells)
    where, kind = {mark: k for k, mark in enumerate(deal.marks)}, made.design.order.cell
    network = made.design.electrical.network
    plain = [cell for string in network.strings for part in string.substrings for cell in part.cells]

    def rated(mark: str, place: int) -> Rated | None:
        k, usual = where[mark], key_points(plain[place - 1])
        told = Rated(
            round(float(tops.imp_a[k]) / usual.imp_a, 6), round(float(tops.power_w[k]) / usual.power_w, 6)
        )
        try:
            own_model(kind, (place - 1) % kind.parts, told)
        except CurveError:
            return None
        return told

    return rated
