"""How often each cut is made: an integer programme over the graph of plates, by OR-tools' CP-SAT.

    a plate is cut, or is a panel, no more often than it comes off other plates or is a sheet
    every panel comes out as often as it is wanted

It is bounded by CP-SAT's own count of work and runs on one thread: the same answer on every machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from panewright.cutting.guillotine import Graph, Kind, Plate


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
    value: int
    bound: int
    done: bool


class Model:
    """The programme; one aim is set, then it is solved."""

    def __init__(self, graph: Graph, roots: Sequence[Root], kinds: Sequence[Kind], exact: bool) -> None:
        from ortools.sat.python import cp_model

        self._cp, self.model = cp_model, cp_model.CpModel()
        self.graph, self.roots = graph, tuple(roots)
        wanted = sum(kind.quantity for kind in kinds)
        number = self.model.new_int_var
        self.sheets: list[Any] = [number(0, root.most, "") for root in roots]
        most = sum(root.most for root in roots)
        self.cuts: list[Any] = [number(0, min(wanted, most * wanted), "") for _ in graph.cuts]
        self.uses: list[Any] = [number(0, kinds[kind].quantity, "") for _, kind in graph.uses]
        self.left = self._balance()
        for index, kind in enumerate(kinds):
            given = sum(use for (_, k), use in zip(graph.uses, self.uses, strict=True) if k == index)
            self.model.add(given == kind.quantity if exact else given <= kind.quantity)

    def _balance(self) -> list[Any]:
        """What is left of each plate when all is cut; never less than nothing."""
        given: list[list[Any]] = [[] for _ in self.graph.plates]
        for root, sheet in zip(self.roots, self.sheets, strict=True):
            given[root.plate].append(sheet)
        for cut, times in zip(self.graph.cuts, self.cuts, strict=True):
            given[cut.plate].append(-times)
            given[cut.first].append(times)
            if cut.rest is not None:
                given[cut.rest].append(times)
        for (plate, _), use in zip(self.graph.uses, self.uses, strict=True):
            given[plate].append(-use)
        left = [sum(terms) for terms in given]
        for each in left:
            self.model.add(each >= 0)
        return left

    @property
    def cost(self) -> Any:
        """Of all sheets."""
        return sum(root.cost * sheet for root, sheet in zip(self.roots, self.sheets, strict=True))

    def used_up(self, kept: Sequence[int], least: int) -> Any:
        """Area of all sheets, less that of plates kept so far as each is larger than the least; then cuts."""
        area = sum(root.area * sheet for root, sheet in zip(self.roots, self.sheets, strict=True))
        worth = sum((_area(self.graph.plates[p]) - least) * self.left[p] for p in kept)
        return area - worth + sum(self.cuts)

    def worth(self, values: Sequence[int]) -> Any:
        """Of all panels that come out, by kind."""
        pairs = zip(self.graph.uses, self.uses, strict=True)
        return sum(values[kind] * use for (_, kind), use in pairs)

    def hint(self, parted: Parted) -> None:
        """A plan to begin with."""
        variables = (*self.sheets, *self.cuts, *self.uses)
        for variable, value in zip(variables, (*parted.sheets, *parted.cuts, *parted.uses), strict=True):
            self.model.add_hint(variable, value)

    def solved(self, work: float) -> Parted | None:
        """The best found within the work allowed; None where nothing was."""
        solver = self._cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.max_deterministic_time = work
        solver.parameters.cp_model_presolve = False  # takes longer here than the search
        status = solver.solve(self.model)
        if status not in (self._cp.OPTIMAL, self._cp.FEASIBLE):
            return None
        value, bound = round(solver.objective_value), solver.best_objective_bound
        groups = (self.sheets, self.cuts, self.uses)
        times = [tuple(int(solver.value(each)) for each in group) for group in groups]
        return Parted(times[0], times[1], times[2], value, round(bound), status == self._cp.OPTIMAL)


def _area(plate: Plate) -> int:
    return plate.width * plate.height
