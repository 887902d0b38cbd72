"""A lot as it stands, weighed for a person: every cell in full sun, how they spread, what is suspected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from panewright.cell.root import Array
from panewright.desk.lots import kinds
from panewright.desk.lots.settled import Settled, applied, open_suspects
from panewright.errors import Problem, RecordError
from panewright.intake.cells import CellRows
from panewright.lots.standing.estimate import Asked, estimate
from panewright.lots.standing.standing import Standing, Suspect
from panewright.lots.standing.suspects.remarked import by_cell
from panewright.lots.standing.trust import Trust

MOST_GRADES = 20  #: more are no grades but marks
SHARES = (0.0, 0.05, 0.5, 0.95, 1.0)
SHARE_WORDS = ("least", "5 %", "middle", "95 %", "most")


@dataclass(frozen=True, slots=True)
class Spread:
    """One figure over all cells of a lot."""

    said: str
    unit: str
    values: Array  #: cell by cell
    parts: tuple[float, ...]  #: at SHARES


@dataclass(frozen=True, slots=True)
class Stood:
    """A lot that was weighed."""

    kind: str  #: of its cells, on the shelf
    guessed: bool  #: nobody said so: it is the nearest
    standing: Standing
    suspects: tuple[Suspect, ...]  #: that are not settled
    left_out: int  #: cells that a maker left out
    grades: tuple[str, ...] = ()  #: of each cell as the table has it; empty where no column says any
    remarks: tuple[str, ...] = ()  #: likewise

    @property
    def spreads(self) -> tuple[Spread, ...]:
        """Watts first, then what decides in series and in parallel."""
        lot = self.standing
        return (
            _spread("Pmp", "W", lot.power_w),
            _spread("Imp", "A", lot.imp_a),
            _spread("Isc", "A", lot.isc_a),
            _spread("Voc", "V", lot.voc_v),
        )

    @property
    def by_grade(self) -> tuple[tuple[str, int, Spread], ...]:
        """Each grade that the table names, its cells, and how their watts spread; nothing of one alone."""
        found = list(dict.fromkeys(sorted(self.grades)))
        if not 1 < len(found) <= MOST_GRADES:
            return ()
        grades, watts = np.array(self.grades, dtype=object), self.standing.power_w
        parts = [(grade, watts[grades == grade]) for grade in found]
        return tuple((grade, some.size, _spread("Pmp", "W", some)) for grade, some in parts)

    @property
    def known_to_w(self) -> float:
        """How well the watts of the middle cell are known, as one standard deviation. [W]"""
        return float(np.median(self.standing.power_sd_w))


def stand(rows: CellRows, kind: str = "", settled: Sequence[Settled] = ()) -> Stood:
    """Weigh a lot; of the kind that is told, else of the nearest on the shelf."""
    counted = applied(rows, settled)
    if not counted.marks:
        cure = "See the bad rows, and what was left out."
        raise RecordError([Problem("No row of this lot counts.", cure, key="rows")])
    name = kind or kinds.nearest(counted)
    cell = kinds.model(name)
    if kind and (wrong := kinds.far_off(counted, name)):
        raise RecordError([wrong])
    standing = estimate(counted, cell, Asked(trust=Trust(**counted.errors)))
    left_out = len(set(rows.marks)) - len(set(counted.marks))
    grades, remarks = (
        by_cell(standing.marks, counted.marks, words) for words in (counted.grades, counted.remarks)
    )
    suspects = open_suspects(standing.suspects, settled)
    return Stood(name, not kind, standing, suspects, max(0, left_out), grades, remarks)


def _spread(said: str, unit: str, values: Array) -> Spread:
    return Spread(said, unit, values, tuple(np.quantile(values, SHARES).tolist()))
