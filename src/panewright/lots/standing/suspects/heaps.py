"""A lot whose currents fall into two heaps with nothing between them: cells of two sizes in one box."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from panewright.lots.standing.figures import LIGHT
from panewright.lots.standing.likeliest import Likeliest, Lot
from panewright.lots.standing.standing import Suspect
from panewright.lots.standing.suspects.strangers import Rows
from panewright.lots.standing.table import Table

#: logarithm: cells of one size and make lie closer, sizes further apart (common practice, no source)
_APART = np.log(1.12)
_LEAST = 3  # cells of a heap: fewer are strangers, and told as such
_WIDE = 4.0  # times as wide as nine in ten of the gaps between neighbours
_SEEN = 0.1  # of the variance that the readings told, else the current is the lot's, not the cell's


def heaps(table: Table, known: tuple[Lot, Likeliest], light_a: float, rows: Rows) -> Iterator[Suspect]:
    """The two heaps, told once of the lot and once of each cell of the smaller. `light_a`: of the kind."""
    lot, found = known
    spread = lot.covariance[LIGHT, LIGHT]
    told = np.flatnonzero(spread - found.covariance[:, LIGHT, LIGHT] > _SEEN * spread)
    order = told[np.argsort(found.theta[told, LIGHT], kind="stable")]
    along = found.theta[order, LIGHT]
    gap = np.diff(along)[_LEAST - 1 : 1 - _LEAST]
    if not gap.size or gap.max() < _APART or gap.max() < _WIDE * np.quantile(np.diff(along), 0.9):
        return
    cut = int(gap.argmax()) + _LEAST
    parts = order[:cut], order[cut:]
    amps = [light_a * float(np.exp(np.median(found.theta[part, LIGHT]))) for part in parts]
    words = " and ".join(f"{part.size} about {a:.3g} A" for part, a in zip(parts, amps, strict=True))
    reason = f"The light currents at STC fall into two heaps, {words}, with nothing between: "
    yield Suspect("", "size", f"{reason}cells of two sizes, or of two units? Make two lots of them.")
    few = int(parts[1].size < parts[0].size)
    each = f"It is one of {parts[few].size} cells about {amps[few]:.3g} A; the others are about "
    each += f"{amps[1 - few]:.3g} A."
    for cell in np.sort(parts[few]).tolist():
        yield Suspect(table.marks[cell], "size", each, rows.get(cell, ()))
