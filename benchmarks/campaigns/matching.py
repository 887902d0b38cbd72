"""Lots matched: never worse than sorting; where it fails, how much of its gap to the bound is closed.

All lots are invented: drawn by chance from one kind of cell, with the correlations that lots have. Each bound
is reckoned again from its certificate.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from decimal import Decimal
from random import Random

import numpy as np

from campaigns.found import Found
from campaigns.matching_told import Answer, told_of
from panewright.cell.curve import current_a, voltage_v
from panewright.cell.diode import Diode
from panewright.cell.diodes import Diodes
from panewright.circuit.mismatch.spread import Spread, lot_by_work, moved
from panewright.circuit.network import Network, String, Substring
from panewright.circuit.trials import Trials, most_power
from panewright.enclosure.bypass import Bypass
from panewright.lots.matching.asked import (
    Aim,
    Asked,
    BestRemainder,
    Limits,
    MostMoney,
    MostReaching,
    MostWatts,
    Reverse,
    Step,
)
from panewright.lots.matching.deal import exact_w
from panewright.lots.matching.match import bench, match
from panewright.lots.matching.matched import Matched
from panewright.lots.matching.proof.certificate import holds
from panewright.lots.matching.proof.sets import Room
from panewright.lots.matching.seats import Seats
from panewright.lots.standing.standing import Standing

CELL = Diode(9.2, 2.3e-9, 0.02826, 0.004, 30.0, 0.005, -18.0, 3.4)
SCHOTTKY = Bypass("a Schottky diode", 5e-6, 0.02698, 0.01, 15.0, 45.0)
KINDS = ("soldered", "steps", "parallel", "limits")
SIZES = (120, 150, 180, 210, 240)  #: cells of a lot


@dataclass(frozen=True, slots=True)
class Drawn:
    """How cells of a lot differ: shares; and how many leak or are weak in reverse."""

    imp: float = 0.04
    vmp: float = 0.012
    correlation: float = 0.4
    series: float = 0.08
    leaky: float = 0.0
    weak: float = 0.0


def cells(count: int, seed: int, lot: Drawn) -> Diodes:
    """Cells drawn from a lot."""
    dice = np.random.default_rng(seed)
    spread = lot_by_work(CELL, lot.imp, lot.vmp, lot.correlation)
    spread = Spread(spread.light, spread.voltage, lot.series, 0.35, spread.correlation)
    odds = dice.multivariate_normal(np.zeros(4), np.array(spread.correlation), count, method="eigh")
    drawn = moved(Diodes.of((CELL,)), spread, odds)
    drawn = Diodes(*(np.array(np.broadcast_to(getattr(drawn, f.name), (count,))) for f in fields(Diodes)))
    leaks, weak = dice.random(count) < lot.leaky, dice.random(count) < lot.weak
    shunt = np.where(leaks, np.exp(dice.uniform(np.log(0.8), np.log(6.0), count)), drawn.shunt_ohm)
    return replace(
        drawn,
        shunt_ohm=shunt,
        breakdown_v=np.where(weak, -dice.uniform(7.0, 11.0, count), drawn.breakdown_v),
    )


def standing(drawn: Diodes) -> Standing:
    """The lot as it stands when every figure is known exactly."""
    count, none = drawn.light_a.size, np.zeros(drawn.light_a.size)
    alone = Network((String((Substring((CELL,), (0.0,)),)),))
    peaks = most_power(Trials(alone, Diodes(*(getattr(drawn, f.name)[:, None] for f in fields(Diodes)))))
    marks = tuple(f"c{k:04}" for k in range(1, count + 1))
    return Standing(
        marks,
        drawn,
        current_a(drawn, none),
        voltage_v(drawn, none),
        peaks.current_a,
        peaks.voltage_v,
        peaks.power_w,
        none,
        peaks.power_w,
        peaks.power_w,
        none,
        none,
        none,
    )


def wiring(count: int, strings: int, substrings: int, lead_ohm: float = 0.002) -> Network:
    """A panel of so many cells; each string in so many substrings with a bypass diode each."""
    each = count // (strings * substrings)
    part = Substring((CELL,) * each, (0.0012,) * each, SCHOTTKY)
    return Network((String((part,) * substrings, 0.004),) * strings, lead_ohm)


def soldered(lot: Standing, length: int, seed: int) -> tuple[tuple[str, ...], ...]:
    """Strings that someone soldered from the lot without looking."""
    order = np.random.default_rng(seed).permutation(len(lot.marks))
    whole = order[: order.size // length * length].reshape(-1, length)
    return tuple(tuple(lot.marks[k] for k in row) for row in whole)


def sorted_w(lot: Standing, asked: Asked) -> np.ndarray:
    """Watts of the panels that plain sorting makes."""
    maker = bench(lot, replace(asked, aim=MostWatts()))
    return maker.made(maker.sorted_deal()).power_w


def steps(mean_w: float, apart_w: float = 5.0) -> MostMoney:
    """Price steps about what panels give; of small panels nearer together."""
    apart_w = min(apart_w, mean_w / 5)
    first = round(mean_w / apart_w) * apart_w - 2 * apart_w
    return MostMoney(tuple(Step(first + apart_w * k, Decimal(90 + 11 * k)) for k in range(5)))


def job(chance: Random, kind: str, size: int) -> tuple[Standing, Asked]:
    """A lot and what is asked of it, of one of the kinds where sorting fails; the aim is set afterwards."""
    seed = chance.randrange(10**6)
    lot = Drawn(leaky=0.05, weak=0.04) if kind == "limits" else Drawn(imp=chance.choice((0.03, 0.04, 0.05)))
    drawn = standing(cells(size, seed, lot))
    network = {
        "soldered": wiring(36, 1, 2),
        "steps": wiring(chance.choice((36, 48, 60)), 1, 2),
        "parallel": wiring(chance.choice((24, 36, 48)), chance.choice((2, 3, 4)), 1),
        "limits": wiring(36, 1, chance.choice((2, 3))),
    }[kind]
    joined = soldered(drawn, 9, seed) if kind == "soldered" else ()
    limits = Limits(6.0, 1, Reverse(0.66)) if kind == "limits" else Limits()
    return drawn, Asked(network, MostWatts(), limits, joined)


def aims(lot: Standing, asked: Asked) -> tuple[Aim, ...]:
    """Money with steps, panels reaching the mean, and the best remainder."""
    watts = sorted_w(lot, asked)
    mean = _told_w(float(watts.mean()) if watts.size else usual_w(lot, asked))
    return steps(mean), MostReaching(mean), BestRemainder(max(1, watts.size // 2), mean)


def usual_w(lot: Standing, asked: Asked) -> float:
    """Watts of a panel's cells, each by itself: what is asked where sorting makes no panel."""
    return float(lot.power_w.mean()) * Seats.of(asked.network).count


def _told_w(watts: float) -> float:
    """A rating as it is asked: to a tenth of a watt, below a watt to three digits."""
    return round(watts, 1) if watts >= 1 else float(f"{watts:.3g}")


def proven(matched: Matched) -> bool:
    """Whether the bound stands when it is reckoned again."""
    rules = matched.rules
    room = Room.of(rules.pieces, rules.seats, rules.most_leaky)
    return holds(matched.bound, rules.pieces, matched.asked.network, room)


def fault(matched: Matched) -> str:
    """What is wrong with a matching; nothing where it is sound."""
    rules, seats = matched.rules, matched.made.seats
    every = [seat.mark for panel in matched.panels for seat in panel.seats] + list(matched.left)
    if sorted(every) != sorted(matched.lot.marks):
        return "a cell is used twice or lost"
    if matched.score < matched.sorted_score:
        return "worse than sorting"
    if not np.allclose(exact_w(matched.asked.network, matched.lot.cells, seats), matched.made.power_w):
        return "watts are not those of the circuit"
    part = np.array(rules.seats.substring_of)
    for panel in seats:
        leaky = np.bincount(part, rules.pieces.leaky[panel])
        if (leaky > rules.most_leaky).any():
            return "too many leaky cells in a substring"
        if (rules.pieces.most_cells[panel] < np.array(rules.seats.driven)[part]).any():
            return "a weak cell is driven too far"
    return (
        "" if matched.bound.kind in ("exhausted", "tried") or proven(matched) else "the bound is not proven"
    )


def campaign(count: int, seed: int) -> Found:
    """Lots of four kinds in turn, each for four aims."""
    return told_of([each for lot in answers(count, seed) for each in lot])


def answers(count: int, seed: int, first_one: int = 0) -> Iterator[tuple[Answer, ...]]:
    """Of so many lots: of each aim. Each lot has a chance of its own, by its number."""
    match(*job(Random(seed), KINDS[0], 40))  # compiles
    for number in range(first_one, first_one + count):
        chance, kind = Random(f"{seed}/{number}"), KINDS[number % len(KINDS)]
        lot, asked = job(chance, kind, chance.choice(SIZES))
        every = (MostWatts(), *aims(lot, asked))
        yield tuple(_answer(number, kind, lot, replace(asked, aim=aim)) for aim in every)


def _answer(number: int, kind: str, lot: Standing, asked: Asked) -> Answer:
    """One lot for one aim."""
    begin = time.process_time()
    matched = match(lot, asked)
    place = -1 if isinstance(asked.aim, BestRemainder) and matched.bound.kind != "panels" else 0
    return Answer(
        number,
        kind,
        type(asked.aim).__name__,
        len(lot.marks),
        float(matched.sorted_score[place]),
        float(matched.score[place]),
        float(matched.bound.value),
        matched.closed,
        matched.more_panels > 0,
        time.process_time() - begin,
        fault(matched),
    )
