"""The number of panels that reach a rating as a model of another kind, for OR-tools' CP-SAT.

Every piece is put into a string by itself, a loose cell or a soldered string. Every string chooses one of
several currents to work at. A panel of one string counts where its pieces' watts at that current reach the
rating. A panel of several strings chooses a voltage besides, which each of them must hold at its current; it
counts where voltage times the sum of currents reaches the rating. Watts and volts are whole thousandths,
rounded to the safe side; the tables are as fine as the model bears. Panels stand in falling order of their
current. It is given the sorted deal to begin with, and all the cores there are; the circuit reckons again
what it says, and the rules are asked whether the pieces may sit so.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from panewright.lots.matching.asked import Asked, MostReaching
from panewright.lots.matching.deal import cells_of, exact_w
from panewright.lots.matching.match import bench
from panewright.lots.matching.plans.assigning import apart
from panewright.lots.matching.plans.making import Maker
from panewright.lots.matching.plans.sorting import packed
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.vectors import stand, summed
from panewright.lots.standing.standing import Standing

LEVELS, VOLTS = 24, 80
_ABOUT = (0.96, 1.04)  # of the usual voltage
_FINE = 1000  # parts of a watt, a volt, an ampere


@dataclass(frozen=True, slots=True)
class Table:
    """What pieces give at some currents, and what a string of them needs there."""

    amps: np.ndarray
    volts: np.ndarray  #: (levels, pieces)
    taken_v: np.ndarray  #: in tail and blocking diode
    lead_ohm: float
    rating_w: float
    usual_v: float  #: of a string of the sorted deal

    @classmethod
    def of(cls, maker: Maker, rating_w: float) -> Table:
        """Currents at which the lot's pieces work."""
        vectors = maker.vectors
        amps = np.linspace(np.quantile(maker.imp_a, 0.03), np.quantile(maker.imp_a, 0.97), LEVELS)
        taken = np.interp(amps, vectors.current_a, vectors.taken_v)
        deal = maker.sorted_deal()
        rows = deal.reshape(-1, 1, deal.shape[2])
        found = stand(apart(vectors), summed(vectors, rows))
        usual = float(np.median(found.power_w / found.string_a[:, 0]))
        return cls(amps, vectors.at(amps)[:, :-1], taken, vectors.lead_ohm, rating_w, usual)


def most_reaching(lot: Standing, asked: Asked, seconds: float) -> int:
    """Panels that reach the rating, as many as the model finds in so many seconds."""
    from ortools.sat.python import cp_model

    if not isinstance(asked.aim, MostReaching):
        raise ValueError("the model knows panels that reach a rating")
    maker = bench(lot, asked)
    model, each = cp_model.CpModel(), len(maker.network.strings)
    put, at = _strings(model, maker, maker.panels * each)
    counts = _panels(model, (put, at), Table.of(maker, asked.aim.rating_w), each)
    for one, other in pairwise(at[::each]):
        model.add(_height(one) >= _height(other))
    model.maximize(sum(counts))
    _hint(model, maker, put)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.random_seed = 0
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return 0
    rows = [[k for k, chosen in enumerate(row) if solver.value(chosen)] for row in put]
    return _reached(maker, [rows[k : k + each] for k in range(0, len(rows), each)], asked.aim.rating_w)


Rows = list[list[Any]]


def _strings(model: Any, maker: Maker, strings: int) -> tuple[Rows, Rows]:
    """Which pieces are in every string, none twice; and at which current it works, if it is made."""
    size, length = maker.rules.size.tolist(), maker.rules.seats.length
    put = [[model.new_bool_var("") for _ in size] for _ in range(strings)]
    at = [[model.new_bool_var("") for _ in range(LEVELS)] for _ in range(strings)]
    for k in range(len(size)):
        model.add_at_most_one(row[k] for row in put)
    _limits(model, maker, put)
    for row, level in zip(put, at, strict=True):
        model.add_at_most_one(level)
        model.add(sum(s * each for s, each in zip(size, row, strict=True)) == length * sum(level))
    return put, at


def _limits(model: Any, maker: Maker, put: Rows) -> None:
    """No more leaky or weak pieces in a string than it has room for; some may sit nowhere."""
    room = Room.of(maker.rules.pieces, maker.rules.seats, maker.rules.most_leaky)
    for kind, most in ((room.leaky, room.most_leaky), (room.short, room.most_short), (room.shut, 0)):
        mine = np.flatnonzero(kind).tolist()
        for row in put if mine else ():
            model.add(sum(row[k] for k in mine) <= most)


def _panels(model: Any, rows: tuple[Rows, Rows], table: Table, each: int) -> list[Any]:
    """For every panel whether it reaches the rating."""
    put, at = rows
    if each == 1:
        for row, level in zip(put, at, strict=True):
            _alone(model, row, level, table)
        return [sum(level) for level in at]
    first = range(0, len(put), each)
    return [_abreast(model, put[k : k + each], at[k : k + each], table) for k in first]


def _alone(model: Any, row: list[Any], level: list[Any], table: Table) -> None:
    """Watts of a single string at its current reach the rating."""
    watts = np.floor(_FINE * table.amps[:, None] * table.volts)
    need = np.ceil(_FINE * (table.rating_w + table.amps * table.taken_v + table.lead_ohm * table.amps**2))
    for q, chosen in enumerate(level):
        given = sum(int(w) * piece for w, piece in zip(watts[q], row, strict=True))
        model.add(given >= int(need[q])).only_enforce_if(chosen)


def _abreast(model: Any, put: Rows, at: Rows, table: Table) -> Any:
    """Strings hold the panel's voltage, each at its current; the sum of currents gives the rating there."""
    volts = table.usual_v * np.linspace(*_ABOUT, VOLTS)
    holds, made = [model.new_bool_var("") for _ in volts], model.new_bool_var("")
    model.add(sum(holds) == made)
    for level in at:
        model.add(sum(level) == made)
    milli = np.floor(_FINE * table.volts)
    held = model.new_int_var(0, int(_FINE * volts[-1]) + 1, "")
    for row, level in zip(put, at, strict=True):
        for q, chosen in enumerate(level):
            given = sum(int(v) * piece for v, piece in zip(milli[q], row, strict=True))
            model.add(given >= held + int(np.ceil(_FINE * table.taken_v[q]))).only_enforce_if(chosen)
    amps = [sum(int(_FINE * a) * chosen for a, chosen in zip(table.amps, level, strict=True)) for level in at]
    for volt, chosen in zip(volts.tolist(), holds, strict=True):
        model.add(held >= int(np.ceil(_FINE * volt))).only_enforce_if(chosen)
        model.add(sum(amps) >= _current(volt, table)).only_enforce_if(chosen)
    return made


def _current(volt: float, table: Table) -> int:
    """Milliamperes by which a panel gives its rating at a voltage, the leads counted; never, if none do."""
    rest = volt**2 - 4 * table.lead_ohm * table.rating_w
    if rest < 0:
        return 10**9
    return int(np.ceil(_FINE * 2 * table.rating_w / (volt + rest**0.5)))


def _reached(maker: Maker, panels: list[list[list[int]]], rating_w: float) -> int:
    """Panels that are allowed and reach the rating by the exact circuit."""
    filled = [panel for panel in panels if all(panel)]
    made = packed(filled, maker.rules)
    may = [
        k
        for k, panel in enumerate(made)
        if all(maker.rules.allowed(s, row[row >= 0]) for s, row in enumerate(panel))
    ]
    seats = cells_of(maker.rules, made[may])
    return int((exact_w(maker.network, maker.rules.pieces.cells, seats) >= rating_w).sum())


def _height(level: list[Any]) -> Any:
    return sum((q + 1) * each for q, each in enumerate(level))


def _hint(model: Any, maker: Maker, put: Rows) -> None:
    """The sorted deal to begin with."""
    deal = maker.sorted_deal()
    rows = deal.reshape(-1, deal.shape[2]).tolist()
    for row, mine in zip(put, [*rows, *([[]] * (len(put) - len(rows)))], strict=True):
        for k, each in enumerate(row):
            model.add_hint(each, k in mine)


def sorted_count(lot: Standing, asked: Asked) -> int:
    """Panels of plain sorting that reach the rating."""
    maker = bench(lot, asked)
    return len(maker.made(maker.sorted_deal()).power_w)
