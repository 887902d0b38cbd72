"""Spares for a faulty panel: cells of a lot that lie in no panel, as they stand behind this one's pane."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from panewright.bench.fault.rework import Spare
from panewright.cell.diode import Diode
from panewright.desk.deals.kept import taken
from panewright.desk.lots import kept, stood
from panewright.errors import Problem, RecordError
from panewright.lots.standing.covered import covered
from panewright.lots.standing.less import without

if TYPE_CHECKING:
    from panewright.ledger.open import Ledger
    from panewright.lots.standing.standing import Standing
    from panewright.panel.design import Design

MOST = 60  #: of a greater lot so many, evenly from its weakest cell to its best


def spares_of(ledger: Ledger, lot: str, design: Design) -> tuple[Spare, ...]:
    """What may go in, weakest first; `RecordError` where nothing of the lot can."""
    found = kept.find(ledger, lot)
    rows = kept.rows_of(ledger, found) if found else None
    if found is None or rows is None:
        cure = "Name a lot whose cells were measured, with all its columns settled."
        raise RecordError([Problem("No measured cells are kept of this lot.", cure, key="spares", value=lot)])
    standing = stood.stand(rows, found.mapping.kind, kept.settled_of(found)).standing
    left = without(standing, taken(ledger, lot))
    if not left.marks:
        cure = "Take another lot."
        raise RecordError([Problem("No cell of this lot is left.", cure, key="spares", value=lot)])
    return of_standing(left, design.electrical.light)


def of_standing(lot: Standing, light: float) -> tuple[Spare, ...]:
    """Its cells where that share of the light reaches them, weakest first."""
    behind = covered(lot, light)
    order = np.argsort(behind.power_w, kind="stable")
    if order.size > MOST:
        order = order[np.linspace(0, order.size - 1, MOST).round().astype(int)]
    return tuple(Spare(behind.marks[k], Diode(*behind.cells.table[k].tolist())) for k in order)
