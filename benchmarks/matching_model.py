"""The number of panels that reach a rating as a model of another kind, for OR-tools' CP-SAT.

Every cell is put into a panel by itself, every panel chooses one of several currents to work at, and a panel
counts where its cells' watts at that current reach the rating. Watts are whole milliwatts, rounded down,
the table of currents is as fine as the model bears. Panels stand in falling order of their current. It is
given the sorted deal to begin with, and all the cores there are; the circuit reckons again what it says.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np

from panewright.cell.curve import voltage_v
from panewright.lots.matching.asked import Asked, MostReaching
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.match import bench
from panewright.lots.standing.standing import Standing

LEVELS = 24


def most_reaching(lot: Standing, asked: Asked, seconds: float) -> int:
    """Panels of one string that reach the rating, as many as the model finds in so many seconds."""
    from ortools.sat.python import cp_model

    if not isinstance(asked.aim, MostReaching) or len(asked.network.strings) > 1 or asked.soldered:
        raise ValueError("the model knows panels of one string of loose cells that reach a rating")
    count = sum(len(part.cells) for part in asked.network.strings[0].substrings)
    panels, table, need = len(lot.marks) // count, *_levels(lot, asked)
    model = cp_model.CpModel()
    put = [[model.new_bool_var("") for _ in lot.marks] for _ in range(panels)]
    at = [[model.new_bool_var("") for _ in range(LEVELS)] for _ in range(panels)]
    for k in range(len(lot.marks)):
        model.add_at_most_one(row[k] for row in put)
    for row, level in zip(put, at, strict=True):
        model.add_at_most_one(level)
        model.add(sum(row) == count * sum(level))
        for q in range(LEVELS):
            watts = sum(int(w) * each for w, each in zip(table[q], row, strict=True))
            model.add(watts >= int(need[q])).only_enforce_if(level[q])
    for one, other in pairwise(at):
        model.add(_height(one) >= _height(other))
    model.maximize(sum(each for level in at for each in level))
    _hint(model, lot, put, count)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.random_seed = 0
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return 0
    chosen = [[k for k, each in enumerate(row) if solver.value(each)] for row in put]
    made = np.array([row for row in chosen if row], dtype=np.int64).reshape(-1, count)
    return int((exact_w(asked.network, lot.cells, made) >= asked.aim.rating_w).sum())


def _levels(lot: Standing, asked: Asked) -> tuple[np.ndarray, np.ndarray]:
    """Milliwatts of every cell at some currents, and what a panel needs there with joints, tail and leads."""
    string, aim = asked.network.strings[0], asked.aim
    assert isinstance(aim, MostReaching)
    joints = sum(sum(part.joints_ohm) for part in string.substrings)
    ohm = joints + string.tail_ohm + asked.network.lead_ohm
    amps = np.linspace(np.quantile(lot.imp_a, 0.03), np.quantile(lot.imp_a, 0.97), LEVELS)
    volts = voltage_v(lot.cells, np.repeat(amps[:, None], len(lot.marks), axis=1))
    return np.floor(1000 * amps[:, None] * volts), np.ceil(1000 * (aim.rating_w + ohm * amps**2))


def _height(level: list[Any]) -> Any:
    return sum((q + 1) * each for q, each in enumerate(level))


def _hint(model: Any, lot: Standing, put: list[list[Any]], count: int) -> None:
    order = np.argsort(-lot.imp_a, kind="stable")
    for p, row in enumerate(put):
        mine = set(order[p * count : (p + 1) * count].tolist())
        for k, each in enumerate(row):
            model.add_hint(each, k in mine)


def sorted_count(lot: Standing, asked: Asked) -> int:
    """Panels of plain sorting that reach the rating."""
    maker = bench(lot, asked)
    return len(maker.made(maker.sorted_deal()).power_w)
