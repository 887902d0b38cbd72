"""The number of panels that reach a rating as a model of another kind, for OR-tools' CP-SAT.

Every piece is put into a string by itself, a loose cell or a soldered string. Every string chooses one of
several currents to work at. A panel of one string counts where its pieces' watts at that current reach the
rating. Of a panel of several strings each has so much current at a common voltage as its volts there bring,
on a straight line from the current it chose; the panel counts where voltage times the sum of currents
reaches the rating. The circuit reckons again what it says, and the rules are asked whether pieces may sit so.

It goes two rounds, each half of the time: first with currents over all that strings of the sorted deal work
at, begun with that deal; then with finer ones about those that it chose itself, begun with what it found.
All times are the processor's. Beside that it is given our own deal, currents about its strings, and as much
time again: whether its tables accept the deal is told, and what it then finds.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from panewright.lots.matching.asked import Asked, MostReaching
from panewright.lots.matching.deal import cells_of, exact_w
from panewright.lots.matching.match import bench
from panewright.lots.matching.pieces import Whole
from panewright.lots.matching.plans.assigning import apart, currents_of
from panewright.lots.matching.plans.making import Maker
from panewright.lots.matching.plans.sorting import packed
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.vectors import stand, summed
from panewright.lots.standing.standing import Standing

LEVELS, VOLTS = 32, 80
_BEYOND, _FINELY = 0.01, 0.003  # of a current: beyond the sorted strings', and about one that was found
_ABOUT = (0.96, 1.04)  # of the usual voltage
_FINE = 100_000  # parts of a watt, a volt, an ampere: a string's sum loses less than a thousandth of one
_SLOPE = 100  # parts of an ampere for a volt
_APART = 1.5  # currents: so far from the one it chose a string's straight line is believed
_ACCEPT_S = 20.0  # to see whether a deal is accepted
_ENDED, _LEAST_S = 0.03, 0.5  # of its time: less is none; a shorter call would do nothing
WORKERS = 8  # so many ways of search, on as many cores as there are

Panels = list[list[list[int]]]  #: pieces of every string of every panel


@dataclass(frozen=True, slots=True)
class Beside:
    """What the model found: by itself, and begun with our deal."""

    alone: int  #: panels that reach the rating, after two rounds
    accepted: int  #: panels of our own deal that its tables let reach the rating
    begun: int  #: panels that reach the rating, begun with our deal


@dataclass(frozen=True, slots=True)
class Table:
    """What pieces give at each string's currents, and what a string of them needs there."""

    amps: np.ndarray  #: (strings, levels)
    volts: np.ndarray  #: (strings, levels, pieces)
    taken_v: np.ndarray  #: (strings, levels): in tail and blocking diode
    slope_a: np.ndarray  #: (strings, levels): amperes more for a volt less
    lead_ohm: float
    rating_w: float
    usual_v: float  #: of a string of the sorted deal

    @classmethod
    def of(cls, maker: Maker, rating_w: float, amps: np.ndarray) -> Table:
        """The table at these currents of the strings."""
        vectors, flat = maker.vectors, amps.reshape(-1)
        volts = vectors.at(flat)[:, :-1].reshape(*amps.shape, -1)
        taken = np.interp(flat, vectors.current_a, vectors.taken_v).reshape(amps.shape)
        deal = maker.sorted_deal()
        rows = deal.reshape(-1, 1, deal.shape[2])
        found = stand(apart(vectors), summed(vectors, rows))
        usual = float(np.median(found.power_w / found.string_a[:, 0]))
        mean = summed(vectors, deal.reshape(-1, deal.shape[2])).mean(axis=0) - vectors.taken_v
        steep = np.gradient(mean, vectors.current_a)
        slope = -1 / np.interp(flat, vectors.current_a, steep).reshape(amps.shape)
        return cls(amps, volts, taken, slope, vectors.lead_ohm, rating_w, usual)


@dataclass(frozen=True, slots=True)
class Model:
    """The model with all that is asked back."""

    model: Any
    put: list[list[Any]]
    made: list[Any]  #: of every panel whether it counts

    @property
    def every(self) -> list[Any]:
        """All variables, in order."""
        return [self.model.get_int_var_from_proto_index(k) for k in range(len(self.model.proto.variables))]

    def copied(self) -> Model:
        """A copy to which more may be said."""
        model = self.model.clone()
        put = [[model.get_int_var_from_proto_index(each.index) for each in row] for row in self.put]
        return Model(model, put, self.made)

    def begin(self, values: Sequence[int]) -> None:
        """Begin with these values of all variables."""
        self.model.clear_hints()
        for variable, value in zip(self.every, values, strict=True):
            self.model.add_hint(variable, value)

    def solved(self, seconds: float) -> tuple[tuple[int, ...], int]:
        """Values of all variables after so many seconds of the processor, none where none are; panels.

        The solver counts by the clock on the wall; where others kept the processor busy it goes on.
        """
        from ortools.sat.python import cp_model

        begin, values, panels = time.process_time(), tuple[int, ...](), 0
        while (left := seconds - (time.process_time() - begin)) > _ENDED * seconds:
            solver = cp_model.CpSolver()
            solver.parameters.max_time_in_seconds = max(left, _LEAST_S)
            solver.parameters.random_seed, solver.parameters.num_workers = 0, WORKERS
            solver.parameters.catch_sigint_signal = False  # it is for the campaign to hear
            status = solver.solve(self.model)
            if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
                values = tuple(int(solver.value(each)) for each in self.every)
                panels = round(solver.objective_value)
                self.begin(values)
            if status in (cp_model.OPTIMAL, cp_model.INFEASIBLE):
                break
        return values, panels


def beside(lot: Standing, asked: Asked, ours: Whole, seconds: float) -> Beside:
    """The model alone in so many seconds of the processor, and begun with our deal in as many."""
    maker = _maker(lot, asked)
    alone, panels = most_reaching(lot, asked, seconds), _pieces(ours)
    model = _modelled(maker, _about(maker, _wide(maker), panels), ordered=False)
    values, accepted = _hinted(model, _rows(panels, len(model.put)))
    if values:
        model.begin(values)
    found, _ = model.solved(seconds)
    return Beside(alone, accepted, _best(maker, model, (found, values)))


def most_reaching(lot: Standing, asked: Asked, seconds: float) -> int:
    """Panels that reach the rating, as many as the model finds by itself in so many seconds."""
    maker, each = _maker(lot, asked), len(asked.network.strings)
    panels, amps, best, ordered = _pieces(maker.made(maker.sorted_deal()).strings), _wide(maker), 0, True
    for _ in range(2):
        model = _modelled(maker, amps, ordered)
        values, _ = _hinted(model, _rows(panels, len(model.put)))
        if values:
            model.begin(values)
        found, _ = model.solved(seconds / 2)
        best = max(best, _best(maker, model, (found, values)))
        panels = _panels_of(model, found, each) if found else panels
        amps, ordered = _about(maker, amps, panels), False
    return best


def _best(maker: Maker, model: Model, found: Sequence[Sequence[int]]) -> int:
    """Most panels of some answers, those it was begun with among them."""
    each = len(maker.network.strings)
    return max((_reached(maker, _panels_of(model, values, each)) for values in found if values), default=0)


def _pieces(strings: Whole) -> Panels:
    return [[[k for k in row if k >= 0] for row in panel] for panel in strings.tolist()]


def _maker(lot: Standing, asked: Asked) -> Maker:
    if not isinstance(asked.aim, MostReaching):
        raise ValueError("the model knows panels that reach a rating")
    return bench(lot, asked)


def _rating_w(maker: Maker) -> float:
    return float(getattr(maker.aim, "rating_w", 0.0))


def _wide(maker: Maker) -> np.ndarray:
    """Currents over all that strings of the sorted deal work at, the same of every string. [A]"""
    own = currents_of(maker.vectors, maker.sorted_deal())
    row = np.linspace((1 - _BEYOND) * own.min(), (1 + _BEYOND) * own.max(), LEVELS)
    return np.tile(row, (maker.panels * len(maker.network.strings), 1))


def _about(maker: Maker, amps: np.ndarray, panels: Panels) -> np.ndarray:
    """Finer currents about those of a deal's strings; a string that is not made keeps what it had. [A]"""
    found, each = amps.copy(), amps.shape[0] // maker.panels
    for p, panel in enumerate(panels):
        if all(panel):
            own = stand(maker.vectors, summed(maker.vectors, packed([panel], maker.rules))).string_a[0]
            for s, current in enumerate(own.tolist()):
                found[p * each + s] = current * np.linspace(1 - _FINELY, 1 + _FINELY, LEVELS)
    return found


def _rows(panels: Panels, count: int) -> list[list[int]]:
    rows = [row for panel in panels for row in panel]
    return [*rows, *([[]] * (count - len(rows)))]


def _modelled(maker: Maker, amps: np.ndarray, ordered: bool) -> Model:
    """The model with these currents; panels in falling order of theirs where all have the same ones."""
    from ortools.sat.python import cp_model

    model, each = cp_model.CpModel(), len(maker.network.strings)
    put, at = _strings(model, maker, amps.shape[0])
    made = _panels(model, (put, at), Table.of(maker, _rating_w(maker), amps), each)
    if ordered:
        for one, other in pairwise(at[::each]):
            model.add(_height(one) >= _height(other))
    model.maximize(sum(made))
    return Model(model, put, made)


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
        for s, (row, level) in enumerate(zip(put, at, strict=True)):
            _alone(model, row, level, (table, s))
        return [sum(level) for level in at]
    first = range(0, len(put), each)
    return [_abreast(model, put[k : k + each], at[k : k + each], (table, k)) for k in first]


def _alone(model: Any, row: list[Any], level: list[Any], where: tuple[Table, int]) -> None:
    """Watts of a single string at its current reach the rating."""
    table, s = where
    amps = table.amps[s]
    watts = np.floor(_FINE * amps[:, None] * table.volts[s])
    need = np.ceil(_FINE * (table.rating_w + amps * table.taken_v[s] + table.lead_ohm * amps**2))
    for q, chosen in enumerate(level):
        given = sum(int(w) * piece for w, piece in zip(watts[q], row, strict=True))
        model.add(given >= int(need[q])).only_enforce_if(chosen)


def _abreast(model: Any, put: Rows, at: Rows, where: tuple[Table, int]) -> Any:
    """Every string's current at the panel's voltage; their sum gives the rating there."""
    table, first = where
    volts = table.usual_v * np.linspace(*_ABOUT, VOLTS)
    holds, made = [model.new_bool_var("") for _ in volts], model.new_bool_var("")
    model.add(sum(holds) == made)
    for level in at:
        model.add(sum(level) == made)
    held = model.new_int_var(0, int(_FINE * volts[-1]) + 1, "")
    amps = [
        _at_held(model, (row, level), (table, first + s), held)
        for s, (row, level) in enumerate(zip(put, at, strict=True))
    ]
    for volt, chosen in zip(volts.tolist(), holds, strict=True):
        model.add(held >= int(np.ceil(_FINE * volt))).only_enforce_if(chosen)
        model.add(sum(amps) >= _current(volt, table)).only_enforce_if(chosen)
    return made


def _at_held(model: Any, rows: tuple[list[Any], list[Any]], where: tuple[Table, int], held: Any) -> Any:
    """Current of a string at the panel's voltage: on a straight line from the current it chose."""
    (row, level), (table, s) = rows, where
    amps, volts = table.amps[s], np.floor(_FINE * table.volts[s])
    gives = model.new_int_var(0, int(_FINE * 2 * amps[-1]), "")
    for q, chosen in enumerate(level):
        volt = sum(int(v) * piece for v, piece in zip(volts[q], row, strict=True))
        more = volt - held - int(np.ceil(_FINE * table.taken_v[s, q]))
        slope, far = float(table.slope_a[s, q]), _APART * (amps[1] - amps[0])
        line = _SLOPE * int(_FINE * amps[q]) + int(_SLOPE * slope) * more
        model.add(_SLOPE * gives <= line).only_enforce_if(chosen)
        for side in (more, -more):
            model.add(side <= int(_FINE * far / slope)).only_enforce_if(chosen)
    model.add(gives <= int(_FINE * 2 * amps[-1]) * sum(level))
    return gives


def _current(volt: float, table: Table) -> int:
    """Current by which a panel gives its rating at a voltage, the leads counted; never, if none does."""
    rest = volt**2 - 4 * table.lead_ohm * table.rating_w
    if rest < 0:
        return 10**9
    return int(np.ceil(_FINE * 2 * table.rating_w / (volt + rest**0.5)))


def _height(level: list[Any]) -> Any:
    return sum((q + 1) * each for q, each in enumerate(level))


def _hinted(model: Model, rows: list[list[int]]) -> tuple[tuple[int, ...], int]:
    """All values of a deal of which every string is made as it is, or not made; and panels that count."""
    fixed = model.copied()
    for row, mine in zip(fixed.put, rows, strict=True):
        for k, each in enumerate(row):
            if k not in mine:
                fixed.model.add(each == 0)
    return fixed.solved(_ACCEPT_S)


def _panels_of(model: Model, values: Sequence[int], each: int) -> Panels:
    """Pieces of every string that is made."""
    rows = [[k for k, chosen in enumerate(row) if values[chosen.index]] for row in model.put]
    return [rows[k : k + each] for k in range(0, len(rows), each)]


def _reached(maker: Maker, panels: Panels) -> int:
    """Panels that are allowed and reach the rating by the exact circuit."""
    filled = [panel for panel in panels if all(panel)]
    made = packed(filled, maker.rules)
    may = [
        k
        for k, panel in enumerate(made)
        if all(maker.rules.allowed(s, row[row >= 0]) for s, row in enumerate(panel))
    ]
    seats = cells_of(maker.rules, made[may])
    return int((exact_w(maker.network, maker.rules.pieces.cells, seats) >= _rating_w(maker)).sum())


def sorted_count(lot: Standing, asked: Asked) -> int:
    """Panels of plain sorting that reach the rating."""
    maker = bench(lot, asked)
    return len(maker.made(maker.sorted_deal()).power_w)
