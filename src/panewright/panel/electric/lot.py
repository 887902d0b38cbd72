"""What the scatter of the order's lot of cells is expected to cost the panel.

By the closed formula where its own check says that the cells lie near enough to each other, else by as many
evenly drawn cells solved exactly. The panel's own figures are those of equal cells.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from panewright.circuit.mismatch.formula import expected_loss
from panewright.circuit.mismatch.spread import Spread
from panewright.circuit.network import Network


@dataclass(frozen=True, slots=True)
class LotLoss:
    """What one panel of such a lot is expected to give less, as a share of its power."""

    spread: float  #: standard deviation of the cells' light current, as a share
    share: float
    by_formula: bool  #: False where the cells lie too far from each other for it


def lot_loss(network: Network, spread: float | None) -> LotLoss | None:
    """The expected loss; None where the order does not tell how its lot scatters.

    All cells are taken to scatter as the first does, each about its own figures.
    """
    if spread is None:
        return None
    lot = Spread(light=spread)
    first = network.strings[0].substrings[0]
    cell = replace(first.cells[0], series_ohm=first.cells[0].series_ohm + first.joints_ohm[0])
    in_series = sum(len(part.cells) for part in network.strings[0].substrings)
    told = expected_loss(cell, in_series, len(network.strings), lot)
    if all(check.passed for check in told.checks):
        return LotLoss(spread, told.share, by_formula=True)
    return LotLoss(spread, told.share * told.beyond, by_formula=False)
