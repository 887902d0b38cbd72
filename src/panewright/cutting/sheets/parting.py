"""How often each cut is made: an integer programme over the graph of plates, by HiGHS.

    a plate is cut, or is a panel, no more often than it comes off other plates or is a sheet
    every panel comes out as often as it is wanted

The search is bounded by the number of its branches, not by time, so that it ends at the same answer on every
machine; the bound it reaches holds whether or not it is finished.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from panewright.cutting.sheets.guillotine import Graph, Kind, Plate

Floats = NDArray[np.float64]

_CUT = 1e-6  #: what a cut counts for, as a share of the largest sheet: of equal plans that of fewest cuts


@dataclass(frozen=True, slots=True)
class Root:
    """A sheet in the graph: its plate, how many there are at most, its cost and area in whole numbers."""

    plate: int
    most: int
    cost: int
    area: int


@dataclass(frozen=True, slots=True)
class Parted:
    """How often each sheet, cut and use is taken; `done` where nothing better exists in this graph."""

    sheets: tuple[int, ...]
    cuts: tuple[int, ...]
    uses: tuple[int, ...]
    value: float
    bound: float
    done: bool


@dataclass(frozen=True, slots=True)
class Limit:
    """A sum over all columns that must lie between two numbers."""

    weights: Floats
    least: float
    most: float


class Model:
    """The programme: sheets, cuts and uses are its columns, in this order."""

    def __init__(self, graph: Graph, roots: Sequence[Root], kinds: Sequence[Kind], exact: bool) -> None:
        self.graph, self.roots, self.kinds = graph, tuple(roots), tuple(kinds)
        self.exact = exact  # every panel comes out, or no more than are wanted
        self._first_cut = len(self.roots)
        self._first_use = self._first_cut + len(graph.cuts)
        self.columns = self._first_use + len(graph.uses)

    def cost(self) -> Floats:
        """Of all sheets."""
        return self._spread([root.cost for root in self.roots], 0)

    def worth(self, values: Sequence[float]) -> Floats:
        """Of all panels that come out, by kind."""
        return self._spread([values[use.kind] for use in self.graph.uses], self._first_use)

    def used_up(self, kept: Sequence[int], least: int) -> Floats:
        """Sheets, less plates kept so far as each is larger than the least, in largest sheets; then cuts."""
        whole = max(root.area for root in self.roots)
        used = self._spread([root.area / whole for root in self.roots], 0)
        gain = np.zeros(len(self.graph.plates))
        for plate in kept:
            gain[plate] = (_area(self.graph.plates[plate]) - least) / whole
        rows, columns, signs = self._balance()
        np.add.at(used, columns, -gain[rows] * signs)
        used[self._first_cut : self._first_use] += _CUT
        return used

    def _spread(self, values: Sequence[float], first: int) -> Floats:
        spread = np.zeros(self.columns)
        spread[first : first + len(values)] = values
        return spread

    def _balance(self) -> tuple[NDArray[np.int64], NDArray[np.int64], Floats]:
        """What comes of each plate and what of it is taken: row, column, sign."""
        found = [(root.plate, column, 1.0) for column, root in enumerate(self.roots)]
        for column, cut in enumerate(self.graph.cuts, start=self._first_cut):
            found.append((cut.plate, column, -1.0))
            found += [(part, column, 1.0) for part in (cut.first, cut.rest) if part is not None]
        for column, use in enumerate(self.graph.uses, start=self._first_use):
            found.append((use.plate, column, -1.0))
        rows, columns, signs = zip(*found, strict=True)
        return np.array(rows), np.array(columns), np.array(signs)

    def _wanted(self) -> list[Limit]:
        """Of each kind as many as are wanted, or no more."""
        limits = []
        for kind, panel in enumerate(self.kinds):
            weights = self.worth([float(each == kind) for each in range(len(self.kinds))])
            limits.append(Limit(weights, panel.quantity if self.exact else 0, panel.quantity))
        return limits

    def _most(self) -> Floats:
        """Of each column no more makes sense."""
        wanted = sum(kind.quantity for kind in self.kinds)
        uses = [self.kinds[use.kind].quantity for use in self.graph.uses]
        return np.array([*(root.most for root in self.roots), *[wanted] * len(self.graph.cuts), *uses], float)

    def solved(self, aim: Floats, nodes: int, limits: Sequence[Limit] = ()) -> Parted | None:
        """Least of an aim, as far as so many branches go; None where no plan was found."""
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import coo_array

        rows, columns, signs = self._balance()
        plates = coo_array((signs, (rows, columns)), shape=(len(self.graph.plates), self.columns))
        rules = [LinearConstraint(plates.tocsr(), 0, np.inf)]
        rules += [LinearConstraint(x.weights[None, :], x.least, x.most) for x in (*self._wanted(), *limits)]
        found = milp(
            aim,
            integrality=np.ones(self.columns, dtype=np.int64),
            bounds=Bounds(0, self._most()),
            constraints=rules,
            options={"node_limit": nodes, "mip_rel_gap": 0.0},
        )
        if found.x is None:
            return None
        times = [round(x) for x in found.x]
        bound = aim @ found.x if found.status == 0 or found.mip_dual_bound is None else found.mip_dual_bound
        return Parted(
            tuple(times[: self._first_cut]),
            tuple(times[self._first_cut : self._first_use]),
            tuple(times[self._first_use :]),
            float(aim @ np.array(times)),
            float(bound),
            found.status == 0,
        )


def _area(plate: Plate) -> int:
    return plate.width * plate.height
