"""Many panels of one wiring, one after the other: the loops that are worth compiling."""

from __future__ import annotations

from panewright.cell.root import Array
from panewright.circuit.solver.abreast import load
from panewright.circuit.solver.bus import bus_v, held_at
from panewright.circuit.solver.crest import greatest
from panewright.circuit.solver.facts import learn
from panewright.circuit.solver.hand import Hand
from panewright.circuit.solver.sheet import Cells, Sheet, Tables
from panewright.circuit.solver.walk import Pool


def panel(sheet: Sheet, cells: Tables, p: int, hand: Hand) -> Cells:
    """The cells of one panel, from tables (panels, cells), ready to be looked at."""
    one = Cells(
        cells.light[p],
        cells.saturation[p],
        cells.ideality[p],
        cells.series[p],
        cells.shunt[p],
        cells.breakdown[p],
        cells.breakdown_v[p],
        cells.exponent[p],
        cells.sign[p],
        cells.amount[p],
        cells.per_saturation[p],
        cells.per_ideality[p],
        cells.per_breakdown[p],
        hand.parts,
    )
    learn(sheet, one)
    load(sheet, one, hand.work)
    _start(hand)
    return one


def peaks(
    sheet: Sheet, cells: Tables, level: float, hand: Hand, pool: Pool, amps: Array, volts: Array
) -> None:
    """Current and voltage of every panel at its greatest power."""
    for p in range(len(amps)):
        one = panel(sheet, cells, p, hand)
        best = greatest(sheet, one, level, hand, pool)
        amps[p], volts[p] = pool.current[best], pool.volt[best]


def currents(sheet: Sheet, cells: Tables, volts: Array, hand: Hand, amps: Array) -> None:
    """Current of every panel at terminal voltages: tables (panels, points)."""
    for p in range(len(volts)):
        one = panel(sheet, cells, p, hand)
        for q in range(len(volts[p])):
            found = held_at(sheet, one, volts[p, q], sheet.lead_ohm, False, hand)
            amps[p, q] = found[1]


def voltages(sheet: Sheet, cells: Tables, amps: Array, hand: Hand, volts: Array) -> None:
    """Terminal voltage of every panel at currents: tables (panels, points)."""
    for p in range(len(amps)):
        one = panel(sheet, cells, p, hand)
        for q in range(len(amps[p])):
            bus = bus_v(sheet, one, amps[p, q], False, hand)
            volts[p, q] = bus - sheet.lead_ohm * amps[p, q]


def _start(hand: Hand) -> None:
    """Nothing is known of a panel beforehand."""
    for k in range(len(hand.guess_a)):
        hand.guess_a[k] = 0.0
    for s in range(len(hand.near_a)):
        hand.near_a[s], hand.seen[s][2] = 0.0, 0.0
