"""Which panel lies in which string, and which strings feed which input."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from panewright.cell.root import Array
from panewright.circuit.chords.law import Whole


@dataclass(frozen=True, slots=True)
class Row:
    """Panels in series, with the wire between them and to the place where strings meet."""

    panels: tuple[int, ...]  #: numbers of panels, from 0
    wire_ohm: float = 0.0  #: out and back
    blocking_v: float = 0.0  #: drop of its blocking diode while it conducts, 0 where there is none

    def __post_init__(self) -> None:
        if not self.panels or not (0 <= self.wire_ohm < np.inf and 0 <= self.blocking_v < np.inf):
            raise ValueError(f"a string has a panel or more, a wire and a drop of 0 or more, got {self}")


@dataclass(frozen=True, slots=True)
class Input:
    """Strings side by side at one input of a controller, or at a load, with the run that leads there."""

    rows: tuple[Row, ...]
    run_ohm: float = 0.0  #: out and back

    def __post_init__(self) -> None:
        if not self.rows or not 0 <= self.run_ohm < np.inf:
            raise ValueError(f"an input has a string or more and a run of 0 ohm or more, got {self}")


class Wired(NamedTuple):
    """The same as columns, for the loops of `field`."""

    panel: Whole  #: in the order in which they lie
    first_panel: Whole  #: of each string, and the end of the last
    wire_ohm: Array
    blocking_v: Array
    first_row: Whole  #: of each input, and the end of the last
    run_ohm: Array
    nowhere: Whole  #: panels in no string


def wired(inputs: Sequence[Input], panels: int) -> Wired:
    """Columns of the inputs; a `ValueError` where a panel is wired twice or is none."""
    rows = [row for each in inputs for row in each.rows]
    order = [number for row in rows for number in row.panels]
    if len(set(order)) < len(order) or not set(order) <= set(range(panels)):
        raise ValueError(f"each of {panels} panels is wired once or not at all, got {order}")
    return Wired(
        np.array(order, dtype=np.int64),
        np.cumsum([0, *(len(row.panels) for row in rows)]),
        np.array([row.wire_ohm for row in rows]),
        np.array([row.blocking_v for row in rows]),
        np.cumsum([0, *(len(each.rows) for each in inputs)]),
        np.array([each.run_ohm for each in inputs]),
        np.array(sorted(set(range(panels)) - set(order)), dtype=np.int64),
    )
